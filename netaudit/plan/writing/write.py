"""From a Plan to a tidy YAML text that reads back as the same plan."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from netaudit.model.plan import Plan
from netaudit.plan.shapes.devices import SHAPE_OF_ROLE
from netaudit.plan.shapes.forms import Form, OneOrMore, Shape
from netaudit.plan.shapes.outline import Holds, Key, Listed, Mapped, Shapes, keys
from netaudit.plan.shapes.sections import PlanShape
from netaudit.plan.writing.yaml_text import NO_COMMENTS, Comments, Node, document

_SAID_OR_ASSUMED = ("headroom", "regime", "ambient")


def write(plan: Plan, comments: Comments = NO_COMMENTS) -> str:
    """The text of a plan in format 1, keys in the order of the format, numbers exact in handy units.

    What the plan does not say is left out, and so is what holds by default. Ports that are numbered in a row
    and alike become a range. `comments` stand above what they speak of, as in ("devices", "core").
    """
    stated = {key for key in _SAID_OR_ASSUMED if not any(text.startswith(key) for text in plan.assumed)}
    return document(_mapping(PlanShape, plan, stated), comments)


def _mapping(shape: type[Shape], value: Any, stated: Collection[str] = ()) -> dict[str, Node]:
    """The keys of a value that differ from their defaults, those of `stated` in any case."""
    parts = shape.parts(value)
    return {
        key.alias: _node(key.holds, parts[key.field])
        for key in keys(shape).values()
        if key.alias in stated or _says_something(key, parts[key.field])
    }


def _says_something(key: Key, value: Any) -> bool:
    return key.required or value != key.default


def _node(holds: Holds, value: Any) -> Node:
    if isinstance(holds, Form):
        return holds.spell(value)
    if isinstance(holds, OneOrMore):
        spelled = [holds.form.spell(each) for each in holds.split(value)]
        return spelled[0] if len(spelled) == 1 else spelled
    if isinstance(holds, Listed):
        return [_node(holds.item, each) for each in value]
    if isinstance(holds, Mapped):
        return {name: _node(holds.item, each) for name, each in value.items()}
    return _of_shape(holds, value)


def _of_shape(holds: Shapes, value: Any) -> Node:
    shape = holds.choices[0] if len(holds.choices) == 1 else SHAPE_OF_ROLE[value.role]
    node = _mapping(shape, value)
    return node[shape.short] if shape.short is not None and list(node) == [shape.short] else node
