"""Where the cables of a page go."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from netaudit.model.moving import Acceptance
from netaudit.model.place import PortRef


class Ends(NamedTuple):
    """The two ends of a cable."""

    near: PortRef | None
    """None where the bill does not know the cable."""
    far: tuple[PortRef, ...]
    """Several at the tails of a breakout."""


NOWHERE = Ends(None, ())


def ends_of(rows: Iterable[Acceptance]) -> Mapping[str, Ends]:
    """Each cable to its ends."""
    return {row.cable: Ends(row.from_port, row.to_ports) for row in rows}
