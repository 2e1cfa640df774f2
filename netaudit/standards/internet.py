"""Addresses that no port may be given, and the documents that say how hosts tell near from far."""

from __future__ import annotations

from functools import cache
from ipaddress import ip_network
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.model.plan import Address, Subnet

SPECIAL_ADDRESSES = Citation("RFC 1122", "3.2.1.3: addresses with a special meaning", "read")
SUBNET_ENDS = Citation("RFC 3021", "3.1: the first and the last address of a subnet larger than a pair", "read")
VERSION_6_ADDRESSES = Citation(
    "RFC 4291, as given by the comments of net/ipv6/ip6_input.c in Linux",
    "2.5.2, 2.5.3 and 2.7: unspecified, loopback and multicast addresses",
    "secondary",
)
ON_LINK_TEST = Citation("RFC 1122", "3.3.1.1: what shares the masked bits is reached directly", "read")
ANY_PORT_ANSWERS = Citation(
    "Linux kernel documentation, Documentation/networking/ip-sysctl.rst",
    "arp_ignore 0, the default: a machine answers for any of its addresses on any of its ports",
    "read",
)


class ReservedBlock(NamedTuple):
    """Addresses that stand for something else than one port."""

    subnet: Subnet
    first: int
    last: int
    meaning: str
    """What such an address is, as `a loopback address`."""
    source: Citation

    def holds(self, address: Address) -> bool:
        """Whether an address is one of them."""
        return address.version == self.subnet.version and self.first <= int(address) <= self.last


@cache
def reserved_blocks() -> tuple[ReservedBlock, ...]:
    """The blocks of addresses that no port may be given."""
    return tuple(
        ReservedBlock(subnet, int(subnet[0]), int(subnet[-1]), meaning, source)
        for subnet, meaning, source in (
            (ip_network("0.0.0.0/8"), "an address that only a machine without one uses", SPECIAL_ADDRESSES),
            (ip_network("127.0.0.0/8"), "a loopback address, by which a machine speaks to itself", SPECIAL_ADDRESSES),
            (ip_network("224.0.0.0/4"), "a multicast address, which stands for a group", SPECIAL_ADDRESSES),
            (ip_network("240.0.0.0/4"), "an address kept for experiments and broadcasts", SPECIAL_ADDRESSES),
            (ip_network("::/128"), "the address that stands for none", VERSION_6_ADDRESSES),
            (ip_network("::1/128"), "a loopback address, by which a machine speaks to itself", VERSION_6_ADDRESSES),
            (ip_network("ff00::/8"), "a multicast address, which stands for a group", VERSION_6_ADDRESSES),
        )
    )
