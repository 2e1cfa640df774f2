"""`netstat -ibn`: what every interface has counted, whole and in 64 bits.

Format: Apple, network_cmds, netstat.tproj/if.c. The column Address is empty for some and names are cut, so rows are
read from the right, and only the row of the link itself counts: every row of an interface repeats the same totals.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.words import mac_of, whole
from netaudit.model.machine_state import Counters

_LINK = re.compile(r"<Link#([0-9]{1,6})>")
_ERRORS = ("Ierrs", "Oerrs", "Coll", "Drop")
SILENT_BYTES = 10_000_000
"""Sent bytes from which an interface that counted nothing received is held to count no input: TCP sends so much only
where acknowledgements come back [byte]. Common practice, no source."""


class LinkCount(NamedTuple):
    """The row of a link."""

    name: str
    """May be cut: to 5 characters until 10.14, to 10 after."""
    number: int
    """The system's own number of the interface, never cut."""
    up: bool
    mtu: int | None
    mac: str | None
    counters: Counters


def parse_netstat_interfaces(text: str) -> tuple[LinkCount, ...]:
    """The links in the table's order; raises AnswerError where there is no table."""
    lines = text.splitlines()
    header = next((line.split() for line in lines if line.split()[:2] == ["Name", "Mtu"]), None)
    if header is None or "Address" not in header:
        raise AnswerError("netstat -ibn answered without its table of interfaces")
    columns = header[header.index("Address") + 1 :]
    return tuple(_links(lines, columns))


def _links(lines: list[str], columns: list[str]) -> Iterator[LinkCount]:
    for line in lines:
        words = line.split()
        link = _LINK.fullmatch(words[2]) if len(words) >= len(columns) + 3 else None
        if link is None:
            continue
        totals = dict(zip(reversed(columns), map(whole, reversed(words)), strict=False))
        middle = words[3 : len(words) - len(columns)]
        yield LinkCount(
            words[0].rstrip("*"),
            int(link[1]),
            not words[0].endswith("*"),
            whole(words[1]),
            mac_of(middle[0]) if middle else None,
            _counters(totals),
        )


def _counters(totals: Mapping[str, int | None]) -> Counters:
    """The totals; what came in is unknown where a driver never counts it."""
    sent_bytes, received_bytes = totals.get("Obytes"), totals.get("Ibytes")
    received_packets = totals.get("Ipkts")
    if not received_bytes and not received_packets and (sent_bytes or 0) >= SILENT_BYTES:
        received_bytes = received_packets = None
    errors = {name: count for name in _ERRORS if (count := totals.get(name)) is not None}
    return Counters(sent_bytes, received_bytes, totals.get("Opkts"), received_packets, errors)
