"""The SMB client of Linux: its table of servers, sessions and channels, /proc/fs/cifs/DebugData.

Three forms are known, after cifs_debug_data_proc_show in the kernel's cifs_debug.c: that of 4.x, which names no
channels; that of 5.x to 6.10 with `ConnectionId:`; and the later one with named speeds and ciphers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from netaudit.machine.parse.literals import address_of
from netaudit.model.vocabulary import Address

DIALECTS = {"0x202": "2.0.2", "0x210": "2.1", "0x300": "3.0", "0x302": "3.0.2", "0x311": "3.1.1"}
"""Dialects of SMB by their numbers: [MS-SMB2] section 2.2.4."""
TCP_GOOD = 1
"""CifsGood, a connection that is in use; from memory of the kernel's cifsglob.h."""
SERVERS_AT_MOST = 256
_FACTOR = {"M": 10**6, "G": 10**9}

_HEAD = re.compile(r"\d{1,6}\) (?:ConnectionId|Name): ")
_NEW_SERVER = re.compile(r"^[ \t]*\d+\)[ \t]+ConnectionId: 0x[0-9a-fA-F]+(?:[ \t]+Hostname: (?P<host>\S+))?")
_DIALECT = re.compile(r"Dialect (?P<number>0x[0-9a-fA-F]{1,4})(?P<marks>[^\n]*)")
_STATUS = re.compile(r"TCP status: (?P<status>\d{1,4})")
_SESSION = re.compile(r"^[ \t]*\d+\)[ \t]+(?:Address|Name): (?P<address>\S+)", re.MULTILINE)
_SECURITY = re.compile(r"SessionId: 0x[0-9a-fA-F]+(?P<marks>[^\n]*)")
_CHANNEL = re.compile(r"^[ \t]*Channel: \d+ (?P<text>.*)", re.MULTILINE)
_LOST = re.compile("DISABLED|DISCONNECTED|RECONNECTING")
_ENDS = re.compile(r"IP addr: dst: (?P<remote>\S+), src: (?P<local>\S+)")
_PORT = re.compile(
    r"\s*\d+\)\s+Speed:\s+(?:(?P<bits>\d{1,15}) bps|(?P<number>\d{1,6}(?:\.\d{1,3})?)(?P<unit>[MG])bps|\S+)"
)
_ON_PORT = re.compile(r"\s*IPv[46]: (?P<address>\S+)")


class CifsChannel(NamedTuple):
    """One connection of the client."""

    good: bool
    """Whether it is in use."""
    remote: Address | None = None
    local: Address | None = None


class CifsServer(NamedTuple):
    """A server that the client is connected with."""

    host: str | None
    """Its name as it was mounted, where the kernel tells."""
    addresses: tuple[Address, ...]
    dialect: str | None
    signing: bool | None
    encryption: bool | None
    channels: tuple[CifsChannel, ...]
    """The first one, then the extra ones."""
    speeds: tuple[tuple[Address, int | None], ...]
    """Addresses that the server offers, with the rate that it names for each [bit/s]."""


def cifs_servers(text: str) -> tuple[CifsServer, ...]:
    """The servers in the table; empty where there is none, or it cannot be read."""
    return tuple(_server(block) for block in _blocks(text)[:SERVERS_AT_MOST])


def _blocks(text: str) -> list[str]:
    """The lines of each server; 4.x shows a server's credits right above the line that names it."""
    lines = text.split("\n")
    starts = []
    for number, line in enumerate(lines):
        if _HEAD.match(line):
            over_it = number > 0 and "Name:" in line and lines[number - 1].startswith("Number of credits:")
            starts.append(number - over_it)
    return ["\n".join(lines[start:end]) for start, end in pairwise([*starts, len(lines)])]


def _server(block: str) -> CifsServer:
    new, dialect, security = _NEW_SERVER.match(block), _DIALECT.search(block), _SECURITY.search(block)
    marks = f"{dialect['marks'] if dialect else ''} {security['marks'] if security else ''}".split()
    at_sessions = [found for each in _SESSION.findall(block) if (found := address_of(each)) is not None]
    return CifsServer(
        host=new["host"] if new else None,
        addresses=tuple(dict.fromkeys(at_sessions)),
        dialect=DIALECTS.get(dialect["number"].lower()) if dialect else None,
        signing=None if dialect is None else "signed" in marks,
        encryption=None if security is None else "encrypted" in marks,
        channels=tuple(_channels(block, at_sessions[0] if at_sessions else None)),
        speeds=tuple(_speeds(block)),
    )


def _channels(block: str, remote: Address | None) -> Iterator[CifsChannel]:
    starts = [0, *(match.start() for match in _CHANNEL.finditer(block))]
    for number, (start, end) in enumerate(pairwise([*starts, len(block)])):
        part = block[start:end].partition("Shares:")[0]
        status, ends = _STATUS.search(part), _ENDS.search(part)
        lost = _LOST.search(part)
        yield CifsChannel(
            good=status is not None and int(status["status"]) == TCP_GOOD and lost is None,
            remote=_end(ends["remote"]) if ends else remote if number == 0 else None,
            local=_end(ends["local"]) if ends else None,
        )


def _speeds(block: str) -> Iterator[tuple[Address, int | None]]:
    speed: int | None = None
    for line in block.partition("Server interfaces:")[2].split("\n"):
        port, on_port = _PORT.match(line), _ON_PORT.match(line)
        if port:
            speed = _bit_per_s(port)
        elif on_port and (address := address_of(on_port["address"])) is not None:
            yield address, speed


def _bit_per_s(match: re.Match[str]) -> int | None:
    if match["bits"]:
        return int(match["bits"]) or None
    return round(float(match["number"]) * _FACTOR[match["unit"]]) or None if match["number"] else None


def _end(text: str) -> Address | None:
    """The address of `192.0.2.50:445`, or of `[2001:db8::1]:445`."""
    return address_of(text.rpartition(":")[0])
