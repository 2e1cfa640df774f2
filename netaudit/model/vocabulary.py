"""The words of the plan format, and the kinds of address."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Network, IPv6Address, IPv6Network
from typing import Literal

Address = IPv4Address | IPv6Address
Subnet = IPv4Network | IPv6Network
Regime = Literal["iso", "tia"]
TreeCosts = Literal["long", "short"]
Role = Literal[
    "station", "storage", "switch", "router", "access-point", "panel", "outlet", "adapter", "internet", "ups", "other"
]
System = Literal["macos", "windows", "linux"]
Connector = Literal[
    "rj45", "sfp", "sfp+", "sfp28", "qsfp+", "qsfp28", "lc", "sc", "mpo", "radio", "usb-a", "usb-c", "thunderbolt"
]
Category = Literal[
    "3", "5", "5e", "6", "6A", "7", "7A", "8.1", "8.2",
    "OM1", "OM2", "OM3", "OM4", "OM5", "OS1", "OS1a", "OS2",
    "twinax", "active-twinax", "active-optical", "thunderbolt", "usb", "unknown",
]  # fmt: skip
Material = Literal["copper", "aluminium-clad"]
NetworkPurpose = Literal["storage", "general"]
StoragePurpose = Literal["edit", "archive", "backup"]
Layout = Literal["stripe", "mirror", "single-parity", "double-parity", "triple-parity"]
BusKind = Literal["pcie", "thunderbolt", "usb"]

COPPER_CATEGORIES: tuple[str, ...] = ("3", "5", "5e", "6", "6A", "7", "7A", "8.1", "8.2")
"""Categories of twisted pair, the least first."""
FIBRE_GRADES: tuple[str, ...] = ("OM1", "OM2", "OM3", "OM4", "OM5", "OS1", "OS1a", "OS2")
TWINAX_KINDS: tuple[str, ...] = ("twinax", "active-twinax", "active-optical")
HOST_CABLE_KINDS: tuple[str, ...] = ("thunderbolt", "usb")
PASSIVE_ROLES: frozenset[str] = frozenset({"panel", "outlet"})
"""Roles whose ports only join two cables."""
