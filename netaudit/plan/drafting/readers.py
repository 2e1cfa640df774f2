"""Readers: what counts as an answer to each question about a room, held against the answers before it."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any, get_args

from netaudit.model.plan import COPPER_CATEGORIES, Layout, Subnet, System
from netaudit.plan.drafting.answers import StoragePort
from netaudit.plan.drafting.lanes import storage_subnets
from netaudit.plan.drafting.replies import (
    UNKNOWN,
    ClashError,
    Given,
    Misfit,
    ReplyError,
    one,
    or_unknown,
    parsed,
    parts,
    plain,
    yes_or_no,
)
from netaudit.plan.drafting.synonyms import NUMBERS, category_word, spelt, system_word
from netaudit.plan.reading.raw import Raw
from netaudit.plan.scalars import addresses, counts, quantities
from netaudit.plan.scalars.spelling import port_rate
from netaudit.plan.scalars.text import device_name, quoted
from netaudit.plan.shapes.forms import words

MOST_SEATS = 64
"""Seats of one draft, which has one switch."""
MOST_DIRECT_SEATS = 3
"""Seats up to which each may have a cable of its own to the storage; common practice, no source."""
FASTEST_SEAT_BIT_PER_S = 10**10
RATES_OF_PORT: dict[str, tuple[int, ...]] = {"sfp+": (10**10,), "rj45": (10**10, 5 * 10**9, 25 * 10**8, 10**9)}
"""Port of a storage to the rates it may have, the highest first [bit/s]."""
LEAST_DRIVES: dict[str, int] = {"stripe": 1, "mirror": 2, "single-parity": 2, "double-parity": 3, "triple-parity": 4}
"""Layout of a pool to the fewest drives that leave one for data."""
NOTHING = "nothing"
"""What is in a wall without a cable."""
STRAIGHT = "direct"
"""Another word for no switch."""

_LIKE_A_NUMBER = re.compile(r"[+-]?[0-9][0-9.,_' e]*")
_WALLS = (*COPPER_CATEGORIES, UNKNOWN, NOTHING)
_STORAGE_PORTS = get_args(StoragePort)
_LAYOUTS = (*get_args(Layout), UNKNOWN)
_SYSTEM = words("a system", (*get_args(System), UNKNOWN))
_WALL = words("what may be in a wall", _WALLS)
_STORAGE_PORT = words("a port of a storage", _STORAGE_PORTS)
_LAYOUT = words("a pool layout", _LAYOUTS)
_SEAT_COUNT = counts.count("a number of seats, on one switch,", 1, MOST_SEATS)


def seats(raw: Raw, _: Given) -> tuple[str, ...]:
    """A number of seats, written out or not, or their names; raises ReplyError."""
    texts = parts(raw)
    alone = texts[0] if len(texts) == 1 and isinstance(texts[0], str) else ""
    written = NUMBERS.get(alone.casefold())
    if written is not None or _LIKE_A_NUMBER.fullmatch(alone):
        number = one(plain(_SEAT_COUNT))(alone, {}) if written is None else written
        return tuple(f"cut-{nth + 1}" for nth in range(number))
    if len(texts) > MOST_SEATS:
        raise ReplyError([Misfit(None, f"{len(texts)} seats are too many for one switch: name at most {MOST_SEATS}")])
    return parsed(texts, plain(_new_seat()), {})


def _new_seat() -> Callable[[str], str]:
    """A reading of names of seats, each of which it takes once."""
    before: set[str] = set()

    def read(text: str) -> str:
        if _LIKE_A_NUMBER.fullmatch(text):
            raise ValueError(f"{quoted(text)} is a number among names: give every seat a name, or their number alone")
        if text in before:
            raise ValueError(f"{quoted(text)} is named before already: name each seat once")
        before.add(device_name(text))
        return text

    return read


def system(text: str) -> str | None:
    """An operating system; None is unknown."""
    found: str = _SYSTEM.parse(system_word(text))
    return None if found == UNKNOWN else found


def wanted_bit_per_s(text: str) -> int:
    """The rate that a seat wants [bit/s]."""
    rate = quantities.rate_bit_per_s(text)
    if rate > FASTEST_SEAT_BIT_PER_S:
        most = port_rate(FASTEST_SEAT_BIT_PER_S)
        raise ValueError(
            f"{quoted(text)} is more than a seat of a draft has, at most {most}: change the plan afterwards"
        )
    return rate


def switched(text: str, given: Given) -> bool:
    """Whether there is a switch; raises ClashError where there are too many seats to do without."""
    answer = text.casefold() != STRAIGHT and yes_or_no(text)
    count = len(given["seats"])
    if not answer and count > MOST_DIRECT_SEATS:
        why = f"{count} seats need a switch, since each would take a port of the storage"
        raise ClashError(f"{quoted(text)}: {why}: at most {MOST_DIRECT_SEATS} go without", "seats")
    return answer


def wall(text: str) -> str | None:
    """What is in a wall: a category, unknown included; None for nothing."""
    found: str = _WALL.parse(category_word(text, _WALLS))
    return None if found == NOTHING else found


def storage(text: str, given: Given) -> str:
    """The name of the storage, which no seat has."""
    if device_name(text) in given["seats"]:
        raise ClashError(f"{quoted(text)} is a seat already: name the storage otherwise", "seats")
    return text


def storage_port(text: str, given: Given) -> str:
    """The storage's port, one that the cables to it fit."""
    found: str = _STORAGE_PORT.parse(spelt(text, _STORAGE_PORTS))
    if found == "sfp+" and not given["switch"] and any(given["walls"]):
        message = f"{quoted(text)}: the copper in the wall comes straight to the storage and fits no cage: write rj45"
        raise ClashError(message, "switch", "walls")
    return found


def storage_rate(text: str, given: Given) -> int:
    """A rate that the storage's port may have [bit/s]."""
    rate = quantities.rate_bit_per_s(text)
    port: str = given["storage_port"]
    if rate not in RATES_OF_PORT[port]:
        *most, last = map(port_rate, RATES_OF_PORT[port])
        choices = f"{', '.join(most)} or {last}" if most else last
        raise ClashError(f"{quoted(text)} is no rate of a port of kind {port}: write {choices}", "storage_port")
    return rate


def of_drives(parse: Callable[[str], Any]) -> Callable[[str, Given], Any]:
    """A figure of the drives, or unknown; raises ClashError for a figure where their number is unknown."""

    def read(text: str, given: Given) -> Any:
        value = or_unknown(parse)(text)
        if value is not None and given["drives"] is None:
            raise ClashError(f"{quoted(text)}: `drives` is unknown: give their number, or leave this out", "drives")
        return value

    return read


def layout(text: str, given: Given) -> str | None:
    """A layout that leaves a drive for data; None is unknown."""
    found: str = _LAYOUT.parse(spelt(text, _LAYOUTS))
    value: str | None = of_drives(str)(found, given)
    drives: int | None = given["drives"]
    if value is not None and drives is not None and drives < LEAST_DRIVES[value]:
        raise ClashError(f"{quoted(text)} takes at least {LEAST_DRIVES[value]} drives, here are {drives}", "drives")
    return value


def office_subnet(text: str) -> Subnet | None:
    """The office's subnet, one that leaves room for the storage's; None is unknown."""
    found: Subnet | None = or_unknown(addresses.subnet)(text)
    storage_subnets(MOST_DIRECT_SEATS, found)
    return found


def seats_given(given: Given) -> Sequence[str]:
    """The names of the seats."""
    return tuple(given.get("seats", ()))


def rooms_given(given: Given) -> Sequence[str]:
    """The rooms, each once, in the order of their first seats."""
    return tuple(dict.fromkeys(given.get("rooms", ())))
