"""The routers that this machine sends everything to that it knows no other way for."""

from __future__ import annotations

from ipaddress import ip_address
from typing import Any

from netaudit.model.vocabulary import Address


def default_gateways() -> tuple[Address, ...]:
    """The default gateways, those of IPv4 first; empty where there is none.

    They say nothing about the road to a storage, which a closer route may lead elsewhere.
    """
    import netifaces  # noqa: PLC0415 - only a survey pays for it

    rows: Any = netifaces.gateways()
    found: dict[Address, None] = {}
    for family in (netifaces.AF_INET, netifaces.AF_INET6):
        for gateway, *_ in rows.get(family, ()):
            try:
                found[ip_address(gateway)] = None
            except ValueError:
                continue
    return tuple(found)
