"""Plugs: what a cable ends in, and what the ports at its ends take."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, get_args

from netaudit.model.plan import (
    COPPER_CATEGORIES,
    FIBRE_GRADES,
    TWINAX_KINDS,
    Cable,
    Port,
)
from netaudit.standards.phys import phys

Plug = Literal["twisted pair", "fibre", "made-up", "thunderbolt", "usb"]
"""made-up: the module that is fixed to the end of a direct attach or active optical cable."""

ALL_PLUGS: frozenset[Plug] = frozenset(get_args(Plug))
NO_PLUG: frozenset[Plug] = frozenset()

CAGES = ("sfp", "sfp+", "sfp28", "qsfp+", "qsfp28")
"""Connectors that take a module or a made-up cable."""

_PLUG_OF_CATEGORY: Mapping[str, Plug] = {
    **dict.fromkeys(COPPER_CATEGORIES, "twisted pair"),
    **dict.fromkeys(FIBRE_GRADES, "fibre"),
    **dict.fromkeys(TWINAX_KINDS, "made-up"),
    "thunderbolt": "thunderbolt",
    "usb": "usb",
}
_TAKEN_BY_CONNECTOR: Mapping[str, frozenset[Plug]] = {
    "rj45": frozenset({"twisted pair"}),
    **dict.fromkeys(("lc", "sc", "mpo"), frozenset({"fibre"})),
    **dict.fromkeys(CAGES, frozenset({"made-up", "fibre"})),
    "usb-a": frozenset({"usb"}),
    **dict.fromkeys(("usb-c", "thunderbolt"), frozenset({"usb", "thunderbolt"})),
    "radio": NO_PLUG,
}


def plug_of(cable: Cable) -> Plug | None:
    """What a cable ends in; None while its category is unknown."""
    return _PLUG_OF_CATEGORY.get(cable.category)


def plugs_taken(port: Port) -> frozenset[Plug]:
    """The plugs that go into a port; all of them where neither connector nor module is known.

    A module decides over its cage. Fibre counts as going into an empty cage, whose module the plan does not name yet;
    twisted pair does not, since a cage is not made for it. Rates written `up to` are those of twisted pair.
    """
    if port.module is not None:
        medium = phys()[port.module].medium
        return frozenset({"twisted pair" if medium == "copper" else "made-up" if medium == "twinax" else "fibre"})
    if port.connector is not None:
        return _TAKEN_BY_CONNECTOR[port.connector]
    return _TAKEN_BY_CONNECTOR["rj45"] if port.rates is not None and port.rates.up_to else ALL_PLUGS
