"""Listening for the switch: which of its ports this machine is plugged into. Nothing is sent."""

from __future__ import annotations

import socket
import struct
import sys
from collections.abc import Callable
from contextlib import closing

from netaudit.errors import AnswerError
from netaudit.machine.clock import Deadline
from netaudit.machine.parse.lldp import ETHERTYPE, sender, switch_port
from netaudit.machine.raw_frames import demand_raw_frames
from netaudit.model.machine_state import Interface
from netaudit.model.observation import SwitchPort

GROUPS = tuple(bytes.fromhex(group) for group in ("0180c200000e", "0180c2000003", "0180c2000000"))
"""Where announcements are sent to: IEEE 802.1AB table 7-1."""
SOL_PACKET, ADD_MEMBERSHIP, MULTICAST, OUTGOING = 263, 1, 0, 4
"""packet(7)."""
MEMBERSHIP = struct.Struct("@iHH8s")
MOST_OCTETS = 65_535
SHORTEST_WAIT_S = 0.001
"""A wait of nothing would mean one that never blocks [s]."""

Take = Callable[[bytes], bool]
"""Is given one frame, and tells whether it was the one that was waited for."""
Listening = Callable[[str, Deadline, Take], None]
"""Gives every frame of the protocol that comes in at an interface, until a deadline or until one is taken."""


def listen(interface: Interface, seconds: float) -> SwitchPort | None:
    """The first announcement of a neighbour; None where there is none in time. Switches send one each 30 s by default.

    Raises PrivilegeError without the right to raw frames, AnswerError where the interface cannot be listened to.
    """
    demand_raw_frames()
    listening = _packet_socket if sys.platform.startswith("linux") else _scapy
    try:
        return heard(interface, listening, Deadline(seconds))
    except Exception as error:
        raise AnswerError(f"{interface.name} cannot be listened to: {error}") from error


def heard(interface: Interface, listening: Listening, deadline: Deadline) -> SwitchPort | None:
    """The first announcement that comes from somebody else."""
    found: list[SwitchPort] = []

    def take(frame: bytes) -> bool:
        announced = switch_port(frame, interface.name)
        if announced is not None and (interface.mac is None or sender(frame) != interface.mac):
            found.append(announced)
        return bool(found)

    listening(interface.name, deadline, take)
    return found[0] if found else None


def _packet_socket(interface: str, deadline: Deadline, take: Take) -> None:
    """Linux: a packet socket that joins the groups, so that the port need not let everything in."""
    with closing(socket.socket(socket.AF_PACKET, socket.SOCK_RAW, 0)) as sock:
        sock.bind((interface, ETHERTYPE))
        for group in GROUPS:
            request = MEMBERSHIP.pack(socket.if_nametoindex(interface), MULTICAST, len(group), group)
            sock.setsockopt(SOL_PACKET, ADD_MEMBERSHIP, request)
        while not deadline.over:
            sock.settimeout(max(deadline.left_s, SHORTEST_WAIT_S))
            try:
                frame, (_, _, direction, _, _) = sock.recvfrom(MOST_OCTETS)
            except TimeoutError:
                return
            if direction != OUTGOING and take(frame):
                return


def _scapy(interface: str, deadline: Deadline, take: Take) -> None:
    """Elsewhere: scapy listens by the system's own packet filter; the interfaces it knows are as old as its import."""
    import logging  # noqa: PLC0415 - with scapy, which would warn of what is no fault here

    logging.getLogger("scapy").setLevel(logging.CRITICAL)
    import scapy.layers.l2  # noqa: F401, PLC0415 - a quarter of a second, paid only by whoever listens
    from scapy.config import conf  # noqa: PLC0415 - as above
    from scapy.sendrecv import sniff  # noqa: PLC0415 - as above

    conf.ifaces.reload()
    sniff(
        iface=interface,
        filter=f"ether proto {ETHERTYPE:#x}",
        stop_filter=lambda packet: take(packet.original),
        store=False,
        timeout=deadline.left_s,
        chainCC=True,
    )
