"""Addresses: of hosts, subnets, ranges that are handed out, and hardware."""

from __future__ import annotations

import re
from functools import lru_cache
from ipaddress import ip_address, ip_network

from netaudit.model.plan import Address, Subnet
from netaudit.plan.scalars.quantities import CACHED
from netaudit.plan.scalars.text import quoted

LEASE = "lease"
"""The word for an address that the network hands out."""

_PREFIXED = re.compile(r"([0-9A-Fa-f.:]{1,64})/([0-9]{1,3})")
_MAC = re.compile(
    r"[0-9A-Fa-f]{2}(:[0-9A-Fa-f]{2}){5}|[0-9A-Fa-f]{2}(-[0-9A-Fa-f]{2}){5}|[0-9A-Fa-f]{4}(\.[0-9A-Fa-f]{4}){2}"
)
_LEADING_ZERO = re.compile(r"(?<![0-9])0+(?=[0-9])")
_FOUR_NUMBERS = re.compile(r"[0-9]{1,9}(\.[0-9]{1,9}){3}")


def address(text: str) -> Address:
    """An address of a host, version 4 or 6; raises ValueError."""
    try:
        found = ip_address(text)
    except ValueError:
        raise ValueError(_no_address(text)) from None
    if found.version == 6 and found.scope_id is not None:
        raise ValueError(f"{quoted(text)} names an interface: write {quoted(text.partition('%')[0])}")
    return found


def address_or_lease(text: str) -> Address | str:
    """An address, or the word `lease`; raises ValueError."""
    return LEASE if text == LEASE else address(text)


@lru_cache(CACHED)
def subnet(text: str) -> Subnet:
    """A subnet with its prefix length, no host bits set, as `10.44.20.0/24`; raises ValueError."""
    found = _PREFIXED.fullmatch(text)
    if found is None:
        if _FOUR_NUMBERS.fullmatch(text):
            raise ValueError(f"{quoted(text)} does not say how large the subnet is: write {quoted(f'{text}/24')}, say")
        raise ValueError(f"{quoted(text)} is not a subnet: write its first address and its length, as 10.44.20.0/24")
    host = address(found[1])
    longest = host.max_prefixlen
    if int(found[2]) > longest:
        raise ValueError(f"{quoted(text)}: a subnet of this kind of address has a length of 0 to {longest}")
    right = ip_network(f"{host}/{int(found[2])}", strict=False)
    if right.network_address != host:
        raise ValueError(f"{quoted(text)} is an address inside a subnet: the subnet is {right}")
    return right


@lru_cache(CACHED)
def leases(text: str) -> tuple[Address, Address]:
    """First and last address that are handed out, as `10.44.20.100-10.44.20.199`; raises ValueError."""
    first_text, dash, last_text = text.partition("-")
    if not dash:
        raise ValueError(
            f"{quoted(text)} is not a range of addresses: write the first and the last, as 10.44.20.100-10.44.20.199"
        )
    first, last = address(first_text.strip()), address(last_text.strip())
    if first.version != last.version:
        raise ValueError(f"{quoted(text)} mixes both kinds of address: write two of one kind")
    if int(first) > int(last):
        raise ValueError(f"{quoted(text)} runs backwards: write {last}-{first}")
    return first, last


@lru_cache(CACHED)
def mac(text: str) -> str:
    """A hardware address in any usual spelling, as six lower-case pairs joined by colons; raises ValueError."""
    if not _MAC.fullmatch(text):
        raise ValueError(
            f"{quoted(text)} is not a hardware address: write six pairs of hex digits, as 02:00:5e:10:00:01"
        )
    digits = re.sub("[^0-9a-f]", "", text.lower())
    return ":".join(digits[start : start + 2] for start in range(0, 12, 2))


def _no_address(text: str) -> str:
    if not text:
        return "nothing is written here: write an address such as 10.44.20.11, or leave the key out"
    if _PREFIXED.fullmatch(text):
        return f"{quoted(text)} is an address with a subnet: write {quoted(text.partition('/')[0])}"
    if _FOUR_NUMBERS.fullmatch(text) and _LEADING_ZERO.search(text):
        return f"{quoted(text)} has leading zeros: write {quoted(_LEADING_ZERO.sub('', text))}"
    return f"{quoted(text)} is not an address: write four numbers of 0 to 255, as 10.44.20.11, or one of version 6"
