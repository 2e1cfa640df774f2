"""`netstat -anvl -p tcp`: every TCP connection, those of the kernel's own file clients included.

Format: Apple, network_cmds, netstat.tproj/inet.c and main.c. Header and rows do not line up since macOS 12, so rows are
read by their form; the header only tells which columns the release has:

    10.13 to 14    rhiwat shiwat pid epid
    15.0 to 15.3   rxbytes txbytes rhiwat shiwat pid epid
    from 15.4      rxbytes txbytes rhiwat shiwat process:pid
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from netaudit.errors import AnswerError
from netaudit.machine.parse.literals import address_of
from netaudit.machine.parse.macos.words import whole
from netaudit.model.machine_state import Endpoint

KERNEL = "kernel_task"
"""The process of the SMB and NFS clients, number 0."""
_ROW = re.compile(
    r"tcp\S*\s+\d+\s+\d+\s+(?P<local>\S+)(?P<gap>\s+)(?P<remote>\S+)\s+(?P<state>[A-Z_0-9]+)\s*(?P<rest>.*)"
)
_NAMED = re.compile(r"(\d+)\s+(\d+)\s+\d+\s+\d+\s+(.+):(\d+)\s+[0-9a-f]{5}\b")
_COUNTED = re.compile(r"(\d+)\s+(\d+)\s+\d+\s+\d+\s+(\d+)\b")
_PLAIN = re.compile(r"\d+\s+\d+\s+(\d+)\b")
_WIDE = 40
"""Distance of the two addresses from which the table is wide enough for every IPv6 address [characters]."""
_CUT = 16
"""Characters that an IPv6 address is cut to in the narrow table."""


class Socket(NamedTuple):
    """A TCP connection of this machine."""

    local: Endpoint
    remote: Endpoint
    state: str
    received_bytes: int | None
    """Since it was opened; told from macOS 15 on."""
    sent_bytes: int | None
    process: str | None
    """Told from macOS 15.4 on; before, only of the kernel, which is number 0."""
    pid: int | None


class _Tail(NamedTuple):
    received_bytes: int | None = None
    sent_bytes: int | None = None
    process: str | None = None
    pid: int | None = None


def parse_netstat_sessions(text: str) -> tuple[Socket, ...]:
    """Connections between two known ends; raises AnswerError where something was said, but no table."""
    header = next((line for line in text.splitlines() if line.startswith("Proto")), None)
    if header is None:
        if text.strip():
            raise AnswerError("netstat answered without its table of connections")
        return ()
    return tuple(_sockets(text, header))


def _sockets(text: str, header: str) -> Iterator[Socket]:
    for row in map(_ROW.match, text.splitlines()):
        if row is None:
            continue
        wide = len(row["local"]) + len(row["gap"]) >= _WIDE
        local, remote = _end(row["local"], wide=wide), _end(row["remote"], wide=wide)
        if local is not None and remote is not None:
            yield Socket(local, remote, row["state"], *_tail(row["rest"], header))


def _tail(rest: str, header: str) -> _Tail:
    """What stands after the state, by the columns that the header names."""
    if "process:pid" in header:
        named = _NAMED.match(rest)
        return _Tail(whole(named[1]), whole(named[2]), named[3].strip(), whole(named[4])) if named else _Tail()
    if "rxbytes" in header:
        counted = _COUNTED.match(rest)
        return _Tail(whole(counted[1]), whole(counted[2]), *_owner(counted[3])) if counted else _Tail()
    plain = _PLAIN.match(rest)
    return _Tail(None, None, *_owner(plain[1])) if plain else _Tail()


def _owner(pid: str) -> tuple[str | None, int | None]:
    number = whole(pid)
    return (KERNEL if number == 0 else None), number


def _end(text: str, *, wide: bool) -> Endpoint | None:
    """One end, parted at its last dot; None where it is a wildcard, or an IPv6 address that may have been cut."""
    host, _, port = text.rpartition(".")
    address, number = address_of(host), whole(port)
    if address is None or number is None or number > 65535:
        return None
    if address.version == 6 and not wide and len(host) >= _CUT:
        return None
    return Endpoint(address, number)
