"""Validators: what the outline of a shape comes to for the library that checks raw values against it."""

from __future__ import annotations

from operator import methodcaller

from pydantic_core import CoreSchema, SchemaValidator, core_schema

from netaudit.plan.shapes.forms import Form, OneOrMore, Shape, once
from netaudit.plan.shapes.outline import Holds, Key, Listed, Mapped, keys


@once
def validator(shape: type[Shape]) -> SchemaValidator:
    """The validator of a shape: it gives a filled shape, or every misfit at once."""
    return SchemaValidator(_filled(shape))


@once
def _filled(shape: type[Shape]) -> CoreSchema:
    fields = {key.field: _field(key) for key in keys(shape).values()}
    return core_schema.model_schema(shape, core_schema.model_fields_schema(fields, extra_behavior="forbid"))


def _field(key: Key) -> core_schema.ModelField:
    schema = _held(key.holds)
    if not key.required:
        schema = core_schema.with_default_schema(schema, default=key.default)
    return core_schema.model_field(schema, validation_alias=key.alias)


def _held(holds: Holds) -> CoreSchema:
    if isinstance(holds, Form | OneOrMore):
        return holds.core()
    if isinstance(holds, Listed):
        return core_schema.tuple_variable_schema(_held(holds.item))
    if isinstance(holds, Mapped):
        return core_schema.dict_schema(_held(holds.name), _held(holds.item))
    return _built(holds.choices[0])


def _built(shape: type[Shape]) -> CoreSchema:
    """A mapping within a mapping, built into its value as soon as it is read."""
    schema = _filled(shape)
    short = shape.short
    if short is not None:
        schema = core_schema.no_info_before_validator_function(
            lambda raw: {short: raw} if isinstance(raw, str) else raw, schema
        )
    return core_schema.no_info_after_validator_function(methodcaller("built"), schema)
