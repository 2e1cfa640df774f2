"""What is typed in at one port for one network, line by line, as every form of a bill tells it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest
from typing import NamedTuple

from netaudit.model.moving import Setting
from netaudit.report.bill.words import LARGEST_PACKET

LEASED = ("lease",)


class Typed(NamedTuple):
    """One value."""

    what: str
    value: str | None
    """None where there is nothing to type in."""
    note: str | None


def typed(setting: Setting) -> Iterator[Typed]:
    """Every value of a setting, and what is left as it is."""
    for address, netmask in zip_longest(setting.addresses, setting.netmasks[: len(setting.addresses)]):
        yield Typed("address", address, None if netmask is None else f"netmask {netmask}")
    if not setting.addresses:
        yield Typed("address", None, "the plan gives none")
    if setting.tagged and setting.vlan is None:
        yield Typed("VLAN", None, "tagged; the plan gives no number")
    elif setting.tagged:
        yield Typed("VLAN", str(setting.vlan), "tagged")
    if setting.gateway is not None:
        yield Typed("router", str(setting.gateway), None)
    elif setting.addresses and setting.addresses != LEASED:
        yield Typed("router", None, "leave it empty")
    if setting.mtu is not None:
        yield Typed(LARGEST_PACKET, str(setting.mtu), "octets")
    elif setting.open_mtu is not None:
        yield Typed(LARGEST_PACKET, None, f"decide: the plan asks for {setting.open_mtu} in this network")
    else:
        yield Typed(LARGEST_PACKET, None, "leave it as it is")
