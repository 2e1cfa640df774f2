"""A watcher on every port of the switch: whom the station talks to, frame by frame."""

from __future__ import annotations

import select
import socket
import struct
import threading
from collections.abc import Sequence
from ipaddress import IPv4Address, IPv6Address
from types import TracebackType
from typing import NamedTuple

from namespaces import Namespace

ETH_P_ALL, ETH_P_IP, ETH_P_ARP, ETH_P_IPV6 = 0x0003, 0x0800, 0x0806, 0x86DD
PACKET_OUTGOING = 4
"""linux/if_ether.h and linux/if_packet.h."""


class Frame(NamedTuple):
    """A frame that came out of the station, as far as it matters whom it is for."""

    port: str
    kind: str
    """arp, udp, tcp, icmp, icmpv6, igmp, or a number."""
    to: str
    """The address that it is for; of an ARP frame the address that is asked for."""
    to_port: int | None = None


PROTOCOLS = {1: "icmp", 2: "igmp", 6: "tcp", 17: "udp", 58: "icmpv6"}


def read(port: str, data: bytes) -> Frame:
    """The frame that some bytes are."""
    (kind,) = struct.unpack_from("!H", data, 12)
    packet = data[14:]
    if kind == ETH_P_ARP:
        return Frame(port, "arp", str(IPv4Address(packet[24:28])))
    if kind == ETH_P_IP:
        protocol, body = packet[9], packet[(packet[0] & 15) * 4 :]
        return Frame(port, *_read_body(protocol, body, str(IPv4Address(packet[16:20]))))
    if kind == ETH_P_IPV6:
        protocol, body = packet[6], packet[40:]
        if protocol == 0:
            protocol, body = body[0], body[(body[1] + 1) * 8 :]
        return Frame(port, *_read_body(protocol, body, str(IPv6Address(packet[24:40]))))
    return Frame(port, f"{kind:04x}", data[:6].hex(":"))


def _read_body(protocol: int, body: bytes, to: str) -> tuple[str, str, int | None]:
    name = PROTOCOLS.get(protocol, str(protocol))
    return name, to, struct.unpack_from("!H", body, 2)[0] if name in ("tcp", "udp") and len(body) >= 4 else None


class Watcher:
    """Writes down every frame that comes into the switch by some of its ports, while it is entered."""

    def __init__(self, switch: Namespace, ports: Sequence[str]) -> None:
        self.frames: list[Frame] = []
        self._sockets = {switch.inside(lambda port=port: _tap(port)): port for port in ports}  # type: ignore[misc]
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._watch)

    def __enter__(self) -> Watcher:
        self._thread.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, where: TracebackType | None
    ) -> None:
        self._stop.set()
        self._thread.join()
        for tap in self._sockets:
            tap.close()

    def _watch(self) -> None:
        while True:
            ready, _, _ = select.select(list(self._sockets), [], [], 0.1)
            for tap in ready:
                data, (_, _, direction, *_) = tap.recvfrom(256)
                if direction != PACKET_OUTGOING:
                    self.frames.append(read(self._sockets[tap], data))
            if self._stop.is_set() and not ready:
                return


def _tap(port: str) -> socket.socket:
    """A socket that sees every frame of a port of this namespace."""
    tap = socket.socket(socket.AF_PACKET, socket.SOCK_RAW, 0)
    tap.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 8_000_000)
    tap.bind((port, ETH_P_ALL))
    return tap
