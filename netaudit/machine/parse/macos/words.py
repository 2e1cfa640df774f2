"""Words that many commands share: hardware addresses, whole numbers, rates, JSON."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping

from netaudit.errors import AnswerError

_MAC = re.compile(r"(?:[0-9a-fA-F]{1,2}:){5}[0-9a-fA-F]{1,2}")
_WHOLE = re.compile(r"[0-9]{1,20}")
_RATE = re.compile(r"([0-9]{1,6}(?:\.[0-9]{1,3})?) ?([GMK]?)(?:bps|b/s|b)\b")
_FACTORS = {"": 1, "K": 10**3, "M": 10**6, "G": 10**9}


def mac_of(text: str) -> str | None:
    """A hardware address as six lower-case pairs; arp, ndp and netstat -r leave leading zeros out."""
    if not _MAC.fullmatch(text):
        return None
    return ":".join(pair.zfill(2) for pair in text.lower().split(":"))


def whole(text: str | None) -> int | None:
    """A whole number that is not negative."""
    return int(text) if text is not None and _WHOLE.fullmatch(text) else None


def rate_bit_per_s(text: str) -> int | None:
    """The first rate in a text, decimal: `10.00 Gbps`, `866.7 Mb`, `5 Gb/s` [bit/s]."""
    found = _RATE.search(text)
    return None if found is None else round(float(found[1]) * _FACTORS[found[2]])


def json_of(text: str, command: str) -> object:
    """What a command said in JSON; raises AnswerError where it is none."""
    try:
        return json.loads(text)
    except (ValueError, RecursionError) as error:
        raise AnswerError(f"{command} answered in a form that cannot be read") from error


def mapping_of(value: object) -> Mapping[str, object]:
    """A value where it is a mapping, else an empty one."""
    return value if isinstance(value, dict) else {}


def list_of(value: object) -> list[object]:
    """A value where it is a list, else an empty one."""
    return value if isinstance(value, list) else []


def text_of(value: object) -> str | None:
    """A value where it is a text that says something."""
    return value if isinstance(value, str) and value else None


def number_of(value: object) -> int | None:
    """A whole number, whether it stands as one or as a text."""
    if isinstance(value, int) and not isinstance(value, bool):
        return value if value >= 0 else None
    return whole(value) if isinstance(value, str) else None
