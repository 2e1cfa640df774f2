"""Outlines: what the keys of a shape hold, read off its annotations."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import UnionType
from typing import Annotated, Any, TypeAlias, Union, get_args, get_origin, get_type_hints

from netaudit.plan.shapes.forms import REQUIRED, Built, Form, OneOrMore, Shape, once


@dataclass(frozen=True, slots=True)
class Shapes:
    """A mapping of one shape, or of one of several that its role decides between."""

    choices: tuple[type[Shape], ...]


@dataclass(frozen=True, slots=True)
class Listed:
    """A list."""

    item: Holds


@dataclass(frozen=True, slots=True)
class Mapped:
    """A mapping from names to values of one kind."""

    name: Form
    item: Holds


Holds: TypeAlias = Form | OneOrMore | Shapes | Listed | Mapped


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a shape."""

    alias: str
    """The key as the plan writes it."""
    field: str
    """The field of the value that it fills."""
    holds: Holds
    meaning: str
    required: bool
    default: Any
    """The value where the key is absent; None where that is unknown."""
    unsaid: str
    """What holds where the key is absent, if there is no default to show."""


@once
def keys(shape: type[Shape]) -> Mapping[str, Key]:
    """The keys of a shape by their spelling, in the order in which they are written."""
    hints = get_type_hints(shape, include_extras=True)
    return {
        about.alias: Key(
            alias=about.alias,
            field=field,
            holds=_holds(hints[field]),
            meaning=about.meaning,
            required=about.default is REQUIRED,
            default=None if about.default is REQUIRED else about.default,
            unsaid=about.unsaid,
        )
        for field, about in shape.fields().items()
    }


def within(shape: type[Shape], location: tuple[str | int, ...]) -> type[Shape] | None:
    """The shape of the mapping at a location below one of `shape`; None where no mapping with keys of its own is."""
    here: Holds | None = Shapes((shape,))
    for part in location:
        if isinstance(here, Shapes):
            found = keys(here.choices[0]).get(str(part))
            here = found.holds if found else None
        elif isinstance(here, Mapped | Listed):
            here = here.item
        else:
            return None
    return here.choices[0] if isinstance(here, Shapes) else None


def _holds(annotation: Any) -> Holds:
    origin, arguments = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        metadata = arguments[1]
        return Shapes((metadata.shape,)) if isinstance(metadata, Built) else metadata
    if origin in {Union, UnionType}:
        given = [argument for argument in arguments if argument is not type(None)]
        return _holds(given[0]) if len(given) == 1 else Shapes(tuple(given))
    if origin is dict:
        name = _holds(arguments[0])
        assert isinstance(name, Form)  # noqa: S101 - every mapping has names for keys
        return Mapped(name, _holds(arguments[1]))
    if origin is tuple:
        return Listed(_holds(arguments[0]))
    return Shapes((annotation,))
