"""A bill as JSON, held against its published schema by an independent validator."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any, get_args

import jsonschema
import pytest
from bills import HOSTILE, bills, empty_bill, full_bill
from hypothesis import given, settings

from netaudit.model.bill import Bill, Objective
from netaudit.model.goods import What
from netaudit.model.vocabulary import Category
from netaudit.report.bill.data.bill import as_data, as_json
from netaudit.report.schema import answer_schema

SCHEMA = json.loads(answer_schema("bill"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


def test_the_schema_is_a_schema_and_names_its_draft_and_its_format() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)

    assert "https://json-schema.org/draft/2020-12/schema" == SCHEMA["$schema"]
    assert "netaudit.bill/1" == SCHEMA["properties"]["format"]["const"]


def test_no_object_of_the_schema_takes_keys_that_it_does_not_name() -> None:
    def objects(node: Any) -> list[dict[str, Any]]:
        inner = node.values() if isinstance(node, dict) else node if isinstance(node, list) else ()
        own = [node] if isinstance(node, dict) and "object" in str(node.get("type")) else []
        return [*own, *(found for part in inner for found in objects(part))]

    for one in objects(SCHEMA):
        assert one["additionalProperties"] is False
        assert sorted(one["required"]) == sorted(one["properties"])


def test_the_schema_knows_the_words_of_the_model() -> None:
    kinds = SCHEMA["$defs"]

    assert list(get_args(What)) == kinds["what"]["enum"]
    assert [*get_args(Category), None] == kinds["category"]["enum"]
    assert list(get_args(Objective)) == kinds["bulk"]["properties"]["objective"]["enum"]


@pytest.mark.parametrize("bill", [full_bill(), empty_bill()])
def test_a_full_bill_and_an_empty_one_satisfy_the_schema(bill: Bill) -> None:
    VALIDATOR.validate(json.loads(as_json(bill)))


def test_names_stand_as_they_are_two_blanks_deep() -> None:
    text = as_json(full_bill())

    assert text.startswith('{\n  "format": "netaudit.bill/1",\n')
    assert "שלום" in text


@given(bills())
@settings(max_examples=40, deadline=None)
def test_every_bill_satisfies_the_schema(bill: Bill) -> None:
    VALIDATOR.validate(json.loads(as_json(bill)))


@pytest.mark.parametrize(
    "spoil",
    [
        lambda bill: bill.pop("plan"),
        lambda bill: bill.update(extra=1),
        lambda bill: bill["buy"][0].update(spares=0),
        lambda bill: bill["buy"][0].update(what="rope"),
        lambda bill: bill["buy"][0].update(gauge=26),
        lambda bill: bill["buy"][0].update(screened=None),
        lambda bill: bill["buy"][0]["price"].update(amount=7.2),
        lambda bill: bill["buy"][0]["price"].update(amount="7,20"),
        lambda bill: bill["bulk"][0].update(boxes=0),
        lambda bill: bill["bulk"][0]["cuts"][0].update(box=0),
        lambda bill: bill["labels"][0].update(end="middle"),
        lambda bill: bill["ports"][0].update(rate_bit_per_s=2.5),
        lambda bill: bill["moves"].pop("plug"),
        lambda bill: bill["moves"].pop("after"),
        lambda bill: bill.pop("unnamed"),
        lambda bill: bill["accept"][0].pop("shown"),
        lambda bill: bill["addresses"][0].pop("mind"),
        lambda bill: bill["addresses"][0]["settings"][0].update(vlan=4095),
        lambda bill: bill["addresses"][0]["settings"][0].update(tagged=None),
        lambda bill: bill["addresses"][0]["settings"][0].pop("open_mtu"),
        lambda bill: bill["addresses"][0]["settings"][0].update(open_mtu=0),
        lambda bill: bill["addresses"][0]["settings"][0].update(netmasks=[24]),
        lambda bill: bill["addresses"][0].update(role="switch"),
    ],
)
def test_the_schema_refuses_what_the_contract_does_not_have(spoil: Callable[[Any], None]) -> None:
    spoilt = copy.deepcopy(as_data(full_bill()))
    spoil(spoilt)

    assert not VALIDATOR.is_valid(spoilt)


def test_a_cord_has_every_key_of_the_contract() -> None:
    expected = {
        "what": "cord", "category": "6A", "screened": False, "gauge": "26 AWG", "length_m": 3.0, "quantity": 4,
        "spares": 1, "cables": ["C01", "C02", "C03", "C04"], "ends": "rj45 - rj45", "detail": None,
        "price": {"amount": "7.20", "currency": "EUR"}, "cost": {"amount": "36.00", "currency": "EUR"},
    }  # fmt: skip

    assert expected == as_data(full_bill())["buy"][0]


def test_the_whole_has_the_keys_of_the_contract_first() -> None:
    expected = [
        "format", "buy", "bulk", "modules", "parts", "labels", "measure", "identify", "already_installed", "already_owned",
    ]  # fmt: skip

    assert expected == list(as_data(full_bill()))[: len(expected)]


def test_what_has_no_screen_is_not_screened_and_what_is_unknown_is_null() -> None:
    _, _, fibre, _, unmeasured = as_data(full_bill())["buy"]

    assert (False, None) == (fibre["screened"], fibre["gauge"])
    assert [None] * 4 == [unmeasured[key] for key in ("length_m", "ends", "price", "cost")]


def test_whether_a_part_has_a_screen_is_null_where_that_means_nothing() -> None:
    assert [False, False, None] == [part["screened"] for part in as_data(full_bill())["parts"]]


def test_cages_without_a_module_and_what_to_do_behind_the_last_plug_are_told() -> None:
    data = as_data(full_bill())

    assert ["core/14", f"{HOSTILE[11]}/fast"] == data["unnamed"]
    assert ["Switch the switches on first, then the storage."] == data["moves"]["after"]


def test_boxes_of_two_sizes_have_no_one_size_and_unmeasured_ones_no_number() -> None:
    mixed, one, unmeasured = as_data(full_bill())["bulk"]

    assert (None, 3, [304.8, 304.8, 100.0]) == (mixed["box_m"], mixed["boxes"], mixed["sizes_m"])
    assert (100.0, 1, [10.0]) == (one["box_m"], one["boxes"], one["left_m"])
    assert [None] * 4 == [unmeasured[key] for key in ("box_m", "boxes", "lower_bound", "proved_optimal")]
    assert {"box": 1, "cable": "W02", "length_m": 41.0, "run_m": 40.0} == mixed["cuts"][0]


def test_floating_point_does_not_show() -> None:
    data = as_data(full_bill())

    assert (0.3, 2.2, 60.0) == (
        data["buy"][1]["length_m"], data["lengths"][0]["length_m"], data["bulk"][1]["cuts"][0]["length_m"],
    )  # fmt: skip


def test_names_come_back_as_they_are() -> None:
    data = json.loads(as_json(full_bill()))

    assert list(HOSTILE) == [label["cable"] for label in data["labels"][3:]]


def test_a_module_is_named_by_its_physical_layer() -> None:
    module = as_data(full_bill())["modules"][0]

    assert ("10GBASE-SR", ["core/10", "vault/more"]) == (module["phy"], module["ports"])
    assert ["what", "phy", "quantity", "spares", "ports", "price", "cost"] == list(module)
