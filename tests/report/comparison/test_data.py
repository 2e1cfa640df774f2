"""Two bills side by side as JSON, held against its published schema by an independent validator."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from decimal import Decimal
from typing import Any

import jsonschema
import pytest

from netaudit.model.comparison import Comparison
from netaudit.report.comparison.data import as_json, document
from netaudit.report.schema import answer_schema

VALIDATOR = jsonschema.Draft202012Validator(json.loads(answer_schema("comparison")))


def test_the_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(json.loads(answer_schema("comparison")))


def test_a_comparison_satisfies_the_schema(comparison: Comparison, unpriced: Comparison) -> None:
    VALIDATOR.validate(json.loads(as_json(comparison)))
    VALIDATOR.validate(json.loads(as_json(unpriced)))
    VALIDATOR.validate(json.loads(as_json(comparison._replace(differences=(), totals=()))))


def test_a_difference_has_all_that_tells_goods_apart(comparison: Comparison) -> None:
    first, second, third = json.loads(as_json(comparison))["differences"]

    assert {
        "section": "cables",
        "what": "cord",
        "detail": None,
        "category": "6A",
        "screened": False,
        "gauge": "26 AWG",
        "ends": None,
        "length_m": 3.0,
        "before": 4,
        "after": 8,
        "more": 4,
        "price": {"amount": "7.20", "currency": "EUR"},
        "cost_more": {"amount": "28.80", "currency": "EUR"},
    } == first
    assert [0.3, "-9.10", "-129"] == [
        second["length_m"], second["cost_more"]["amount"], third["cost_more"]["amount"]
    ]  # fmt: skip


def test_amounts_are_exact_and_an_unknown_price_is_null(unpriced: Comparison) -> None:
    values = document(unpriced)
    euros, francs, pounds = values["totals"]

    assert {"currency": "EUR", "before": "300.00", "after": "341.2", "more": "41.20"} == euros
    assert ["-15", "0"] == [francs["more"], pounds["more"]]
    assert [None, None] == [values["differences"][3]["price"], values["differences"][3]["cost_more"]]
    assert [1, 2] == [values["before"]["unpriced"], values["after"]["unpriced"]]


def test_names_stand_as_they_are_two_blanks_deep(comparison: Comparison) -> None:
    text = as_json(comparison._replace(before="é.yaml"))

    assert text.startswith('{\n  "format": "netaudit.comparison/1",\n')
    assert '    "file": "é.yaml",\n' in text


def test_differences_add_up_to_the_totals_where_all_has_one_price(comparison: Comparison) -> None:
    values = document(comparison._replace(totals=()))
    costs = [Decimal(each["cost_more"]["amount"]) for each in values["differences"]]
    counts = [(each["after"] - each["before"]) * Decimal(each["price"]["amount"]) for each in values["differences"]]

    assert sum(counts) == sum(costs)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda values: values.pop("sentence"),
        lambda values: values.update(extra=1),
        lambda values: values["before"].update(unpriced=-1),
        lambda values: values["differences"][0].update(section="cords"),
        lambda values: values["differences"][0].update(more=0),
        lambda values: values["differences"][0].update(length_m=0),
        lambda values: values["differences"][0].update(gauge="26"),
        lambda values: values["differences"][0].update(price=7.2),
        lambda values: values["differences"][0]["price"].update(amount="7.20 EUR"),
        lambda values: values["totals"][0].update(more=41.2),
    ],
)
def test_the_schema_refuses_what_the_contract_does_not_have(
    comparison: Comparison, spoil: Callable[[Any], None]
) -> None:
    spoilt = copy.deepcopy(document(comparison))
    spoil(spoilt)

    assert not VALIDATOR.is_valid(spoilt)
