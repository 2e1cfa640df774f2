"""Findings and sources as plain values."""

from __future__ import annotations

from netaudit.citation import PLAN, Citation
from netaudit.model.report import Report
from netaudit.report.values import finding_values, source_values


def test_a_finding_has_its_numbers_with_their_units_and_its_places_as_people_write_them(report: Report) -> None:
    values = finding_values(report.findings[1])

    assert ["cable W02", "cable C02"] == values["where"]
    assert [{"value": 62.0, "unit": "m"}, {"value": 55.0, "unit": "m"}] == [values["measured"], values["limit"]]
    assert {"document": "A standard", "clause": "clause 55", "standing": "secondary"} == values["source"]


def test_unknown_is_null(report: Report) -> None:
    values = finding_values(report.findings[2])

    assert [None, None, None] == [values["measured"], values["limit"], values["line"]]
    assert {"document": "the plan itself", "clause": None, "standing": "plan"} == source_values(PLAN)
    assert "read" == source_values(Citation("A standard", None, "read"))["standing"]
