"""Outlines: what the keys of a shape hold."""

from __future__ import annotations

import pytest

from netaudit.plan.shapes.devices import FormatShape, PassiveShape, PlayShape, StationShape
from netaudit.plan.shapes.forms import Form, OneOrMore, Shape
from netaudit.plan.shapes.outline import Listed, Mapped, Shapes, keys, within
from netaudit.plan.shapes.ports import BondShape, PassivePortShape, PortShape
from netaudit.plan.shapes.sections import CableShape, PlanShape


def test_keys_stand_in_the_order_of_the_format() -> None:
    assert ["from", "to", "category", "rates", "length", "cord"] == list(keys(CableShape))[:6]


def test_a_key_says_what_it_holds() -> None:
    assert isinstance(keys(CableShape)["length"].holds, Form)
    assert isinstance(keys(CableShape)["to"].holds, OneOrMore)
    assert isinstance(keys(CableShape)["via"].holds, Listed)
    assert isinstance(keys(PlanShape)["cables"].holds, Mapped)
    assert Shapes((PortShape,)) == keys(StationShape)["ports"].holds.item  # type: ignore[union-attr]


def test_a_key_says_whether_it_is_required_and_what_holds_without_it() -> None:
    outlined = keys(CableShape)

    assert outlined["from"].required
    assert ("unknown", 0, False) == tuple(outlined[key].default for key in ("category", "splices", "screened"))
    assert ("the plan's", "2") == tuple(outlined[key].unsaid for key in ("ambient", "fibres"))


@pytest.mark.parametrize(
    ("shape", "location", "expected"),
    [
        (StationShape, (), StationShape),
        (StationShape, ("ports", "ports"), PortShape),
        (StationShape, ("bonds", "lag"), BondShape),
        (StationShape, ("plays", 0), PlayShape),
        (StationShape, ("plays", 0, "format"), FormatShape),
        (PassiveShape, ("ports", "1-24"), PassivePortShape),
        (StationShape, ("ports",), None),
        (StationShape, ("room", "x"), None),
        (StationShape, ("nothing", "x"), None),
    ],
)
def test_a_location_leads_to_the_shape_of_the_mapping_there(
    shape: type[Shape], location: tuple[str | int, ...], expected: type[Shape] | None
) -> None:
    assert expected is within(shape, location)
