"""`ifconfig -v` and `ifconfig -m`: each interface with its medium, link, addresses and what lies beneath it.

Format: Apple, network_cmds, ifconfig.tproj/ifconfig.c, ifmedia.c, ifvlan.c, ifbond.c and ifbridge.c.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from ipaddress import IPv4Interface, IPv6Interface
from typing import NamedTuple

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.media import Media, media_rate_bit_per_s, parse_media
from netaudit.machine.parse.macos.words import mac_of, rate_bit_per_s, whole

_HEADER = re.compile(r"(\S+): flags=[0-9a-f]+<([^>]*)>.*? mtu (\d+)(?: index (\d+))?")
_INET = re.compile(r"inet (\S+)(?: --> \S+)? netmask 0x([0-9a-f]{8})\b")
_INET6 = re.compile(r"inet6 (\S+)(?: --> \S+)? prefixlen (\d+)")
_VLAN = re.compile(r"vlan: (\d+) parent interface: (\S+)")
_AGENT = re.compile(r'agent domain:NetworkExtension .*desc:"([^"]+)"')
_SUPPORTED = re.compile(r"\s+media (\S+)")


class Block(NamedTuple):
    """What ifconfig says of one interface."""

    name: str
    flags: frozenset[str]
    mtu: int | None
    number: int | None
    mac: str | None
    addresses: tuple[IPv4Interface | IPv6Interface, ...]
    media: Media | None
    carrier: bool | None
    """Its line `status`; None where the driver reports none."""
    kind: str | None
    """Its line `type`: Ethernet, Wi-Fi, IP over Thunderbolt; None for bridges, VLANs and the loopback."""
    link_rate_bit_per_s: int | None
    """The slower of both directions as they run now [bit/s]."""
    members: tuple[str, ...]
    """Interfaces of a bridge or a bond."""
    parent: str | None
    """The interface of a VLAN, or the one that really carries a tunnel's traffic."""
    agent: str | None
    """The name of the program behind a tunnel."""


def parse_ifconfig(text: str) -> Mapping[str, Block]:
    """Every interface by name; raises AnswerError where there is none."""
    blocks = {block.name: block for block in _blocks(text)}
    if not blocks:
        raise AnswerError("ifconfig named no interface")
    return blocks


def parse_supported(text: str) -> tuple[int, ...]:
    """Rates of the media that `ifconfig -m` says an interface supports, the highest first [bit/s]."""
    rates = {media_rate_bit_per_s(found[1]) for found in map(_SUPPORTED.match, text.splitlines()) if found}
    return tuple(sorted(rates - {None}, key=lambda rate: -(rate or 0)))  # type: ignore[arg-type]


def _blocks(text: str) -> Iterator[Block]:
    header, lines = None, list[str]()
    for line in text.splitlines():
        if line[:1] in ("\t", " "):
            lines.append(line.strip())
            continue
        if header is not None:
            yield _block(header, lines)
        header, lines = _HEADER.match(line), []
    if header is not None:
        yield _block(header, lines)


def _block(header: re.Match[str], lines: Sequence[str]) -> Block:
    media, status = _after(lines, "media: "), _after(lines, "status: ")
    vlan = next(filter(None, map(_VLAN.match, lines)), None)
    agent = next(filter(None, map(_AGENT.match, lines)), None)
    return Block(
        name=header[1],
        flags=frozenset(header[2].split(",")),
        mtu=whole(header[3]),
        number=whole(header[4]),
        mac=mac_of(_after(lines, "ether ") or ""),
        addresses=tuple(_addresses(lines)),
        media=None if media is None else parse_media(media),
        carrier={"active": True, "inactive": False}.get(status or ""),
        kind=_after(lines, "type: "),
        link_rate_bit_per_s=_link_rate(lines),
        members=tuple(_members(lines)),
        parent=vlan[2] if vlan else _after(lines, "effective interface: "),
        agent=agent[1] if agent else None,
    )


def _after(lines: Sequence[str], label: str) -> str | None:
    return next((line.removeprefix(label).strip() for line in lines if line.startswith(label)), None)


def _addresses(lines: Sequence[str]) -> Iterator[IPv4Interface | IPv6Interface]:
    for line in lines:
        inet, inet6 = _INET.match(line), _INET6.match(line)
        try:
            if inet:
                mask = ".".join(str(int(inet[2][at : at + 2], 16)) for at in range(0, 8, 2))
                yield IPv4Interface(f"{inet[1]}/{mask}")
            elif inet6:
                yield IPv6Interface(f"{inet6[1]}/{inet6[2]}")
        except ValueError:
            continue


def _link_rate(lines: Sequence[str]) -> int | None:
    """The line `link rate`, or the slower of `uplink rate` and `downlink rate`; the first figure is that of now."""
    texts = (_after(lines, label) for label in ("link rate: ", "uplink rate: ", "downlink rate: "))
    rates = [rate for text in texts if text is not None and (rate := rate_bit_per_s(text))]
    return min(rates, default=None)


def _members(lines: Sequence[str]) -> Iterator[str]:
    for line in lines:
        words = line.split()
        if words[:1] == ["member:"]:
            yield from words[1:2]
        elif words[:2] == ["bond", "interfaces:"]:
            yield from words[2:]
