"""Forms: one description of how a value is written, for reading, for writing, for editors and for the manual."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any, ClassVar, NamedTuple, TypeAlias, TypeVar, cast

from pydantic_core import CoreSchema, core_schema

from netaudit.errors import nearest
from netaudit.plan.scalars.text import LONGEST_NAME, quoted

REQUIRED: Any = ...
"""The default of a key that has to be given."""
Result = TypeVar("Result")
JsonSchema: TypeAlias = Mapping[str, Any]


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Form:
    """How one kind of scalar is written."""

    what: str
    """The kind with its article: a length."""
    shown: str
    """How it is written, for the table of keys: `38 m`."""
    parse: Callable[[str], Any]
    """Text to value; raises ValueError that says what would be right."""
    spell: Callable[[Any], str | bool] = str
    """Value to the text, or the boolean, that reads back as the same value."""
    schema: JsonSchema
    """What an editor should accept, as JSON Schema."""

    def core(self) -> CoreSchema:
        """The validator: a text, then `parse`."""
        text = core_schema.custom_error_schema(
            core_schema.str_schema(strict=True),
            custom_error_type="not_a_text",
            custom_error_message="{wanted}",
            custom_error_context={"wanted": f"{self.what}, such as {self.shown}"},
        )
        return core_schema.no_info_after_validator_function(self.parse, text)


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class OneOrMore:
    """A scalar that may stand alone or in a list."""

    form: Form
    join: Callable[[tuple[Any, ...]], Any] = tuple
    """The values read, made into one; raises ValueError."""
    split: Callable[[Any], tuple[Any, ...]] = tuple
    """The inverse."""

    def core(self) -> CoreSchema:
        """The validator: a text or a list of texts, then `join`."""
        several = core_schema.tuple_variable_schema(self.form.core())
        listed = core_schema.no_info_before_validator_function(_listed, several)
        return core_schema.no_info_after_validator_function(self.join, listed)


class Field(NamedTuple):
    """What a shape says of one of its keys."""

    alias: str
    """The key as the plan writes it."""
    meaning: str
    default: Any
    """The value where the key is absent; REQUIRED where it must not be."""
    unsaid: str
    """What holds where the key is absent, if there is no default to show."""


class Shape:
    """Keys of one kind of mapping in a plan, named as in the value that they make."""

    __slots__ = ("__dict__", "__pydantic_extra__", "__pydantic_fields_set__", "__pydantic_private__")
    __pydantic_fields_set__: set[str]

    noun: ClassVar[str]
    """What the mapping describes, with its article."""
    value: ClassVar[Callable[..., Any]]
    """The class of the value."""
    short: ClassVar[str | None] = None
    """The key that a lone text stands for, where that is allowed."""

    exclusive: ClassVar[tuple[str, str] | None] = None
    """Two fields of which only one may be given."""

    def built(self, **more: Any) -> Any:
        """The value; raises ValueError where keys contradict each other."""
        self.refuse_both()
        return self.value(**{**vars(self), **more})

    def refuse_both(self) -> None:
        """Raise KeyConflictError where both of two exclusive fields are given."""
        if self.exclusive is not None and all(getattr(self, field) is not None for field in self.exclusive):
            first, second = (type(self).fields()[field].alias for field in self.exclusive)
            raise KeyConflictError(second, f"`{first}` and `{second}` are both given: keep one of them")

    @property
    def given(self) -> Collection[str]:
        """The fields whose keys stand in the plan."""
        return self.__pydantic_fields_set__

    @classmethod
    def fields(cls) -> Mapping[str, Field]:
        """Its fields in the order in which their keys are written, those of the shape it is built on first."""
        return {
            name: field
            for base in reversed(cls.__mro__)
            for name, field in vars(base).items()
            if isinstance(field, Field)
        }

    @classmethod
    def parts(cls, value: Any) -> Mapping[str, Any]:
        """The fields of the shape that would build `value`."""
        return {field: getattr(value, field) for field in cls.fields()}


@dataclass(frozen=True, eq=False, slots=True)
class Built:
    """A mapping within a mapping, built into its value as soon as it is read."""

    shape: type[Shape]


def once(function: Callable[[type[Shape]], Result]) -> Callable[[type[Shape]], Result]:
    """A function of a shape that works once for each and remembers."""
    return cast("Callable[[type[Shape]], Result]", cache(function))


class KeyConflictError(ValueError):
    """Two keys of one mapping that contradict each other; `key` is the one to point at."""

    def __init__(self, key: str, message: str) -> None:
        self.key = key
        super().__init__(message)


def key(alias: str, meaning: str, default: Any = None, *, unsaid: str = "") -> Any:
    """A field of a shape: its key, what it means, its default, and in words what holds where the plan is silent."""
    return Field(alias, meaning, default, unsaid)


def words(what: str, known: tuple[str, ...]) -> Form:
    """A form that allows a few words; `what` is their kind with its article."""
    choices = ", ".join(known)

    @lru_cache
    def parse(text: str) -> str:
        if text in allowed:
            return text
        near = nearest(text, known) if len(text) <= LONGEST_NAME else None
        if near:
            raise ValueError(f"{quoted(text)} is not {what}; did you mean {quoted(near)}? It is one of {choices}")
        raise ValueError(f"{quoted(text)} is not {what}: write one of {choices}")

    allowed = frozenset(known)
    numbers = [float(word) if "." in word else int(word) for word in known if word.replace(".", "").isdigit()]
    return Form(
        what=what, shown=" ".join(f"`{word}`" for word in known), parse=parse, schema={"enum": [*known, *numbers]}
    )


def _listed(raw: object) -> object:
    if raw == []:
        raise ValueError("the list is empty: write at least one item, or leave the key out")
    return [raw] if isinstance(raw, str) else raw
