"""The plan format for others: JSON Schema for editors, and the table of all keys for the manual."""

from __future__ import annotations

from typing import Any

from netaudit.plan.shapes import devices, ports
from netaudit.plan.shapes import sections as shapes
from netaudit.plan.shapes.forms import Form, OneOrMore, Shape
from netaudit.plan.shapes.outline import Holds, Key, Listed, Mapped, Shapes, keys

_TABLE: tuple[tuple[str, type[Shape], type[Shape] | None], ...] = (
    ("plan", shapes.PlanShape, None),
    ("network", shapes.NetworkShape, None),
    ("rack", shapes.RackShape, None),
    ("room", shapes.RoomShape, None),
    ("device", devices.ActiveShape, None),
    ("place in a rack", devices.RackPositionShape, None),
    ("station", devices.StationShape, devices.ActiveShape),
    ("row of `plays`", devices.PlayShape, None),
    ("row of `records`", devices.RecordShape, devices.PlayShape),
    ("format", devices.FormatShape, None),
    ("storage", devices.StorageShape, devices.ActiveShape),
    ("pool", devices.PoolShape, None),
    ("switch", devices.SwitchShape, devices.ActiveShape),
    ("internet", devices.InternetShape, devices.ActiveShape),
    ("port", ports.PortShape, None),
    ("port of a storage", ports.StoragePortShape, ports.PortShape),
    ("port of a panel or outlet", ports.PassivePortShape, None),
    ("host cable", ports.HostCableShape, None),
    ("networks of a port", ports.NetworksShape, None),
    ("bond", ports.BondShape, None),
    ("cable", shapes.CableShape, None),
    ("copy", shapes.CopyShape, None),
    ("stock", shapes.StockShape, None),
)
"""Title, shape, and the shape whose keys stand in the table already."""


def plan_schema() -> dict[str, Any]:
    """The JSON Schema, draft 2020-12, of plan format 1, for editors that check YAML while one types.

    Editors read bare numbers as numbers, so that those are allowed beside texts. What needs more than one
    place to judge, such as references, is left to the reader.
    """
    definitions: dict[str, Any] = {}
    root = _object(shapes.PlanShape, definitions)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"netaudit plan, format {shapes.FORMAT}",
        **root,
        "$defs": dict(sorted(definitions.items())),
    }


def key_table() -> str:
    """Every key of the format as a Markdown table: where it stands, how it is written, its default, its meaning."""
    lines = ["| where | key | written | default | meaning |", "|---|---|---|---|---|"]
    for title, shape, base in _TABLE:
        told = {} if base is None else keys(base)
        for key in keys(shape).values():
            if key.alias not in told:
                lines.append(f"| {title} | `{key.alias}` | {_written(key.holds)} | {_default(key)} | {key.meaning} |")
    return "\n".join(lines) + "\n"


def _object(shape: type[Shape], definitions: dict[str, Any]) -> dict[str, Any]:
    outlined = keys(shape)
    schema: dict[str, Any] = {
        "type": "object",
        "properties": {alias: _property(key, definitions) for alias, key in outlined.items()},
        "additionalProperties": False,
    }
    if required := [alias for alias, key in outlined.items() if key.required]:
        schema["required"] = required
    if shape.exclusive is not None:
        schema["not"] = {"required": [alias for alias, key in outlined.items() if key.field in shape.exclusive]}
    return schema


def _property(key: Key, definitions: dict[str, Any]) -> dict[str, Any]:
    described = {"description": key.meaning, **_schema(key.holds, definitions)}
    if isinstance(key.holds, Form) and not key.required and key.default is not None:
        described["default"] = key.holds.spell(key.default)
    return described


def _schema(holds: Holds, definitions: dict[str, Any]) -> dict[str, Any]:
    if isinstance(holds, Form):
        return dict(holds.schema)
    if isinstance(holds, OneOrMore):
        one = dict(holds.form.schema)
        return {"anyOf": [one, {"type": "array", "items": one, "minItems": 1}]}
    if isinstance(holds, Listed):
        return {"type": "array", "items": _schema(holds.item, definitions)}
    if isinstance(holds, Mapped):
        names = {word: rule for word, rule in holds.name.schema.items() if word != "type"}
        return {"type": "object", "propertyNames": names, "additionalProperties": _schema(holds.item, definitions)}
    references = [_reference(shape, definitions) for shape in holds.choices]
    return references[0] if len(references) == 1 else {"oneOf": references}


def _reference(shape: type[Shape], definitions: dict[str, Any]) -> dict[str, Any]:
    name = shape.__name__.removesuffix("Shape")
    if name not in definitions:
        definitions[name] = {}
        definitions[name] = _object(shape, definitions)
    reference = {"$ref": f"#/$defs/{name}"}
    if shape.short is None:
        return reference
    return {"anyOf": [_schema(keys(shape)[shape.short].holds, definitions), reference]}


def _written(holds: Holds) -> str:
    if isinstance(holds, Form):
        return holds.shown
    if isinstance(holds, OneOrMore):
        return f"{holds.form.shown}, or a list"
    if isinstance(holds, Listed):
        return f"list: {_written(holds.item)}"
    if isinstance(holds, Mapped):
        return f"{holds.name.shown}: {_written(holds.item)}"
    return "a device" if isinstance(holds, Shapes) and len(holds.choices) > 1 else holds.choices[0].noun


def _default(key: Key) -> str:
    if key.required:
        return "required"
    if key.unsaid:
        return key.unsaid
    if not isinstance(key.holds, Form) or key.default is None:
        return ""
    spelled = key.holds.spell(key.default)
    return f"`{spelled}`" if isinstance(spelled, str) else f"`{str(spelled).lower()}`"
