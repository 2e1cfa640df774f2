"""A switch that announces its port by LLDP (IEEE 802.1AB), every 300 ms until its standard input ends.

announcer.py DEVICE SWITCH PORT
"""

from __future__ import annotations

import logging
import select
import sys

logging.getLogger("scapy").setLevel(logging.CRITICAL)

from scapy.config import conf  # noqa: E402 - after its logger is quiet
from scapy.contrib.lldp import (  # noqa: E402 - as above
    LLDPDU,
    LLDPDUChassisID,
    LLDPDUEndOfLLDPDU,
    LLDPDUPortDescription,
    LLDPDUPortID,
    LLDPDUSystemName,
    LLDPDUTimeToLive,
)
from scapy.layers.l2 import Ether  # noqa: E402 - as above

NEAREST_BRIDGE = "01:80:c2:00:00:0e"
"""IEEE 802.1AB, table 7-1."""


def announcement(switch: str, port: str) -> Ether:
    """What the switch says of one port."""
    parts: tuple[LLDPDU, ...] = (
        LLDPDUChassisID(subtype=LLDPDUChassisID.SUBTYPE_LOCALLY_ASSIGNED, id=switch.encode()),
        LLDPDUPortID(subtype=LLDPDUPortID.SUBTYPE_INTERFACE_NAME, id=port.encode()),
        LLDPDUTimeToLive(ttl=120),
        LLDPDUPortDescription(description=f"port {port} of the lab".encode()),
        LLDPDUSystemName(system_name=switch.encode()),
        LLDPDUEndOfLLDPDU(),
    )
    frame = Ether(dst=NEAREST_BRIDGE, src="02:44:20:00:00:99")
    for part in parts:
        frame /= part
    return frame


def announce(device: str, frame: Ether) -> None:
    """Announce until the standard input ends."""
    door = conf.L2socket(iface=device)
    print("ready", flush=True)
    while not select.select([sys.stdin], [], [], 0.3)[0]:
        door.send(frame)
    door.close()


if __name__ == "__main__":
    announce(sys.argv[1], announcement(*sys.argv[2:]))
