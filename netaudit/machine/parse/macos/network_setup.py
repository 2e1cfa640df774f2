"""`networksetup`: the order of services and the names of hardware ports.

Names of services and ports are free text in the user's language; only the device joins them with anything. Format: as
published in captures; the command's source is closed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

_SERVICE = re.compile(r"\((\d{1,6}|\*)\) (.*)")
_PORT = re.compile(r"\(Hardware Port: (.*), Device: ?(.*)\)")
_HARDWARE = "Hardware Port: "
_DEVICE = "Device: "


class Service(NamedTuple):
    """A network service, in the order that the user gave."""

    name: str
    port: str
    device: str | None
    """None for services without an interface of their own, such as VPNs."""
    enabled: bool


def parse_service_order(text: str) -> tuple[Service, ...]:
    """Services of `-listnetworkserviceorder`, the disabled ones included; `(*)` stands where their number would."""
    return tuple(_services(text))


def parse_hardware_ports(text: str) -> Mapping[str, str]:
    """Devices of `-listallhardwareports` to the names of their ports; VLANs below the rule are left out."""
    ports: dict[str, str] = {}
    name = None
    for line in text.splitlines():
        if line.startswith("==="):
            break
        if line.startswith(_HARDWARE):
            name = line.removeprefix(_HARDWARE).strip()
        elif line.startswith(_DEVICE) and name:
            ports[line.removeprefix(_DEVICE).strip()] = name
            name = None
    ports.pop("", None)
    return ports


def _services(text: str) -> Iterator[Service]:
    head = None
    for line in text.splitlines():
        port = _PORT.fullmatch(line.rstrip())
        if port and head:
            yield Service(head[2], port[1], port[2].strip() or None, head[1] != "*")
        head = None if port else _SERVICE.fullmatch(line) or head
