"""Specification: what a switch that is not chosen yet has to have."""

from __future__ import annotations

from typing import Any

from wiring import G, cable, jack, network, ref, seat, switch, topology_of, wired

from netaudit.model.plan import Bond
from netaudit.model.specification import PortNeed, Specification
from netaudit.ordering.equipment.specification import specifications


def told(*things: Any) -> tuple[Specification, ...]:
    return specifications(wired(*things), topology_of(*things))


def only(*things: Any) -> Specification:
    (specification,) = told(*things)
    return specification


def test_a_specification_says_all_that_is_asked_of_one_switch() -> None:
    """The ports by what is plugged into them, the packets of whoever is heard, and the VLANs by their numbers."""
    core = switch(
        "core",
        {"1": jack(untagged="media", mtu=9216), "2": jack(untagged="office")},
        owned=False, bonds={"b": Bond(("1",))}, spanning_tree=True, watts=41.0,
    )  # fmt: skip
    seats = (
        seat("cut-1", {"wire": jack(untagged="media", mtu=9000)}),
        seat("cut-2", {"wire": jack(untagged="office")}),
    )
    lines = (cable("C1", "cut-1/wire", "core/1"), cable("C2", "cut-2/wire", "core/2"))
    found = only(network("media", vlan=20), network("office", vlan=10), *seats, core, *lines)

    assert Specification(
        device="core",
        needs=(PortNeed("rj45", 10 * G, 2, (ref("core/1"), ref("core/2"))),),
        packet_octets=9000,
        bonds=1,
        vlans=(10, 20),
        spanning_tree=True,
        watts=41.0,
    ) == found._replace(notes=())
    assert "It has to be a managed switch" in found.notes[0]


def test_each_switch_that_is_not_owned_has_a_specification_in_plan_order() -> None:
    things = (switch("a"), switch("b", owned=True), switch("c", owned=False), switch("d", owned=False))
    assert ["c", "d"] == [specification.device for specification in told(*things)]
    assert () == told(switch("a"))


def test_a_network_without_a_number_has_none_among_the_vlans() -> None:
    trunk = seat("cut-1", {"wire": jack(tagged=("media", "office"))})
    core = switch("core", {"1": jack(tagged=("media", "office"))}, owned=False)
    line = cable("C1", "cut-1/wire", "core/1")
    assert (20,) == only(network("media", vlan=20), network("office"), trunk, core, line).vlans


def test_the_watts_are_the_most_that_the_plan_gives() -> None:
    assert [60.0, 41.0, None] == [
        one.watts
        for one in told(
            switch("a", watts=41.0, watts_max=60.0, owned=False),
            switch("b", watts=41.0, owned=False),
            switch("c", owned=False),
        )
    ]
