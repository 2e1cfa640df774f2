"""`smbutil multichannel`: the connections that really carry a mounted share, each with its interface.

Format: Apple, SMBClient, smbutil/multichannel.c. M is the main connection, which may stand by while others carry the
data; everything in `session active` carries data. In JSON all numbers are texts, and a key whose value is 0 is missing.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from netaudit.machine.parse.literals import address_of
from netaudit.machine.parse.macos.words import json_of, list_of, mapping_of, number_of, rate_bit_per_s, text_of, whole
from netaudit.model.vocabulary import Address

ACTIVE = "session active"
_ROW = re.compile(
    r"(?P<role>M|ALT)\s+\d+\s+(?:N/A|(?P<interface>\S+)\s+\((?:Ethernet|wifi)\s*\)\s+\d+(?:\s+\(RSS_\d+\))?)"
    r"\s+(?:N/A|\d+(?:\s+\(RSS_\d+\))?)\s+\[(?P<state>[^\]]*?)\s*\]\s+(?P<server>\S+)\s+(?P<port>\d+)\s+(?P<speed>.+)"
)
_SESSION = re.compile(r"Session: (.+)")
_NIC = re.compile(r"\s+name: (\S+), idx: ")
_NIC_ADDRESS = re.compile(r"\s+ip_addr: (\S+)")


class SmbChannel(NamedTuple):
    """A connection of a session."""

    interface: str | None
    remote: Address | None
    port: int | None
    rate_bit_per_s: int | None
    """The lesser of this machine's port and of what the server advertises for its own [bit/s]."""
    state: str
    main: bool
    sent_bytes: int | None = None
    received_bytes: int | None = None

    @property
    def active(self) -> bool:
        """Whether it carries data; others stand by."""
        return self.state == ACTIVE


class SmbSession(NamedTuple):
    """The session of one mount."""

    mount: str
    channels: tuple[SmbChannel, ...]
    ports: Mapping[str, tuple[Address, ...]]
    """This machine's interfaces, as the client lists them, to their addresses."""

    def local(self, channel: SmbChannel) -> Address | None:
        """This machine's end of a channel, where its interface has one address of that family."""
        listed = self.ports.get(channel.interface or "", ())
        fitting = [each for each in listed if channel.remote and each.version == channel.remote.version]
        return fitting[0] if len(fitting) == 1 else None


def parse_multichannel(text: str) -> tuple[SmbSession, ...]:
    """Sessions of the text form, of every release since 11.3."""
    return tuple(_session(name, lines) for name, lines in _parted(text))


def parse_multichannel_json(text: str) -> tuple[SmbSession, ...]:
    """Sessions of the JSON form; raises AnswerError where it is none."""
    answer = mapping_of(json_of(text, "smbutil multichannel"))
    return tuple(_json_session(name, mapping_of(value)) for name, value in answer.items())


def _parted(text: str) -> Iterator[tuple[str, list[str]]]:
    name, lines = "", list[str]()
    for line in text.splitlines():
        session = _SESSION.fullmatch(line)
        if session:
            if name:
                yield name, lines
            name, lines = session[1], []
        else:
            lines.append(line)
    if name:
        yield name, lines


def _session(name: str, lines: list[str]) -> SmbSession:
    channels = tuple(_channel(row) for row in map(_ROW.fullmatch, map(str.rstrip, lines)) if row)
    return SmbSession(name, channels, _ports(lines))


def _channel(row: re.Match[str]) -> SmbChannel:
    return SmbChannel(
        interface=row["interface"],
        remote=address_of(row["server"]),
        port=whole(row["port"]),
        rate_bit_per_s=rate_bit_per_s(row["speed"]),
        state=row["state"],
        main=row["role"] == "M",
    )


def _ports(lines: Iterable[str]) -> Mapping[str, tuple[Address, ...]]:
    """Addresses of the blocks `Client NIC`; the storage's own are left out."""
    found: dict[str, tuple[Address, ...]] = {}
    client, name = False, ""
    for line in lines:
        if line.endswith(" NIC:"):
            client, name = line.startswith("Client"), ""
        nic, listed = _NIC.match(line), _NIC_ADDRESS.match(line)
        if client and nic:
            name = nic[1]
        elif name and listed and (address := address_of(listed[1])) is not None:
            found[name] = (*found.get(name, ()), address)
    return found


def _json_session(name: str, value: Mapping[str, object]) -> SmbSession:
    rows = [mapping_of(row) for row in mapping_of(value.get("multi_channel_status")).values()]
    nics = [mapping_of(nic) for nic in mapping_of(value.get("client_interfaces")).values()]
    ports = {ifname: _addresses(nic) for nic in nics if (ifname := text_of(nic.get("ifname")))}
    return SmbSession(name, tuple(map(_json_channel, rows)), ports)


def _json_channel(row: Mapping[str, object]) -> SmbChannel:
    return SmbChannel(
        interface=text_of(row.get("client_interface")),
        remote=address_of(text_of(row.get("server_inet")) or ""),
        port=number_of(row.get("port")),
        rate_bit_per_s=number_of(row.get("link_speed")) or None,
        state=text_of(row.get("state")) or "unknown",
        main="main" in list_of(row.get("flags")),
        sent_bytes=number_of(row.get("total_tx_bytes")),
        received_bytes=number_of(row.get("total_rx_bytes")),
    )


def _addresses(nic: Mapping[str, object]) -> tuple[Address, ...]:
    listed = (address_of(text) for each in list_of(nic.get("addr_list")) if (text := text_of(each)))
    return tuple(address for address in listed if address is not None)
