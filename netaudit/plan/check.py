"""From the raw tree to shapes, and what does not fit in our own words."""

from __future__ import annotations

from collections.abc import Mapping as MappingOf
from typing import Any, TypeVar

from pydantic_core import ValidationError

from netaudit.plan.reading.problems import Complaint, Problems
from netaudit.plan.reading.raw import Mapping, Raw, Spot
from netaudit.plan.scalars.text import path_part, quoted
from netaudit.plan.shapes.devices import SHAPE_OF_ROLE, DeviceShape
from netaudit.plan.shapes.forms import Form, KeyConflictError, OneOrMore, Shape
from netaudit.plan.shapes.outline import Key, keys, within
from netaudit.plan.shapes.ports import PassivePortShape, PortShape, StoragePortShape
from netaudit.plan.shapes.validators import validator

MOST_OF_ONE = 1000
"""Problems of one item past which they are not told one by one."""

_FAMILIES: tuple[tuple[type[Shape], ...], ...] = (
    tuple(dict.fromkeys(SHAPE_OF_ROLE.values())),
    (PortShape, StoragePortShape, PassivePortShape),
)

AnyShape = TypeVar("AnyShape", bound=Shape)


def checked(shape: type[AnyShape], spot: Spot, problems: Problems) -> AnyShape | None:
    """The shape that a raw value fills; None where it does not fit, the problems noted."""
    try:
        filled: AnyShape = validator(shape).validate_python(spot.raw)
    except ValidationError as error:
        if error.error_count() > MOST_OF_ONE:
            message = f"more than {MOST_OF_ONE} things are wrong within {shape.noun}: look at it as a whole first"
            problems.add(spot.index, spot.path, message)
        else:
            for each in error.errors(include_url=False):
                _tell(each, shape, spot, problems)
        return None
    return filled


def salvaged(shape: type[AnyShape], spot: Spot) -> AnyShape | None:
    """The shape filled with the keys alone that fit, to look up what they name; None where they do not suffice."""
    if not isinstance(spot.raw, Mapping):
        return None
    try:
        filled: AnyShape = validator(shape).validate_python(spot.raw)
    except ValidationError as error:
        misfits = {str(each["loc"][0]) for each in error.errors(include_url=False) if each["loc"]}
        fitting = {key: value for key, value in spot.raw.items() if key not in misfits}
        try:
            filled = validator(shape).validate_python(fitting)
        except ValidationError:
            return None
    return filled


def _tell(each: MappingOf[str, Any], shape: type[Shape], spot: Spot, problems: Problems) -> None:
    location = each["loc"]
    if location and location[-1] == "[key]":
        holder = spot.at(location[:-2])
        key = str(location[-2])
        problems.add(holder.key_index(key), (*holder.path, path_part(key)), str(each["ctx"]["error"]))
    elif each["type"] == "extra_forbidden":
        _tell_unknown_key(spot.at(location[:-1]), str(location[-1]), within(shape, location[:-1]) or shape, problems)
    elif each["type"] == "missing":
        holder = spot.at(location[:-1])
        missing = keys(within(shape, location[:-1]) or shape)[str(location[-1])]
        problems.add(holder.index, holder.path, _missing(missing))
    else:
        _tell_misfit(each, spot.at(location), within(shape, location), problems)


def _tell_misfit(each: MappingOf[str, Any], here: Spot, shape: type[Shape] | None, problems: Problems) -> None:
    error = each.get("ctx", {}).get("error")
    if isinstance(error, KeyConflictError):
        problems.add(here.key_index(error.key), (*here.path, error.key), str(error))
    elif isinstance(error, ValueError):
        problems.add(here.index, here.path, str(error))
    else:
        problems.add(here.index, here.path, _wrong_kind(each, here.raw, shape))


def _wrong_kind(each: MappingOf[str, Any], raw: Raw, shape: type[Shape] | None) -> str:
    match each["type"]:
        case "not_a_text":
            return f"{each['ctx']['wanted']}, is wanted here, not {kind_of(raw)}"
        case "tuple_type":
            right = f"[{quoted(raw)[1:-1]}]" if isinstance(raw, str) else "a list, each item with a dash before it"
            return f"{kind_of(raw)} stands here where a list is wanted: write {right}"
        case "model_type" if shape is not None:
            return not_a_mapping(raw, f"{shape.noun} is a mapping with keys such as {', '.join(list(keys(shape))[:3])}")
        case _:
            return not_a_mapping(raw, "a mapping of names to values is wanted here")


def not_a_mapping(raw: Raw, wanted: str) -> str:
    """What to say of a value where a mapping is wanted."""
    return f"nothing is written here: {wanted}; {{}} is an empty one" if raw == "" else f"{wanted}, not {kind_of(raw)}"


def kind_of(raw: Raw) -> str:
    """What a raw value is, for a message."""
    if isinstance(raw, str):
        return f"the text {quoted(raw)}"
    return "a mapping" if isinstance(raw, Mapping) else "a list"


def _missing(key: Key) -> str:
    form = key.holds.form if isinstance(key.holds, OneOrMore) else key.holds
    such_as = f", such as {form.shown}" if isinstance(form, Form) else ""
    return f"`{key.alias}` is missing: {key.meaning}{such_as}"


def _tell_unknown_key(holder: Spot, key: str, shape: type[Shape], problems: Problems) -> None:
    owners = _owners(shape, key)
    noun = shape.noun
    if issubclass(shape, DeviceShape) and isinstance(holder.raw, Mapping):
        noun = f"a device of role {holder.raw.get('role')}"
    index, path = holder.key_index(key), (*holder.path, path_part(key))
    if 0 < len(owners) <= 2:
        problems.add(index, path, f"{quoted(key)} belongs to {' or '.join(owners)}; this is {noun}")
    else:
        problems.add(index, path, *unknown_key(key, noun, shape))


def unknown_key(key: str, noun: str, shape: type[Shape]) -> Complaint:
    """The complaint that `noun`, written as `shape`, has no such key."""
    known = keys(shape)
    return Complaint(f"{quoted(key)} is not a key of {noun}, whose keys are {' '.join(known)}", key, known)


def _owners(shape: type[Shape], key: str) -> list[str]:
    """What else has the key, of the same family as the shape; of shapes built on each other only the first."""
    family = next((family for family in _FAMILIES if shape in family), ())
    having = [other for other in family if key in keys(other)]
    return [other.noun for other in having if not any(other is not one and issubclass(other, one) for one in having)]
