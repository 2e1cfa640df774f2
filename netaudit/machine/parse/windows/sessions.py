"""Living TCP connections: MSFT_NetTCPConnection, which names no interface, only the local address."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from netaudit.machine.parse.literals import address_of
from netaudit.machine.parse.windows.facts import ESTABLISHED, Connection
from netaudit.machine.parse.windows.json_shape import Row, text, whole
from netaudit.model.machine_state import Endpoint

_LAST_PORT = 65_535


def connections(found: Iterable[Row]) -> tuple[Connection, ...]:
    """The established connections of Get-NetTCPConnection; the state is a number, in words it is translated."""
    return tuple(_connections(found))


def _connections(found: Iterable[Row]) -> Iterator[Connection]:
    for row in found:
        local, remote = _endpoint(row, "Local"), _endpoint(row, "Remote")
        if whole(row, "State") == ESTABLISHED and local is not None and remote is not None:
            yield Connection(local, remote, whole(row, "OwningProcess") or None)


def _endpoint(row: Row, end: str) -> Endpoint | None:
    address, port = address_of(text(row, f"{end}Address")), whole(row, f"{end}Port")
    return None if address is None or port is None or port > _LAST_PORT else Endpoint(address, port)
