"""`nettop -x -L 1`: one sample of every flow with the interface it uses, in comma-separated columns.

Format: as published in captures; the command's source is closed. A row that names a process stands above its flows;
columns go by their names. Kernel file clients are `kernel_task.0`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from netaudit.machine.parse.literals import address_of
from netaudit.machine.parse.macos.words import whole
from netaudit.model.machine_state import Endpoint

_FLOW = re.compile(r"(?:tcp|udp|quic)([46]) (\S+)<->(\S+)")
_DURATION = re.compile(r"([0-9]{1,9}(?:\.[0-9]{1,6})?) ?(us|usec|ms|msec|s|sec)")
_SECONDS = {"us": 1e-6, "usec": 1e-6, "ms": 1e-3, "msec": 1e-3, "s": 1.0, "sec": 1.0}
_NAME_COLUMN = 1


class Flow(NamedTuple):
    """A connection as the system's traffic monitor sees it."""

    local: Endpoint
    remote: Endpoint
    interface: str | None
    state: str | None
    received_bytes: int | None
    """Since it was opened, like all that follows."""
    sent_bytes: int | None
    retransmitted_bytes: int | None
    round_trip_s: float | None
    process: str | None
    """Its name, cut to 15 characters."""
    pid: int | None


def parse_nettop(text: str) -> tuple[Flow, ...]:
    """Flows between two known ends."""
    return tuple(_flows(text))


def _flows(text: str) -> Iterator[Flow]:
    columns: list[str] = []
    process: tuple[str | None, int | None] = (None, None)
    for line in text.splitlines():
        cells = line.split(",")
        if cells[0] == "time":
            columns = cells
            continue
        flow = _FLOW.fullmatch(cells[_NAME_COLUMN]) if len(cells) > _NAME_COLUMN else None
        if columns and flow:
            local, remote = _end(flow[2], flow[1]), _end(flow[3], flow[1])
            if local is not None and remote is not None:
                yield _flow(local, remote, dict(zip(columns, cells, strict=False)), process)
        elif columns and len(cells) >= len(columns):
            process = _process(cells, len(columns))


def _flow(local: Endpoint, remote: Endpoint, cells: Mapping[str, str], process: tuple[str | None, int | None]) -> Flow:
    return Flow(
        local,
        remote,
        cells.get("interface") or None,
        cells.get("state") or None,
        whole(cells.get("bytes_in")),
        whole(cells.get("bytes_out")),
        whole(cells.get("re-tx")),
        _duration_s(cells.get("rtt_avg", "")),
        *process,
    )


def _process(cells: list[str], columns: int) -> tuple[str | None, int | None]:
    """Name and number of a process; commas in its name have spread it over several cells."""
    surplus = len(cells) - columns
    text = ",".join(cells[_NAME_COLUMN : _NAME_COLUMN + 1 + surplus])
    name, _, pid = text.rpartition(".")
    return name or None, whole(pid)


def _end(text: str, version: str) -> Endpoint | None:
    """One end: `10.20.30.51:57970`, or `fd00::51.57970`."""
    host, _, port = text.rpartition(":" if version == "4" else ".")
    address, number = address_of(host), whole(port)
    return None if address is None or number is None or number > 65535 else Endpoint(address, number)


def _duration_s(text: str) -> float | None:
    found = _DURATION.fullmatch(text.strip())
    return None if found is None else float(found[1]) * _SECONDS[found[2]]
