"""Validators made from the outlines of shapes."""

from __future__ import annotations

import pytest
from pydantic_core import ValidationError

from netaudit.plan.shapes.sections import CableShape, NetworkShape, RoomShape
from netaudit.plan.shapes.validators import validator


def test_a_shape_is_filled_with_what_is_given_and_with_defaults() -> None:
    cable = validator(CableShape).validate_python({"from": "a/1", "to": ["b/1", "b/2"]})

    assert ("unknown", None, 0, False) == (cable.category, cable.length_m, cable.splices, cable.screened)
    assert {"from_port", "to_ports"} == set(cable.given)
    assert 2 == len(cable.to_ports)


def test_every_misfit_of_a_mapping_is_told_at_once() -> None:
    with pytest.raises(ValidationError) as misfits:
        validator(CableShape).validate_python({"from": "a", "length": "3", "colour": "blue"})

    assert {("from",), ("to",), ("length",), ("colour",)} == {each["loc"] for each in misfits.value.errors()}


def test_a_shape_has_one_validator_however_often_it_is_asked_for() -> None:
    assert validator(NetworkShape) is validator(NetworkShape)
    assert validator(NetworkShape) is not validator(RoomShape)
