"""`netaudit cables` as a person calls it."""

from __future__ import annotations

import csv
import io
import json
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from openpyxl import load_workbook

TOPOLOGIES = Path(__file__).parents[2] / "topologies"

Run = Callable[..., Any]


@pytest.fixture
def wing(run: Run, tmp_path: Path) -> Run:
    """Runs `cables` in a folder that holds the plan of the new wing and the Boathouse."""
    for name in ("new-wing", "boathouse", "first-sketch"):
        shutil.copy(TOPOLOGIES / f"{name}.yaml", tmp_path)
    return lambda *arguments: run("cables", *arguments)


def test_the_answer_stands_first(wing: Run) -> None:
    done = wing("new-wing.yaml")

    assert (0, "") == (done.code, done.err)
    assert done.out.startswith("Order 15 cords and cables, 1 box of cable, 3 modules and 19 parts, spares included.\n")


def test_it_judges_nothing(wing: Run) -> None:
    assert 0 == wing("boathouse.yaml").code


def test_a_plan_without_a_single_length_gives_a_useful_bill(wing: Run) -> None:
    done = wing("first-sketch.yaml", "--format", "json")
    bill = json.loads(done.out)

    assert [("cord", None, 6, 1), ("twinax", None, 1, 1)] == [
        (row["what"], row["length_m"], row["quantity"], row["spares"]) for row in bill["buy"]
    ]
    assert 10 == len(bill["measure"])
    assert ["W03"] == bill["identify"]
    assert (None, None, ["W01", "W02"]) == (
        bill["bulk"][0]["boxes"],
        bill["bulk"][0]["proved_optimal"],
        bill["bulk"][0]["unmeasured"],
    )


@pytest.mark.parametrize("sheet", ["bill", "cuts", "lengths", "labels", "ports", "free", "specification", "bench",
                                   "moves", "accept", "addresses"])  # fmt: skip
def test_every_sheet_is_csv(wing: Run, sheet: str) -> None:
    done = wing("new-wing.yaml", "--sheet", sheet, "--format", "csv")
    rows = list(csv.reader(io.StringIO(done.out)))

    assert 0 == done.code
    assert len(rows) > 1
    assert 1 == len({len(row) for row in rows})


def test_csv_without_a_sheet_is_the_bill(wing: Run) -> None:
    assert (
        wing("new-wing.yaml", "--format", "csv").out == wing("new-wing.yaml", "--format", "csv", "--sheet", "bill").out
    )


def test_a_sheet_is_text_too(wing: Run) -> None:
    assert wing("new-wing.yaml", "--sheet", "cuts").out.startswith("What to cut from which box\n")


def test_a_workbook_goes_to_a_file(wing: Run, tmp_path: Path) -> None:
    done = wing("new-wing.yaml", "--format", "xlsx", "--output", "wing.xlsx")

    assert (0, "", "") == done
    assert "bill" in [name.casefold() for name in load_workbook(tmp_path / "wing.xlsx").sheetnames]


def test_a_page_is_one_file_and_so_is_the_sheet_of_labels(wing: Run) -> None:
    page = wing("new-wing.yaml", "--format", "html").out
    labels = wing("new-wing.yaml", "--format", "html", "--sheet", "labels", "--label-sheet", "2x7 99x38 mm").out

    assert page.startswith("<!DOCTYPE html>")
    assert labels.startswith("<!DOCTYPE html>")
    assert "W01 north-plate/1" in labels.replace("\u2068", "") or "W01" in labels


def test_the_bill_filled_in_by_hand_is_a_price_list(wing: Run, tmp_path: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(wing("boathouse.yaml", "--format", "csv").out)))
    with (tmp_path / "filled.csv").open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, rows[0])
        writer.writeheader()
        writer.writerows({**row, "price": "2.50", "currency": "EUR"} for row in rows)
    bill = json.loads(wing("boathouse.yaml", "--prices", "filled.csv", "--format", "json").out)
    ordered = sum(int(row["order"]) for row in rows)

    assert [{"currency": "EUR", "amount": f"{ordered * 2.5:.2f}", "rows": len(rows)}] == bill["totals"]
    assert 0 == bill["unpriced"]


def test_a_filled_sheet_is_held_to_the_plan(wing: Run, tmp_path: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(wing("new-wing.yaml", "--sheet", "accept", "--format", "csv").out)))
    seen = {row["cable"]: "1 Gb/s" if row["cable"] == "C03" else "10G" for row in rows if row["expected"]}
    with (tmp_path / "filled.csv").open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, rows[0])
        writer.writeheader()
        writer.writerows({**row, "seen": seen.get(row["cable"], ""), "initials": "ao"} for row in rows)
    told = wing("new-wing.yaml", "--accept", "filled.csv")
    values = json.loads(wing("new-wing.yaml", "--accept", "filled.csv", "--format", "json").out)

    assert 0 == told.code
    assert "C03" in told.out.splitlines()[0]
    assert ["C03"] == [row["cable"] for row in values["cables"] if row["verdict"] == "slower"]


def test_two_plans_stand_side_by_side(wing: Run) -> None:
    told = wing("new-wing.yaml", "--against", "boathouse.yaml")
    values = json.loads(wing("new-wing.yaml", "--against", "new-wing.yaml", "--format", "json").out)

    assert 0 == told.code
    assert told.out.startswith("new-wing.yaml needs ")
    assert "than boathouse.yaml" in told.out.splitlines()[0]
    assert [] == values["differences"]


def test_more_spares_are_more_to_order(wing: Run) -> None:
    def spares(*options: str) -> int:
        rows = json.loads(wing("boathouse.yaml", "--format", "json", *options).out)["buy"]
        return sum(row["spares"] for row in rows)

    assert 9 == spares()
    assert 9 == spares("--spare", "0%")
    assert 13 == spares("--spare", "50%")


def test_boxes_waste_and_the_series_can_be_chosen(wing: Run) -> None:
    done = wing("new-wing.yaml", "--format", "json", "--box", "100 m", "--waste", "0 m", "--lengths", "imperial")
    (row,) = json.loads(done.out)["bulk"]

    assert (100.0, 3) == (row["box_m"], row["boxes"])
    assert row["cuts"][0]["length_m"] == row["cuts"][0]["run_m"]


def test_the_pattern_of_labels_can_be_chosen(wing: Run) -> None:
    done = wing("new-wing.yaml", "--format", "json", "--label", "{near} {id} {far}")

    assert "desk-1/wire C01 north-plate/1" == json.loads(done.out)["labels"][0]["text"]


@pytest.mark.parametrize(
    ("arguments", "word"),
    [
        (("gone.yaml",), "gone.yaml"),
        (("bad.yaml",), "length"),
        (("good.yaml", "--label", "{nope}"), "nope"),
        (("good.yaml", "--prices", "gone.csv"), "gone.csv"),
        (("good.yaml", "--accept", "gone.csv"), "gone.csv"),
        (("good.yaml", "--against", "gone.yaml"), "gone.yaml"),
        (("good.yaml", "--accept", "a.csv", "--against", "b.yaml"), "--accept goes without --against"),
        (("good.yaml", "--accept", "a.csv", "--sheet", "bill"), "--accept goes without --sheet"),
        (("good.yaml", "--accept", "a.csv", "--prices", "b.csv", "--box", "10 m"), "without --box and --prices"),
        (("good.yaml", "--against", "slow.yaml", "--label", "{id}"), "--against goes without --label"),
        (("good.yaml", "--against", "slow.yaml", "--format", "html"), "text or json"),
        (("good.yaml", "--format", "json", "--sheet", "bill"), "leave --sheet out"),
        (("good.yaml", "--format", "xlsx", "--sheet", "bill"), "leave --sheet out"),
        (("good.yaml", "--format", "html", "--sheet", "ports"), "leave --sheet out"),
        (("good.yaml", "--label-sheet", "3x8 70x36 mm"), "--format html --sheet labels"),
        (("good.yaml", "--waste", "2 km"), "waste"),
        (("good.yaml", "--format", "html", "--sheet", "labels", "--label-sheet", "0x8"), "--label-sheet"),
        (("good.yaml", "--format", "html", "--sheet", "labels", "--label-sheet", "99x99 90x90 mm"), "--label-sheet"),
        (("good.yaml", "--spare", "5"), "such as 10%"),
        (("good.yaml", "--label", "x\a{near}"), "U+0007"),
        (("good.yaml", "--label", ""), "nothing is written"),
        (("good.yaml", "--seconds", "nan"), "limit_s"),
        (("good.yaml", "--box", "305"), "unit"),
        (("good.yaml", "--sheet", "cute"), "cute"),
        (("good.yaml", "--output", "good.yaml"), "choose another file"),
        (("good.yaml", "--format", "xlsx", "--output", "no/such/folder.xlsx"), "cannot be written"),
        (("good.yaml", "--format", "html", "--output", "no/such/folder.html"), "cannot be written"),
    ],
)
def test_a_wrong_call_is_told_with_its_remedy(wing: Run, arguments: tuple[str, ...], word: str) -> None:
    done = wing(*arguments)

    assert (2, "") == (done.code, done.out)
    assert word in done.err
    assert "Traceback" not in done.err


HARD = 150
"""Runs of a plan whose boxes are not counted in a moment."""


def hard_plan() -> str:
    """A plan of many unlike runs that fill their boxes almost wholly, three to a box, so that a proof takes long."""
    runs = [round(38.0 + (number * 7919 % 997) / 997 * 37.0, 2) for number in range(HARD)]
    cables = [
        f"  W{number}: {{from: plate/{number}, to: panel/{number}, category: 6A, length: {run} m}}"
        for number, run in enumerate(runs, start=1)
    ]
    return "\n".join(
        (
            "netaudit: 1",
            "devices:",
            f"  plate: {{role: outlet, ports: {{1-{HARD}: {{connector: rj45}}}}}}",
            f"  panel: {{role: panel, ports: {{1-{HARD}: {{connector: rj45}}}}}}",
            "cables:",
            *cables,
            "stock:",
            *(f"  - {{what: box, category: 6A, length: {size} m, price: {price} EUR}}"
              for size, price in ((77.7, "51.3"), (101.1, "66.1"), (151.3, "99.7"), (171.9, "112.9"))),
            "",
        )
    )  # fmt: skip


def test_ctrl_c_gives_the_best_found_so_far_and_says_so(tmp_path: Path) -> None:
    (tmp_path / "hard.yaml").write_text(hard_plan(), encoding="utf-8")
    child = subprocess.Popen(
        [sys.executable, "-m", "netaudit", "cables", "hard.yaml", "--format", "json"],
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert child.stderr is not None
    first = child.stderr.readline()
    child.send_signal(signal.SIGINT)
    out, err = child.communicate(timeout=60)
    bill = json.loads(out)

    assert first
    assert 130 == child.returncode
    assert bill["stopped"]
    assert HARD == sum(len(row["cuts"]) for row in bill["bulk"])
    assert "Traceback" not in err
