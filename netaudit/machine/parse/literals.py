"""Addresses as texts: read from whatever a system writes, and without the interface that they are meant on."""

from __future__ import annotations

from ipaddress import IPv6Address, ip_address

from netaudit.model.vocabulary import Address


def address_of(text: str | None) -> Address | None:
    """An address, in brackets or not, with its zone where it has one; an IPv4 address in IPv6 clothes as what it is.

    None for whatever is no address.
    """
    try:
        address = ip_address((text or "").strip().strip("[]"))
    except ValueError:
        return None
    if isinstance(address, IPv6Address) and address.ipv4_mapped is not None:
        return address.ipv4_mapped
    return address


def without_zone(address: Address) -> Address:
    """An address without the interface that it is meant on."""
    return IPv6Address(int(address)) if isinstance(address, IPv6Address) else address
