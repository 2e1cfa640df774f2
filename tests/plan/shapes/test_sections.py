"""The shapes and the values they build agree, field for field."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from netaudit.plan.shapes import devices as device_shapes
from netaudit.plan.shapes import ports as port_shapes
from netaudit.plan.shapes import sections as shape
from netaudit.plan.shapes.forms import Shape
from netaudit.plan.shapes.outline import keys
from netaudit.plan.shapes.sections import FORMAT, HeaderShape, PlanShape

BUILT_BY_HAND = {"PortShape", "StoragePortShape", "BondShape", "NetworksShape", "HeaderShape", "PlanShape"}
SHAPES = [
    each
    for module in (shape, device_shapes, port_shapes)
    for each in vars(module).values()
    if isinstance(each, type)
    and issubclass(each, Shape)
    and hasattr(each, "value")
    and hasattr(each, "noun")
    and each.__module__ == module.__name__
]


def fields(value: Any) -> dict[str, Any]:
    """Field to default of a value's class; a field without a default is not in it."""
    if dataclasses.is_dataclass(value):
        return {
            each.name: each.default_factory() if each.default_factory is not dataclasses.MISSING else each.default
            for each in dataclasses.fields(value)
        }
    return {name: value._field_defaults.get(name, dataclasses.MISSING) for name in value._fields}


@pytest.mark.parametrize(
    "each", [one for one in SHAPES if one.__name__ not in BUILT_BY_HAND], ids=lambda one: one.__name__
)
def test_every_field_of_a_shape_is_one_of_its_value(each: type[Shape]) -> None:
    assert set(each.fields()) <= set(fields(each.value))


@pytest.mark.parametrize("each", SHAPES, ids=lambda one: one.__name__)
def test_defaults_are_those_of_the_value(each: type[Shape]) -> None:
    known = fields(each.value) if each.__name__ != "NetworksShape" else {}
    for key in keys(each).values():
        if not key.required and key.field in known:
            assert known[key.field] == key.default


@pytest.mark.parametrize("each", SHAPES, ids=lambda one: one.__name__)
def test_every_key_is_explained(each: type[Shape]) -> None:
    for key in keys(each).values():
        assert key.meaning
        assert each.noun


def test_every_field_of_a_value_is_described_by_some_shape() -> None:
    described: dict[Any, set[str]] = {}
    for each in SHAPES:
        if each.__name__ not in BUILT_BY_HAND | {"PassivePortShape"}:
            described.setdefault(each.value, {"name"}).update(each.fields())
    for value, names in described.items():
        left = set(fields(value)) - names
        assert not left, (value, left)


def test_the_header_has_every_key_that_is_no_section() -> None:
    assert ["netaudit", "name", "about", "headroom", "regime", "ambient", "tree_costs"] == list(keys(HeaderShape))
    assert ["networks", "racks", "rooms", "devices", "cables", "routes", "copies", "stock"] == list(keys(PlanShape))[7:]
    assert "1" == FORMAT
