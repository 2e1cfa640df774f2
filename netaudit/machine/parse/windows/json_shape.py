"""The shapes that ConvertTo-Json gives the same answer, by version of PowerShell and number of objects.

One object stands alone, several in an array, none as nothing at all; PowerShell 5.1 wraps an array that it took for an
object into `{"value": [...], "Count": n}`. Enumerations and states are numbers in every language; a number of 64 bits
may come as text. A field that is missing, null or of another type is unknown: None.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping

from netaudit.errors import AnswerError

Row = Mapping[str, object]
"""One object: its named properties."""

_MOST_DIGITS = 20
"""Digits of the largest number of 64 bits."""
_RATE = re.compile(r"([0-9]{1,9})(?:[.,]([0-9]{1,6}))? ?([KMGT]?)bps")
_FACTORS = {"": 1, "K": 10**3, "M": 10**6, "G": 10**9, "T": 10**12}


def parsed(text: str) -> object:
    """What a JSON text holds, a byte order mark before it ignored; None of an empty text. Raises AnswerError."""
    plain = text.lstrip("\ufeff").strip()
    if not plain:
        return None
    try:
        return json.loads(plain)
    except (ValueError, RecursionError) as error:
        raise AnswerError("PowerShell answered in a form that cannot be read") from error


def rows(value: object) -> tuple[Row, ...]:
    """The objects of an answer, in whichever shape they came; raises AnswerError where it can hold none."""
    if value is None:
        return ()
    if isinstance(value, Mapping):
        return rows(value["value"]) if _wrapped(value) else (value,)
    if isinstance(value, list):
        return tuple(each for each in value if isinstance(each, Mapping))
    raise AnswerError(f"PowerShell answered with {type(value).__name__} where objects are due")


def texts(row: Row, key: str) -> tuple[str, ...]:
    """A property that holds texts: one, an array, a wrapped array, or joined by commas."""
    value = row.get(key)
    if isinstance(value, Mapping) and _wrapped(value):
        value = value["value"]
    if isinstance(value, str):
        value = value.split(",")
    if not isinstance(value, list):
        return ()
    return tuple(each.strip() for each in value if isinstance(each, str) and each.strip())


def text(row: Row, key: str) -> str | None:
    """A property that is a text, halves of characters replaced; None where it is empty."""
    value = row.get(key)
    if isinstance(value, Mapping):
        value = value.get("value")
    return value.encode("utf-8", "replace").decode() if isinstance(value, str) and value else None


def whole(row: Row, key: str) -> int | None:
    """A property that is a whole number from 0 to 64 bits, as a number or as a text."""
    value = row.get(key)
    if isinstance(value, str) and value.isascii() and value.isdigit() and len(value) <= _MOST_DIGITS:
        value = int(value)
    if isinstance(value, bool) or not isinstance(value, int):
        return None
    return value if 0 <= value < 2**64 else None


def flag(row: Row, key: str) -> bool | None:
    """A property that is true or false; some classes hold it as 1 or 0."""
    value = row.get(key)
    if isinstance(value, int) and value in (0, 1):
        return bool(value)
    return None


def rate_of_text(words: str | None) -> int | None:
    """A link rate in words, its decimal point a comma in many languages: `866,7 Mbps` [bit/s]; None of `0 bps`."""
    found = _RATE.fullmatch(words.strip()) if words is not None else None
    if found is None:
        return None
    decimals = found[2] or ""
    return int(found[1] + decimals) * _FACTORS[found[3]] // 10 ** len(decimals) or None


def _wrapped(value: Row) -> bool:
    return set(value) == {"value", "Count"} and isinstance(value["value"], list)
