"""Where in its file each place of a plan is written."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.place import Place, Position, copy_places, pool_place
from netaudit.model.plan import Plan
from netaudit.plan.reading.raw import Document, Positions, Spot
from netaudit.plan.scalars.ranges import port_range

_KINDS = {
    "networks": "network",
    "racks": "rack",
    "rooms": "room",
    "devices": "device",
    "cables": "cable",
    "routes": "route",
}


def lines_of(plan: Plan, document: Document, positions: Positions) -> dict[Place, Position]:
    """Each place to the position of its key, or of its item in a list; the ports of a range share one position."""
    top = document.spot
    lines = {
        Place(kind, name): positions.at(index)
        for section, kind in _KINDS.items()
        for name, index, _ in top.below(section).entries()
    }
    for device, _, spot in top.below("devices").entries():
        lines.update(_lines_of_device(device, spot, positions))
    copies = top.below("copies")
    for nth, place in enumerate(copy_places(tuple(copy.what for copy in plan.copies))):
        lines[place] = positions.at(copies.below(nth).index)
    return lines


def _lines_of_device(device: str, spot: Spot, positions: Positions) -> Iterator[tuple[Place, Position]]:
    for key, index, _ in spot.below("ports").entries():
        position = positions.at(index)
        for port in port_range(key) or (key,):
            yield Place("port", f"{device}/{port}"), position
    for bond, index, _ in spot.below("bonds").entries():
        yield Place("port", f"{device}/{bond}"), positions.at(index)
    for pool, index, _ in spot.below("pools").entries():
        yield pool_place(device, pool), positions.at(index)
