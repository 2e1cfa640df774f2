"""A filled sheet as JSON, held against its published schema by an independent validator."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

import jsonschema
import pytest

from netaudit.report.acceptance.data import as_json, document
from netaudit.report.schema import answer_schema

VALIDATOR = jsonschema.Draft202012Validator(json.loads(answer_schema("acceptance")))
Made = Callable[..., Any]


def test_the_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(json.loads(answer_schema("acceptance")))


def test_a_report_satisfies_the_schema(report: Made, every: Any) -> None:
    VALIDATOR.validate(json.loads(as_json(report(*every, remarks=("Nobody signed.",)))))
    VALIDATOR.validate(json.loads(as_json(report())))


def test_the_values_are_those_of_the_sheet(report: Made, every: Any) -> None:
    values = json.loads(as_json(report(*every)))
    slower = values["cables"][1]

    assert {
        "cables": 7,
        "as_expected": 1,
        "slower": 2,
        "faster": 1,
        "not_tested": 1,
        "nothing_to_hold_against": 1,
        "no_rate_to_read": 1,
    } == (values["summary"])
    assert {
        "cable": "C09",
        "from": "cut-1/wire",
        "to": ["core/1"],
        "expected_bit_per_s": 10_000_000_000,
        "where": "read at cut-1/wire and core/1",
        "verdict": "slower",
        "seen": {
            "bit_per_s": 1_000_000_000,
            "ends": "cut-1/wire - core/1",
            "initials": "MB",
            "note": "a note\nover\x1b[31m two lines",
            "line": 2,
        },
    } == slower


def test_names_stand_as_they_are_two_blanks_deep(report: Made, made_cable: Made) -> None:
    text = as_json(report(made_cable("שלום", "not tested")))

    assert text.startswith('{\n  "format": "netaudit.acceptance/1",\n')
    assert '      "cable": "שלום",\n' in text


def test_no_link_is_zero_and_not_tested_is_null(report: Made, every: Any) -> None:
    cables = document(report(*every))["cables"]

    assert [0, None, None] == [cables[2]["seen"]["bit_per_s"], cables[4]["seen"], cables[5]["expected_bit_per_s"]]


@pytest.mark.parametrize(
    "spoil",
    [
        lambda values: values.pop("sentence"),
        lambda values: values.update(extra=1),
        lambda values: values["summary"].update(slower=-1),
        lambda values: values["cables"][0].update(verdict="good"),
        lambda values: values["cables"][0].update(expected_bit_per_s=0),
        lambda values: values["cables"][0].update(to=[]),
        lambda values: values["cables"][0].update({"from": "cut-1"}),
        lambda values: values["cables"][0]["seen"].update(line=0),
        lambda values: values["cables"][0]["seen"].update(bit_per_s=1.5),
        lambda values: values["cables"][0]["seen"].pop("note"),
    ],
)
def test_the_schema_refuses_what_the_contract_does_not_have(
    report: Made, every: Any, spoil: Callable[[Any], None]
) -> None:
    spoilt = copy.deepcopy(document(report(*every)))
    spoil(spoilt)

    assert not VALIDATOR.is_valid(spoilt)
