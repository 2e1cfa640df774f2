"""What an interface is: a wire, a radio, a tunnel, or made of others.

The words of `type:` are those of Apple, network_cmds, ifconfig.tproj/ifconfig.c. Names of kinds: common practice, no
source.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping

from netaudit.model.machine_state import Medium

_BY_NAME: Mapping[str, Medium] = {
    **dict.fromkeys(("utun", "ipsec", "ppp", "gif", "stf", "tun", "tap"), "tunnel"),
    **dict.fromkeys(("awdl", "llw", "ap"), "radio"),
    **dict.fromkeys(("lo", "bridge", "vlan", "bond", "feth", "vmenet", "vmnet"), "virtual"),
}
_BY_TYPE: Mapping[str, Medium] = {
    "Ethernet": "wired",
    "USB Ethernet": "wired",
    "IP over Thunderbolt": "wired",
    "IP over FireWire": "wired",
    "Wi-Fi": "radio",
    "Cellular": "radio",
    "Bluetooth PAN": "radio",
}
_MADE_UP = frozenset({"feth", "vmenet", "vmnet"})
"""Pairs without a wire, whose rate means nothing."""


def medium_of(name: str, kind: str | None, flags: Collection[str]) -> Medium:
    """The medium of an interface by its name, its line `type` and its flags; unknown where none of them tells."""
    found = _BY_NAME.get(_stem(name)) or _BY_TYPE.get(kind or "")
    if found is not None:
        return found
    return "tunnel" if "POINTOPOINT" in flags else "unknown"


def rate_is_made_up(name: str) -> bool:
    """Whether the rate of an interface means nothing."""
    return _stem(name) in _MADE_UP


def _stem(name: str) -> str:
    found = re.match(r"[a-z]*", name)
    return found[0] if found else ""
