"""The TCP table of Linux, proc_pid_net(5): both ends of each connection, its state and the number of its socket."""

from __future__ import annotations

import sys
from ipaddress import IPv4Address, IPv6Address
from typing import Literal, NamedTuple

from netaudit.model.machine_state import Endpoint
from netaudit.model.vocabulary import Address

ESTABLISHED = 1
"""TCP_ESTABLISHED in the kernel's include/net/tcp_states.h."""


class TcpRow(NamedTuple):
    """One connection."""

    local: Endpoint
    remote: Endpoint
    state: int
    user: int
    inode: int
    """The number of its socket, as `socket:[…]` among the files of a process shows it."""


def tcp_rows(text: str, order: Literal["little", "big"] = sys.byteorder) -> tuple[TcpRow, ...]:
    """Rows of /proc/net/tcp or /proc/net/tcp6; a line that cannot be read is left out.

    An address is printed as the machine's own words of 32 bits, a port as a plain number; an IPv4 address in an IPv6
    socket is given as what it is.
    """
    rows = (_row(line.split(), order) for line in text.split("\n"))
    return tuple(row for row in rows if row is not None)


def _row(fields: list[str], order: Literal["little", "big"]) -> TcpRow | None:
    if len(fields) < 10:
        return None
    try:
        return TcpRow(
            _end(fields[1], order), _end(fields[2], order), int(fields[3], 16), int(fields[7]), int(fields[9])
        )
    except ValueError:
        return None


def _end(text: str, order: Literal["little", "big"]) -> Endpoint:
    address, separator, port = text.partition(":")
    if not separator or len(port) != 4:
        raise ValueError(text)
    return Endpoint(_address(bytes.fromhex(address), order), int(port, 16))


def _address(raw: bytes, order: Literal["little", "big"]) -> Address:
    words = [raw[at : at + 4] for at in range(0, len(raw), 4)]
    octets = b"".join(word[::-1] if order == "little" else word for word in words)
    if len(octets) == 4:
        return IPv4Address(octets)
    address = IPv6Address(octets)
    return address.ipv4_mapped or address
