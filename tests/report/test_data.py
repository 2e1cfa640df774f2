"""The JSON form, held against its published schema by an independent validator."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

import jsonschema
import pytest

from netaudit.model.report import Report
from netaudit.report.data import all_as_json, as_json, document
from netaudit.report.schema import answer_schema

VALIDATOR = jsonschema.Draft202012Validator(json.loads(answer_schema("report")))


def test_the_json_form_is_stable(report: Report, expect: Callable[[str, str], None]) -> None:
    expect("report.json", as_json(report))


def test_the_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(json.loads(answer_schema("report")))


def test_one_report_and_several_satisfy_the_schema(report: Report) -> None:
    VALIDATOR.validate(json.loads(as_json(report)))
    VALIDATOR.validate(json.loads(all_as_json([report, report])))
    assert "netaudit.reports/1" == json.loads(all_as_json([report, report]))["format"]


@pytest.mark.parametrize(
    "spoil",
    [
        lambda report: report.pop("sentence"),
        lambda report: report["summary"].update(verdict="good"),
        lambda report: report["summary"].update(fail=-1),
        lambda report: report["paths"][0].update(rate_bit_per_s=1.5),
        lambda report: report["paths"][0].update(extra=1),
        lambda report: report["paths"][0]["hops"][0].pop("phy"),
        lambda report: report["findings"][0].update(severity="bad"),
        lambda report: report["findings"][0]["source"].update(standing="hearsay"),
        lambda report: report["findings"][0].update(where=[]),
        lambda report: report["not_checked"][0].update(decides=""),
    ],
)
def test_the_schema_refuses_what_the_contract_does_not_have(report: Report, spoil: Callable[[Any], None]) -> None:
    spoilt = copy.deepcopy(document(report))
    spoil(spoilt)

    assert not VALIDATOR.is_valid(spoilt)


def test_unknown_is_null_and_never_zero(report: Report) -> None:
    open_path = document(report)["paths"][2]

    assert [None, None] == [open_path["promised_bit_per_s"], open_path["goodput_bit_per_s"]]
    assert None is open_path["hops"][0]["length_m"]
