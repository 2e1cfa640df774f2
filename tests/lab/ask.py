"""What each library says of this machine, and what netaudit's own machine says, as JSON; run within a namespace.

ask.py route ADDRESS    where a connection to ADDRESS, port 445, would go
ask.py links            rate and state of every interface
ask.py answers ADDRESS INTERFACE    hardware addresses that answer for an address
ask.py sessions ADDRESS
"""

from __future__ import annotations

import json
import logging
import socket
import sys
from ipaddress import ip_address
from typing import Any

logging.getLogger("scapy").setLevel(logging.CRITICAL)


def scapy_route(address: str) -> list[str]:
    """Interface and source that scapy's own table gives."""
    if ":" in address:
        from scapy.layers.inet6 import conf as conf6

        return list(conf6.route6.route(address)[:2])
    from scapy.layers.inet import conf

    return list(conf.route.route(address)[:2])


def udp_route(address: str) -> list[str | None]:
    """Who owns, by ifaddr, the address that the kernel gives a datagram socket."""
    import ifaddr

    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    with socket.socket(family, socket.SOCK_DGRAM) as asker:
        asker.connect(socket.getaddrinfo(address, 445, type=socket.SOCK_DGRAM)[0][4])
        source = asker.getsockname()[0].partition("%")[0]
    owners = [
        adapter.name
        for adapter in ifaddr.get_adapters()
        for each in adapter.ips
        if source == (each.ip if isinstance(each.ip, str) else each.ip[0])
    ]
    return [owners[0] if owners else None, source]


def pyroute2_route(address: str, **fields: Any) -> list[str | None]:
    """The route that pyroute2 gets from the kernel."""
    from pyroute2 import IPRoute

    with IPRoute() as ip:
        try:
            (answer,) = ip.route("get", dst=address, **fields)
        except Exception as error:
            return [type(error).__name__, None]
        (link,) = ip.get_links(answer.get_attr("RTA_OIF"))
        return [link.get_attr("IFLA_IFNAME"), answer.get_attr("RTA_PREFSRC")]


def netaudit_route(address: str) -> list[str | None]:
    """The route that a storage session would take, as the probe asks for it."""
    from netaudit.machine.this import this_machine
    from netaudit.model.machine_state import Endpoint

    route = this_machine().route(Endpoint(ip_address(address), 445)).route
    return [None, None] if route is None else [route.interface, str(route.source)]


def route(address: str) -> dict[str, Any]:
    """Every answer about one road."""
    import netifaces

    return {
        "scapy": scapy_route(address),
        "udp": udp_route(address),
        "pyroute2": pyroute2_route(address),
        "pyroute2 with port": pyroute2_route(address, ip_proto=6, dport=445),
        "netifaces": sorted(each[1] for each in netifaces.gateways().get(socket.AF_INET, [])),
        "netaudit": netaudit_route(address),
    }


def links() -> dict[str, Any]:
    """Rate [Mb/s] and carrier of every interface."""
    import psutil

    from netaudit.machine.this import this_machine

    ours = this_machine().interfaces()
    return {
        "psutil": {name: [state.speed, state.isup] for name, state in psutil.net_if_stats().items()},
        "netaudit": {
            name: [state.rate_bit_per_s, state.made_up_rate, state.carrier, state.up] for name, state in ours.items()
        },
    }


def answers(address: str, interface: str) -> dict[str, Any]:
    """Hardware addresses that answer for an address, to scapy as it is and told to wait for more than one."""
    from scapy.layers.l2 import ARP, Ether
    from scapy.sendrecv import srp

    question = Ether(dst="ff:ff:ff:ff:ff:ff") / ARP(pdst=address)
    said = {}
    for name, fields in (("scapy", {}), ("scapy told to wait", {"multi": True})):
        replies, _ = srp(question, iface=interface, timeout=0.6, verbose=0, **fields)
        said[name] = sorted(reply.hwsrc for _, reply in replies)
    return said


def sessions(address: str, port: str) -> dict[str, Any]:
    """Established connections to an address: local address, owner's process, and the interface of their packets."""
    import psutil

    from netaudit.machine.this import this_machine

    found = [each for each in psutil.net_connections("tcp") if each.raddr == (address, int(port))]
    ours = this_machine().sessions([ip_address(address)], [int(port)])
    return {
        "psutil": [[each.laddr.ip, each.pid] for each in found if each.status == "ESTABLISHED"],
        "netaudit": [[str(each.local.address), each.interface] for each in ours],
    }


if __name__ == "__main__":
    print(
        json.dumps(
            {"route": route, "links": links, "answers": answers, "sessions": sessions}[sys.argv[1]](*sys.argv[2:])
        )
    )
