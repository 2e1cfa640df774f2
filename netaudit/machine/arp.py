"""One ARP question, and every hardware address that answers it: two mean that two ports have the address.

Source: RFC 826; more than one answer is a conflict by RFC 5227, or one host that answers on several ports. IPv6 is not
asked: its answers come from the system's own neighbour table.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from ipaddress import IPv4Address, ip_network
from typing import NamedTuple

from netaudit.errors import AnswerError
from netaudit.machine.raw_frames import demand_raw_frames

BROADCAST = "ff:ff:ff:ff:ff:ff"
MAC = re.compile("(?:[0-9a-f]{2}:){5}[0-9a-f]{2}")
IS_AT = 2
MOST_ANSWERS = 16


class Asker(NamedTuple):
    """Who asks: the interface's own addresses."""

    mac: str
    address: str


def ask(address: IPv4Address, interface: str, timeout_s: float) -> tuple[str, ...]:
    """Hardware addresses that answer for an address on the link of an interface, in the order of their answers.

    The question bears the interface's own address, as the system's own question would. The whole time is waited for.
    Raises PrivilegeError without the right to raw frames, AnswerError where the interface cannot ask.
    """
    demand_raw_frames()
    try:
        return distinct(_answers(str(address), _asker(interface, address), interface, timeout_s))
    except AnswerError:
        raise
    except Exception as error:
        raise AnswerError(f"{interface} cannot ask for hardware addresses: {error}") from error


def distinct(macs: Iterable[object]) -> tuple[str, ...]:
    """Well-formed hardware addresses, each once, in their order, not more than a handful."""
    told = dict.fromkeys(mac.lower() for mac in macs if isinstance(mac, str) and MAC.fullmatch(mac.lower()))
    return tuple(told)[:MOST_ANSWERS]


def _answers(address: str, asker: Asker, interface: str, timeout_s: float) -> list[object]:
    """Sender hardware addresses of the replies.

    Every field is given, and the interfaces are read anew: what scapy knows of them is as old as its import. Its own
    table of routes is not needed, and reading a long one takes it seconds.
    """
    import logging  # noqa: PLC0415 - with scapy, which would warn of what is no fault here

    logging.getLogger("scapy").setLevel(logging.CRITICAL)
    from scapy.config import conf  # noqa: PLC0415 - a quarter of a second, paid only by whoever asks

    conf.route_autoload = conf.route6_autoload = False
    from scapy.layers.l2 import ARP, Ether  # noqa: PLC0415 - as above
    from scapy.sendrecv import srp  # noqa: PLC0415 - as above

    conf.ifaces.reload()
    question = Ether(src=asker.mac, dst=BROADCAST) / ARP(hwsrc=asker.mac, psrc=asker.address, pdst=address)
    answered, _ = srp(
        question,
        iface=interface,
        timeout=timeout_s,
        multi=True,
        verbose=0,
        threaded=False,
        chainCC=True,
        chainEX=True,
    )
    replies = [reply[ARP] for _, reply in answered if ARP in reply]
    return [reply.hwsrc for reply in replies if (reply.op, reply.psrc) == (IS_AT, address)]


def _asker(interface: str, address: IPv4Address) -> Asker:
    """The interface's hardware address and its own address in the network of another.

    Where it has no address the question is a probe by RFC 5227, from 0.0.0.0. Raises AnswerError without a hardware
    address: then it is no Ethernet.
    """
    import psutil  # noqa: PLC0415 - only for whoever may ask

    known = psutil.net_if_addrs().get(interface, ())
    macs = [each.address for each in known if each.family == psutil.AF_LINK]
    if not macs:
        raise AnswerError(f"{interface} has no hardware address to ask from")
    own = [each for each in known if each.family.name == "AF_INET"]
    near = [each.address for each in own if _in_network(address, each.address, each.netmask)]
    return Asker(macs[0].replace("-", ":").lower(), next(iter(near or [each.address for each in own]), "0.0.0.0"))  # noqa: S104


def _in_network(address: IPv4Address, own: str, netmask: str | None) -> bool:
    return netmask is not None and address in ip_network(f"{own}/{netmask}", strict=False)
