"""Specification: what a switch that is not chosen yet has to have, as it follows from what is plugged into it."""

from __future__ import annotations

from netaudit.model.plan import Plan
from netaudit.model.specification import Specification
from netaudit.network.topology import Topology
from netaudit.ordering.equipment.specification_notes import notes
from netaudit.ordering.equipment.wanted import Wanted, wanted_switches


def specifications(plan: Plan, topology: Topology) -> tuple[Specification, ...]:
    """A specification for each switch with `owned: false`, in plan order."""
    return tuple(map(_specification, wanted_switches(plan, topology)))


def _specification(wanted: Wanted) -> Specification:
    switch = wanted.switch
    return Specification(
        device=switch.name,
        needs=wanted.needs,
        packet_octets=wanted.packet_octets,
        bonds=wanted.bonds,
        vlans=tuple(sorted(network.vlan for network in wanted.told_apart if network.vlan is not None)),
        spanning_tree=wanted.tree,
        watts=switch.watts if switch.watts_max is None else switch.watts_max,
        notes=notes(wanted),
    )
