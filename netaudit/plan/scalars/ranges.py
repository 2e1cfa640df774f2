"""Ranges of ports: `1-24` to its numbers, and ports that are alike back to ranges."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from netaudit.model.plan import Port
from netaudit.plan.scalars.quantities import CACHED
from netaudit.plan.scalars.text import quoted

LONGEST_RANGE = 4096
"""Ports that one range may name."""

_RANGE = re.compile(r"([0-9]+)-([0-9]+)")
_LIKE_A_RANGE = re.compile(r"([0-9]+) *(?:-|\.{2,3}|[\u2010-\u2015\u2026\u2212~]|to) *([0-9]+)")
_NUMBER = re.compile(r"0|[1-9][0-9]{0,8}")


@lru_cache(CACHED)
def port_range(key: str) -> range | None:
    """The numbers of a port key such as `1-24`; None for a plain name.

    Raises ValueError for a range that is not ascending, begins with a zero, is longer than 4,096 ports, or is
    written in another way than with a dash alone.
    """
    found = _RANGE.fullmatch(key)
    if found is None:
        _refuse_other_ranges(key)
        return None
    if any(len(end) > 1 and end.startswith("0") for end in found.groups()):
        raise ValueError(f"{quoted(key)} has leading zeros: write the numbers without, or name each port by itself")
    first, last = int(found[1]), int(found[2])
    if first == last:
        raise ValueError(f"{quoted(key)} is a single port: name it {first}, without a range")
    if first > last:
        raise ValueError(f"{quoted(key)} is not ascending: write the lower number first, as 1-24")
    if last - first >= LONGEST_RANGE:
        raise ValueError(f"{quoted(key)} is {last - first + 1} ports: one range holds at most {LONGEST_RANGE}")
    return range(first, last + 1)


def _refuse_other_ranges(key: str) -> None:
    if like := _LIKE_A_RANGE.fullmatch(key):
        raise ValueError(f"{quoted(key)} looks like a range, which is written {like[1]}-{like[2]}: write that")


def first_of_range(key: str) -> str | None:
    """The first port that a word names, where it is a range and a right one; None where it is not."""
    try:
        numbers = port_range(key)
    except ValueError:
        return None
    return None if numbers is None else str(numbers[0])


def joined_ranges(ports: Mapping[str, Port]) -> dict[str, Port]:
    """The ports in their order, numbered neighbours of one value under one key `first-last`."""
    joined: dict[str, Port] = {}
    first = last = None
    shared: Port | None = None
    for name, port in ports.items():
        number = int(name) if _NUMBER.fullmatch(name) else None
        if (
            first is not None
            and last is not None
            and number == last + 1
            and number - first < LONGEST_RANGE
            and port == shared
        ):
            del joined[_key(first, last)]
            last = number
        else:
            first = last = number
            shared = port
        joined[name if first is None or last is None else _key(first, last)] = port
    return joined


def _key(first: int, last: int) -> str:
    return str(first) if first == last else f"{first}-{last}"
