"""Living TCP connections and what TCP knows about them: INET_DIAG, which answers everybody about every connection.

Layouts: linux/inet_diag.h and `struct tcp_info` of linux/tcp.h, which only ever grows at its end: a kernel that is
older than a member gives a shorter one.
"""

from __future__ import annotations

import socket
import struct
import sys
from collections.abc import Collection, Iterator, Mapping
from ipaddress import IPv6Address
from typing import NamedTuple

from netaudit.machine.linux import netlink
from netaudit.machine.linux.netlink import attributes
from netaudit.machine.linux.owners import owner
from netaudit.machine.linux.routes import route
from netaudit.model.machine_state import Endpoint, Session, SessionCount
from netaudit.model.vocabulary import Address

_BY_FAMILY = 20
_QUESTION = struct.Struct("=BBBxI48x")
_MESSAGE = struct.Struct("=BBBB2s2s16s16s8I")
_UID_AT = 5
"""Where the user stands behind the bound interface: two words of cookie, expiry and two queues come first."""
_ESTABLISHED = 1
_INFO = 2
_INFO_BIT = 1 << (_INFO - 1)
_TCP_INFO = {
    "snd_mss": (16, 4), "pmtu": (60, 4), "rtt": (68, 4), "total_retrans": (100, 4), "bytes_acked": (120, 8),
    "bytes_received": (128, 8), "segs_out": (136, 4), "bytes_sent": (200, 8), "rcv_ooopack": (224, 4),
}  # fmt: skip
"""Members of `struct tcp_info`: where each begins and how long it is [octets]."""


class Socket(NamedTuple):
    """One connection as the kernel lists it."""

    local: Endpoint
    remote: Endpoint
    bound_link: int
    """Number of the interface that it may only use; 0 for any."""
    uid: int
    info: Mapping[str, int]


def sessions(remotes: Collection[Address], ports: Collection[int]) -> tuple[Session, ...]:
    """Established connections to some ports of some addresses, or of any where none is given; raises as netlink does.

    IPv4 is looked for among both families: a program may use it through IPv6.
    """
    wanted = {each.packed: each for each in remotes}
    only_version_6 = bool(wanted) and all(each.version == 6 for each in remotes)
    return tuple(
        _session(found, wanted.get(found.remote.address.packed, found.remote.address))
        for family in ((socket.AF_INET6,) if only_version_6 else (socket.AF_INET, socket.AF_INET6))
        for found in _established(family)
        if found.remote.port in ports and (not wanted or found.remote.address.packed in wanted)
    )


def parse_socket(body: bytes) -> Socket | None:
    """One connection of a list; None where the message is cut short."""
    if len(body) < _MESSAGE.size:
        return None
    family, _, _, _, local_port, remote_port, local, remote, bound_link, *rest = _MESSAGE.unpack_from(body)
    near = _end(family, local, local_port, bound_link)
    far = _end(family, remote, remote_port, bound_link)
    if near is None or far is None:
        return None
    info = attributes(body[_MESSAGE.size :]).get(_INFO, b"")
    return Socket(near, far, bound_link, rest[_UID_AT], parse_tcp_info(info))


def parse_tcp_info(data: bytes) -> Mapping[str, int]:
    """What TCP knows, by the kernel's own names; without what this kernel does not tell."""
    return {
        name: int.from_bytes(data[start : start + size], sys.byteorder)
        for name, (start, size) in _TCP_INFO.items()
        if start + size <= len(data)
    }


def _established(family: int) -> Iterator[Socket]:
    question = _QUESTION.pack(family, socket.IPPROTO_TCP, _INFO_BIT, 1 << _ESTABLISHED)
    for message in netlink.dump(netlink.SOCK_DIAG, _BY_FAMILY, question):
        found = parse_socket(message.body)
        if found is not None:
            yield found


def _end(family: int, octets: bytes, port: bytes, link: int) -> Endpoint | None:
    """One end of a connection, both parts in the order of the network; None for a family that has no addresses.

    IPv4 that a program uses through IPv6 is IPv4.
    """
    sizes = {int(socket.AF_INET): 4, int(socket.AF_INET6): 16}
    found = netlink.address(octets[: sizes.get(family, 0)], _name(link))
    if found is None:
        return None
    mapped = found.ipv4_mapped if isinstance(found, IPv6Address) else None
    return Endpoint(mapped or found, int.from_bytes(port, "big"))


def _name(link: int) -> str | None:
    try:
        return socket.if_indextoname(link) if link else None
    except OSError:
        return None


def _session(found: Socket, remote: Address) -> Session:
    info = found.info
    return Session(
        local=found.local,
        remote=Endpoint(remote, found.remote.port),
        interface=_name(found.bound_link) or _road(found),
        tcp=SessionCount(
            sent_bytes=info.get("bytes_sent", info.get("bytes_acked")),
            received_bytes=info.get("bytes_received"),
            sent_segments=info.get("segs_out"),
            retransmitted=info.get("total_retrans"),
            out_of_order=info.get("rcv_ooopack"),
        ),
        round_trip_s=_seconds(info.get("rtt")),
        mss=info.get("snd_mss") or None,
        path_mtu=info.get("pmtu") or None,
        owner=owner(found.uid),
    )


def _road(found: Socket) -> str | None:
    """Where the packets of this very connection go now."""
    answer = route(found.remote, found.local, found.uid).route
    return None if answer is None else answer.interface


def _seconds(microseconds: int | None) -> float | None:
    """A time of TCP's [s]; None where it has not measured one."""
    return microseconds / 1e6 if microseconds else None
