"""What this machine sent by another interface than its own look-up names, as the counters prove it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from netaudit.listing import listed
from netaudit.model.situation import Situation
from netaudit.rules.counted import Counted, counted


class Strayed(NamedTuple):
    """The interface that packets leave by in truth, and the counts that prove it."""

    interface: str
    counted: str


def strayed(situation: Situation) -> Mapping[str, Strayed]:
    """Interface that the look-up names to where its packets went; only those whose packets are missing there.

    A look-up does not see what a packet filter marks; packets that are missing here and left there do.
    """
    rows = ((each, _likeliest_first(each, situation)) for each in counted(situation, "out"))
    return {row.interface: Strayed(takers[0], _proof(row, takers)) for row, takers in rows if takers}


def _likeliest_first(row: Counted, situation: Situation) -> Sequence[str]:
    """Interfaces that sent enough: those with an address near the storage, then those that sent least more."""
    hosts = [far.address for far in situation.seen.addresses]

    def is_far(name: str) -> bool:
        state = situation.seen.interfaces.get(name)
        subnets = () if state is None else tuple(each.network for each in state.addresses)
        return not any(host in subnet for host in hosts for subnet in subnets)

    return sorted(row.takers, key=lambda name: (is_far(name), row.elsewhere[name]))


def _proof(row: Counted, takers: Sequence[str]) -> str:
    others = listed([f"{row.amount(row.elsewhere[name])} by {name}" for name in takers])
    left = row.amount(row.came or 0)
    return f"the look-up names {row.interface}, but of {row.amount(row.due)} due there {left} left, and {others}"
