"""Forms and shapes: the one description of how values are written."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, ClassVar

import pytest
from pydantic import ValidationError

from netaudit.plan.shapes.forms import REQUIRED, Built, Form, KeyConflictError, OneOrMore, Shape, key, words
from netaudit.plan.shapes.validators import validator

Refusal = Callable[[Callable[[str], object], str], str]

NUMBER = Form(what="a number", shown="`5`", parse=int, schema={"type": "integer"})


class Inner(Shape):
    """A mapping within another, which a lone number may stand for."""

    noun: ClassVar[str] = "an inner"
    value = dict
    short: ClassVar[str | None] = "n"
    exclusive: ClassVar[tuple[str, str] | None] = ("number", "other")

    number: Annotated[int, NUMBER] = key("n", "a number", REQUIRED)
    other: Annotated[int, NUMBER] | None = key("m", "another number")


class Outer(Shape):
    """A mapping with others within."""

    noun: ClassVar[str] = "an outer"
    value = dict

    inner: Annotated[dict[str, Any], Built(Inner)] | None = key("inner", "a mapping")
    several: Annotated[tuple[int, ...], OneOrMore(form=NUMBER, join=sum)] = key("several", "numbers", ())


def test_a_mapping_within_is_built_as_it_is_read() -> None:
    assert {"number": 4, "other": None} == validator(Outer).validate_python({"inner": {"n": "4"}}).inner


def test_a_lone_text_stands_for_the_short_key() -> None:
    assert {"number": 4, "other": None} == validator(Outer).validate_python({"inner": "4"}).inner


def test_one_value_or_a_list_is_joined_into_one() -> None:
    assert [7, 9] == [validator(Outer).validate_python({"several": raw}).several for raw in ("7", ["4", "5"])]


def test_a_number_that_is_not_a_text_is_refused() -> None:
    with pytest.raises(ValidationError):
        validator(Outer).validate_python({"several": 7})


def test_two_exclusive_keys_point_at_the_second() -> None:
    with pytest.raises(KeyConflictError, match="`n` and `m` are both given: keep one of them") as caught:
        validator(Inner).validate_python({"n": "4", "m": "5"}).built()

    assert "m" == caught.value.key


def test_parts_of_a_value_are_the_fields_that_would_build_it() -> None:
    class Value:
        number, other = 4, None

    assert {"number": 4, "other": None} == Inner.parts(Value())


def test_words_offer_the_nearest_one_and_all_others(refusal: Refusal) -> None:
    form = words("a connector", ("rj45", "sfp+"))

    assert "rj45" == form.parse("rj45")
    assert "'rj54' is not a connector; did you mean 'rj45'? It is one of rj45, sfp+" == refusal(form.parse, "rj54")
    assert "'coax' is not a connector: write one of rj45, sfp+" == refusal(form.parse, "coax")


def test_words_that_look_like_numbers_may_be_numbers_in_an_editor() -> None:
    assert {"enum": ["5e", "6", "8.1", 6, 8.1]} == words("a category", ("5e", "6", "8.1")).schema
