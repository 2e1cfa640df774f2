"""`netaudit check`: exit codes, forms, several plans, one seat, broken input."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from netaudit.report.schema import answer_schema

VALIDATOR = jsonschema.Draft202012Validator(json.loads(answer_schema("report")))


@pytest.mark.parametrize(("plan", "code"), [("good", 0), ("open", 0), ("slow", 1), ("bad", 2), ("missing", 2)])
def test_the_exit_code_tells_the_verdict(run, plan: str, code: int) -> None:
    assert code == run("check", f"{plan}.yaml").code


def test_the_answer_is_the_first_line(run) -> None:
    assert run("check", "slow.yaml").out.splitlines()[0].startswith("cut-1 will not hold 10 Gb/s (1250 MB/s)")


def test_json_satisfies_its_schema_for_one_plan_and_for_several(run) -> None:
    one = json.loads(run("check", "--format", "json", "good.yaml").out)
    several = json.loads(run("check", "--format", "json", "good.yaml", "slow.yaml", "open.yaml").out)

    VALIDATOR.validate(one)
    VALIDATOR.validate(several)
    assert ["pass", "fail", "incomplete"] == [report["summary"]["verdict"] for report in several["reports"]]


def test_several_plans_give_the_worst_exit_code(run) -> None:
    assert 1 == run("check", "good.yaml", "slow.yaml").code
    assert 2 == run("check", "bad.yaml", "slow.yaml").code


def test_a_plan_that_cannot_be_read_does_not_hide_the_others(run) -> None:
    done = run("check", "bad.yaml", "slow.yaml")

    assert "cut-1 will not hold" in done.out
    assert "bad.yaml:26:" in done.err
    assert "38" in done.err


def test_errors_go_to_the_error_stream_one_a_line_with_their_place(run) -> None:
    done = run("check", "bad.yaml")

    assert "" == done.out
    (line,) = done.err.splitlines()
    assert line.startswith("bad.yaml:26:")
    assert ": cables.W01.length: " in line


def test_output_goes_to_a_file_and_is_the_same(run, tmp_path: Path) -> None:
    shown = run("check", "slow.yaml").out
    done = run("check", "slow.yaml", "--output", "verdict.txt")

    assert (1, "") == (done.code, done.out)
    assert shown == (tmp_path / "verdict.txt").read_text(encoding="utf-8")


def test_a_failed_run_leaves_no_empty_file(run, tmp_path: Path) -> None:
    run("check", "bad.yaml", "--output", "verdict.txt")

    assert not (tmp_path / "verdict.txt").exists()


def test_an_output_that_cannot_be_written_is_told(run) -> None:
    done = run("check", "good.yaml", "--output", "no/such/folder.txt")

    assert 2 == done.code
    assert "no/such/folder.txt: cannot be written" in done.err


def test_a_station_keeps_what_touches_its_paths(run, tmp_path: Path) -> None:
    second = (
        (tmp_path / "slow.yaml").read_text()
        .replace("  plate:", "  cut-2: {role: station, ports: {wire: {connector: rj45, rates: [10G], network: media}}}\n  plate:")
        .replace("  D01:", "  C02: {from: cut-2/wire, to: core/2, category: 5e, length: 2 m}\n  D01:")
    )  # fmt: skip
    (tmp_path / "two.yaml").write_text(second)

    whole = json.loads(run("check", "--format", "json", "two.yaml").out)
    part = json.loads(run("check", "--format", "json", "two.yaml", "--station", "cut-2").out)

    VALIDATOR.validate(part)
    assert {"cut-1", "cut-2"} == {path["station"] for path in whole["paths"]}
    assert ["cut-2"] == [path["station"] for path in part["paths"]]
    assert ["path cut-2 > vault", "cable C02"] == [finding["where"][0] for finding in part["findings"]]
    assert 2 == part["summary"]["fail"]


def test_a_good_station_of_a_bad_plan_gives_exit_code_0(run, tmp_path: Path) -> None:
    text = (tmp_path / "slow.yaml").read_text().replace("  plate:", "  cut-2: {role: station, ports: {wire: {connector: rj45, rates: [10G], network: media}}}\n  plate:").replace("  D01:", "  C02: {from: cut-2/wire, to: core/2, category: 6A, length: 2 m}\n  D01:")  # fmt: skip
    (tmp_path / "two.yaml").write_text(text)

    assert 0 == run("check", "two.yaml", "--station", "cut-2").code


def test_an_unknown_station_is_told_with_the_nearest_one(run) -> None:
    done = run("check", "good.yaml", "--station", "cut1")

    assert 2 == done.code
    assert "good.yaml: --station: 'cut1' is not in the plan; 'cut-1' is" in done.err


def test_a_device_that_is_no_station_is_told_as_such(run) -> None:
    assert "'core' is a device of role switch, not a station" in run("check", "good.yaml", "--station", "core").err


def test_a_call_without_a_plan_is_a_wrong_call(run) -> None:
    done = run("check")

    assert 2 == done.code
    assert "PLAN" in done.err


def test_the_answer_is_never_written_over_the_plan(run, tmp_path: Path) -> None:
    before = (tmp_path / "good.yaml").read_bytes()
    (tmp_path / "link.yaml").symlink_to(tmp_path / "good.yaml")

    for output in ("good.yaml", "./good.yaml", "link.yaml"):
        done = run("check", "good.yaml", "--output", output)
        assert 2 == done.code
        assert "'good.yaml' is read for it" in done.err
    assert before == (tmp_path / "good.yaml").read_bytes()


def test_json_of_several_plans_keeps_its_form_where_only_one_can_be_read(run) -> None:
    several = json.loads(run("check", "--format", "json", "good.yaml", "bad.yaml").out)

    VALIDATOR.validate(several)
    assert "netaudit.reports/1" == several["format"]
