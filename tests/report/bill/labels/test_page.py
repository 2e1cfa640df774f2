"""The printed labels: every one there, each at its place, and none of them dangerous."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from bills import HOSTILE, bills, full_bill, port
from geometries import geometries
from hypothesis import given, settings
from hypothesis import strategies as st
from pages import Element, shape, tree

from netaudit.model.bill import Bill
from netaudit.model.moving import Label
from netaudit.report.bill.labels.fit import fitted
from netaudit.report.bill.labels.geometry import SIZES_MM, LabelGeometry, parsed
from netaudit.report.bill.labels.page import label_page

CHROMIUM = shutil.which("chromium")


def labels(count: int) -> tuple[Label, ...]:
    """Labels of as many ends."""
    near, far = port("cut-1/wire"), port("loft-plate/1")
    return tuple(Label(f"C{n}", "from", near, (far,), f"C{n} {near} > {far} 6A 3 m") for n in range(count))


def cells(page: str) -> list[Element]:
    """All labels of all sheets."""
    return list(tree(page).every("div", "l"))


def positions_mm(page: str) -> dict[str, tuple[float, ...]]:
    """The class of each column and each row to its place and the white on both sides [mm]."""
    style = tree(page).one("style").text
    rules = re.findall(
        r"^\.([cr][0-9]+) \{ \w+: ([0-9.]+)mm; [\w-]+: ([0-9.]+)mm; [\w-]+: ([0-9.]+)mm; \}$", style, re.M
    )
    return {name: tuple(map(float, numbers)) for name, *numbers in rules}


@given(geometries(), st.integers(0, 60))
@settings(max_examples=40, deadline=None)
def test_there_are_as_many_labels_as_ends_and_used_ones_to_skip(geometry: LabelGeometry, count: int) -> None:
    page = label_page(labels(count), geometry)
    used = [cell for cell in cells(page) if "used" in cell.attributes["class"].split()]
    skipped = geometry.skip if count else 0

    assert count + skipped == len(cells(page))
    assert skipped == len(used)
    assert -(-(count + skipped) // geometry.per_sheet) == len(list(tree(page).every("section")))


@given(geometries())
@settings(max_examples=40, deadline=None)
def test_every_label_is_printed_inside_the_paper(geometry: LabelGeometry) -> None:
    page = label_page(labels(geometry.per_sheet), geometry)
    places = positions_mm(page)
    paper_width_mm, paper_height_mm = SIZES_MM[geometry.paper]

    for cell in cells(page):
        column, row = (places[name] for name in cell.attributes["class"].split()[1:3])
        assert 0 <= column[0] <= paper_width_mm - geometry.width_mm + 2e-3
        assert 0 <= row[0] <= paper_height_mm - geometry.height_mm + 2e-3
        assert column[1] + column[2] <= geometry.width_mm / 2 + 2e-3
        assert row[1] + row[2] <= geometry.height_mm / 2 + 2e-3


def test_no_two_labels_of_a_sheet_take_the_same_place() -> None:
    for sheet in tree(label_page(labels(60), LabelGeometry(skip=5))).every("section"):
        places = [tuple(cell.attributes["class"].split()[1:3]) for cell in sheet.every("div", "l")]
        assert len(places) == len(set(places))


def test_labels_run_from_the_left_row_by_row_behind_the_used_ones() -> None:
    places = [cell.attributes["class"].split()[1:3] for cell in cells(label_page(labels(3), LabelGeometry(skip=2)))]

    assert [["c0", "r0"], ["c1", "r0"], ["c2", "r0"], ["c0", "r1"], ["c1", "r1"]] == places


def test_text_keeps_clear_of_the_edge_of_the_paper() -> None:
    """Printers leave about 5 mm white along the edge: common practice, no source."""
    places = positions_mm(label_page(labels(24), LabelGeometry()))

    assert [(0, 5, 2.5), (70, 2.5, 2.5), (140, 2.5, 5)] == [places[name] for name in ("c0", "c1", "c2")]


@pytest.mark.parametrize(
    ("text", "sheet", "room_mm"),
    [
        ("a" * 11, {"columns": 7, "rows": 1, "width_mm": 30, "height_mm": 8, "top_mm": 100}, (22.5, 6.4)),
        ("a b", {"columns": 1, "rows": 4, "width_mm": 80, "height_mm": 10, "left_mm": 50, "top_mm": 0}, (75, 6.5)),
    ],
)
def test_type_is_chosen_for_the_narrowest_and_the_lowest_room(
    text: str, sheet: dict[str, Any], room_mm: tuple[float, float]
) -> None:
    """2.5 mm are white on each side, or a tenth of a small label; 5 mm where the paper ends, or a quarter of it."""
    label = labels(1)[0]._replace(text=text)
    (cell,) = cells(label_page([label], LabelGeometry(**sheet)))

    assert f"s{fitted(label, *room_mm).size_pt}" == cell.attributes["class"].split()[-1]
    assert fitted(label, *room_mm).size_pt < fitted(label, room_mm[0] + 2.5, room_mm[1] + 0.5).size_pt


@given(bills())
@settings(max_examples=40, deadline=None)
def test_every_text_is_printed_whole(bill: Bill) -> None:
    shown = [cell.text for cell in cells(label_page(bill.labels, LabelGeometry()))]

    assert ["".join(label.text.split()) for label in bill.labels] == ["".join(text.split()) for text in shown]


@pytest.mark.parametrize("name", HOSTILE)
def test_a_name_makes_no_element_and_no_attribute(name: str) -> None:
    def page(text: str) -> Element:
        return tree(label_page([labels(1)[0]._replace(text=text)], LabelGeometry()))

    assert shape(page("harmless")) == shape(page(name))
    assert name.strip() == page(name).one("span").text


def test_the_cable_stands_first_and_bold() -> None:
    cell = cells(label_page(full_bill().labels, LabelGeometry()))[0]

    assert "C01" == cell.one("b").text
    assert ["cut-1/wire", "> loft-plate/1"] == [line.text for line in cell.every("span")]


def test_labels_too_long_for_their_size_are_named_above_the_sheets() -> None:
    long, short = labels(2)[0]._replace(text="x" * 5000), labels(2)[1]

    assert "left out: C0 at cut-1/wire." in tree(label_page([long, short], LabelGeometry())).one("div", "how").text
    assert "left out" not in label_page([short], LabelGeometry())


def test_a_small_label_keeps_its_name_and_whole_lines_within_its_height() -> None:
    """Labels of 25 x 10 mm, such as wrap around a cord: what does not fit is left out by the line."""
    geometry = parsed("7x25 25x10 mm")
    long = Label("north-wall-17", "from", port("cut-1/wire"), (port("loft-plate/1"),), "")
    text = "north-wall-17 cut-1/wire > loft-plate/1 fibre OM4, a note that goes on and on for far longer than it should"
    (cell,) = cells(label_page([long._replace(text=text)], geometry))

    assert "north-wall-17" == cell.one("b").text
    assert "cut-1/wire" == next(cell.every("span")).text
    assert "goes on" not in cell.text


def test_small_labels_have_little_white_so_that_more_is_left_for_the_text() -> None:
    places = positions_mm(label_page(labels(1), parsed("2x2 25x10 mm")))

    assert [2.5, 2.5] == list(places["c0"][1:])
    assert [1, 1] == list(places["r0"][1:])


def test_without_a_cable_there_is_no_sheet() -> None:
    page = tree(label_page((), LabelGeometry(skip=3)))

    assert [] == list(page.every("section"))
    assert "nothing to label" in page.text


def test_nothing_is_fetched_and_cutting_lines_stay_on_the_screen() -> None:
    page = label_page(full_bill().labels, LabelGeometry())
    policies = [each.attributes["content"] for each in tree(page).every("meta") if "http-equiv" in each.attributes]
    style = tree(page).one("style").text

    assert ["default-src 'none'; style-src 'unsafe-inline'"] == policies
    assert not re.search(r"url\(|@import|@font-face|https?:", style)
    assert style.index("@media screen") < style.index("dotted")
    assert "@page { size: 210mm 297mm; margin: 0; }" in style


@pytest.mark.skipif(CHROMIUM is None, reason="chromium is not installed")
@pytest.mark.parametrize("paper", SIZES_MM)
def test_a_browser_prints_each_sheet_on_one_page_of_its_paper(paper: str, tmp_path: Path) -> None:
    """Chromium's own layout; a page of PDF is counted by its object, its size is in points of 1/72 inch."""
    geometry = LabelGeometry(paper=paper, columns=2, rows=5, width_mm=80, height_mm=50)
    (tmp_path / "labels.html").write_text(label_page(labels(25), geometry), encoding="utf-8")
    quiet = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"]
    where = [f"--user-data-dir={tmp_path / 'profile'}", f"--print-to-pdf={tmp_path / 'labels.pdf'}"]
    command = [str(CHROMIUM), *quiet, *where, (tmp_path / "labels.html").as_uri()]
    subprocess.run(command, check=True, capture_output=True, timeout=60)
    printed = (tmp_path / "labels.pdf").read_bytes()
    boxes_pt = re.findall(rb"/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]", printed)

    assert 3 == len(re.findall(rb"/Type /Page\b", printed))
    for box_pt in boxes_pt:
        assert SIZES_MM[paper] == pytest.approx([float(side) * 25.4 / 72 for side in box_pt], abs=0.2)
    assert boxes_pt
