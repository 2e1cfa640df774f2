"""Ends: what the two ends of a made-up cable have to be, by the ports that it joins."""

from __future__ import annotations

from collections import Counter

from netaudit.model.place import PortRef
from netaudit.model.plan import FIBRE_GRADES, HOST_CABLE_KINDS, TWINAX_KINDS, Cable, Category, Plan, Port
from netaudit.network.plugs import CAGES
from netaudit.standards.optics import optics

FIBRE_CONNECTORS = ("lc", "sc", "mpo")
HOST_CONNECTORS = ("usb-a", "usb-c", "thunderbolt")
SMALL_CAGES = ("sfp", "sfp+", "sfp28")
"""Cages whose modules for fibre take an lc plug, whichever they are: common practice, no source."""


def ends_of(plan: Plan, cable: Cable) -> str | None:
    """The two ends, such as `lc - sc`, whichever way it lies; `qsfp+ - 4 x sfp+` of a breakout.

    None where an end is not known, and where the kind of cable leaves no choice: twisted pair, Thunderbolt both ways.
    """
    near = _plug(plan, cable.from_port, cable.category)
    far = [_plug(plan, end, cable.category) for end in cable.to_ports]
    known = [plug for plug in far if plug is not None]
    if near is None or len(known) != len(far):
        return None
    if len(known) > 1:
        lanes = ", ".join(f"{count} x {plug}" for plug, count in sorted(Counter(known).items()))
        return f"{near} - {lanes}"
    return None if near == known[0] == cable.category else " - ".join(sorted((near, known[0])))


def _plug(plan: Plan, end: PortRef, category: Category) -> str | None:
    port = plan.devices[end.device].ports[end.port]
    if category in FIBRE_GRADES:
        return _fibre_plug(port)
    if category in TWINAX_KINDS:
        return port.connector if port.connector in CAGES else None
    if category in HOST_CABLE_KINDS:
        return port.connector if port.connector in HOST_CONNECTORS else None
    return None


def _fibre_plug(port: Port) -> str | None:
    """The plug of a fibre: the port's own connector, or what the module in its cage takes."""
    if port.connector in FIBRE_CONNECTORS:
        return port.connector
    if port.module is not None:
        optic = optics().get(port.module)
        return None if optic is None else optic.connector
    return "lc" if port.connector in SMALL_CAGES else None
