"""Plugs: what each cable ends in, and what goes into each connector."""

from __future__ import annotations

from typing import get_args

import pytest
from wiring import UP_TO_10G, cable, cage, jack

from netaudit.model.plan import Category, Connector, Port
from netaudit.network.plugs import ALL_PLUGS, CAGES, NO_PLUG, plug_of, plugs_taken

# What goes where follows from the connectors: IEC 60603-7 (rj45), IEC 61754 (lc, sc, mpo), SFF-8431 (cages),
# USB Type-C R2.0 section 1.1 (Thunderbolt 3 and later use its plug, which a USB-A socket does not take).
TAKEN = {
    "rj45": {"twisted pair"},
    "sfp": {"made-up", "fibre"},
    "sfp+": {"made-up", "fibre"},
    "sfp28": {"made-up", "fibre"},
    "qsfp+": {"made-up", "fibre"},
    "qsfp28": {"made-up", "fibre"},
    "lc": {"fibre"},
    "sc": {"fibre"},
    "mpo": {"fibre"},
    "radio": set(),
    "usb-a": {"usb"},
    "usb-c": {"usb", "thunderbolt"},
    "thunderbolt": {"usb", "thunderbolt"},
}


@pytest.mark.parametrize("connector", get_args(Connector))
def test_a_port_takes_the_plugs_of_its_connector(connector: Connector) -> None:
    assert TAKEN[connector] == plugs_taken(Port(connector=connector))
    assert (connector in CAGES) == (TAKEN[connector] == {"made-up", "fibre"})


@pytest.mark.parametrize(
    ("module", "plug"),
    [
        ("10GBASE-T", "twisted pair"),
        ("1000BASE-T", "twisted pair"),
        ("10GSFP+Cu", "made-up"),
        ("10GBASE-SR", "fibre"),
        ("10GBASE-LR", "fibre"),
        ("1000BASE-LX", "fibre"),
    ],
)
def test_a_module_decides_over_its_cage(module: str, plug: str) -> None:
    assert {plug} == plugs_taken(cage(10, module=module))


def test_a_port_without_a_connector_may_take_anything_unless_its_rates_are_those_of_twisted_pair() -> None:
    assert ALL_PLUGS == plugs_taken(Port()) == plugs_taken(jack(10)._replace(connector=None))
    assert {"twisted pair"} == plugs_taken(Port(rates=UP_TO_10G))
    assert {"made-up", "fibre"} == plugs_taken(Port(connector="sfp+", rates=UP_TO_10G))
    assert NO_PLUG == frozenset()


@pytest.mark.parametrize(
    ("plug", "categories"),
    [
        ("twisted pair", ("3", "5", "5e", "6", "6A", "7", "7A", "8.1", "8.2")),
        ("fibre", ("OM1", "OM2", "OM3", "OM4", "OM5", "OS1", "OS1a", "OS2")),
        ("made-up", ("twinax", "active-twinax", "active-optical")),
        ("thunderbolt", ("thunderbolt",)),
        ("usb", ("usb",)),
        (None, ("unknown",)),
    ],
)
def test_a_cable_ends_in_the_plug_of_its_category(plug: str | None, categories: tuple[Category, ...]) -> None:
    assert {plug} == {plug_of(cable("C1", "a/1", "b/1", category)) for category in categories}


def test_every_category_and_every_plug_is_known() -> None:
    known = {plug_of(cable("C1", "a/1", "b/1", category)) for category in get_args(Category)}

    assert {None, *ALL_PLUGS} == known
