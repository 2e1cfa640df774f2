"""The neighbour table: MSFT_NetNeighbor."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from netaudit.machine.parse.literals import address_of, without_zone
from netaudit.machine.parse.windows.facts import UNRESOLVED, NeighbourFacts, mac_of
from netaudit.machine.parse.windows.json_shape import Row, text, whole

_PAIRS = re.compile(r"[0-9A-Fa-f]{2}(?:-[0-9A-Fa-f]{2}){5}")


def neighbours(found: Iterable[Row]) -> tuple[NeighbourFacts, ...]:
    """The neighbours of Get-NetNeighbor whose hardware address is known; all zeros is none."""
    return tuple(_neighbours(found))


def _neighbours(found: Iterable[Row]) -> Iterator[NeighbourFacts]:
    for row in found:
        address, pairs = address_of(text(row, "IPAddress")), text(row, "LinkLayerAddress") or ""
        number, state = whole(row, "InterfaceIndex"), whole(row, "State")
        mac = mac_of(bytes.fromhex(pairs.replace("-", ""))) if _PAIRS.fullmatch(pairs) else None
        if address is not None and mac is not None and number is not None and state not in UNRESOLVED:
            yield NeighbourFacts(without_zone(address), mac, number)
