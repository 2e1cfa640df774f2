"""Findings as values."""

from __future__ import annotations

from netaudit.citation import PLAN
from netaudit.model.finding import Finding, Measure
from netaudit.model.place import cable_place


def test_a_finding_has_no_line_and_no_number_until_somebody_gives_one() -> None:
    finding = Finding(rule="x", severity="fail", where=(cable_place("W01"),), message="m", remedy="r", source=PLAN)

    assert (None, None, None) == (finding.line, finding.measured, finding.limit)
    assert 7 == finding._replace(line=7).line


def test_a_measure_is_equal_only_in_number_and_unit() -> None:
    assert Measure(62.0, "m") == Measure(62, "m")
    assert Measure(62.0, "m") != Measure(62.0, "ft")
