"""Fitting: the plan as it will be plugged together, with what its modules and links ask of the cables."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from netaudit.model.place import PortRef
from netaudit.model.plan import FIBRE_GRADES, Device, Plan
from netaudit.network.channels import Channel
from netaudit.network.topology import Topology
from netaudit.standards.optics import optics


class Fitted(NamedTuple):
    """A plan with all modules that are known, and what follows from them for each cable."""

    plan: Plan
    """With its module in each cage for which one was chosen."""
    rates_bit_per_s: Mapping[str, tuple[int, ...]]
    """Made-up cable to the rates that it, or one lane of it, may come to run, the highest first [bit/s]."""
    fibres: Mapping[str, int]
    """Cable to the fibres that the modules on its way use."""


def fitted(plan: Plan, topology: Topology, chosen: Mapping[PortRef, str]) -> Fitted:
    """A plan with a module in each cage for which one was chosen; the topology is that of the plan."""
    whole = _with_modules(plan, chosen)
    return Fitted(whole, _rates(topology), _fibres(whole, topology))


def _with_modules(plan: Plan, chosen: Mapping[PortRef, str]) -> Plan:
    by_device: dict[str, dict[str, str]] = {}
    for ref, phy in chosen.items():
        by_device.setdefault(ref.device, {})[ref.port] = phy
    changed = {name: _with_own(plan.devices[name], own) for name, own in by_device.items()}
    return replace(plan, devices={**plan.devices, **changed})


def _with_own(device: Device, modules: Mapping[str, str]) -> Device:
    ports = {name: device.ports[name]._replace(module=phy) for name, phy in modules.items()}
    return replace(device, ports={**device.ports, **ports})


def _rates(topology: Topology) -> Mapping[str, tuple[int, ...]]:
    """The rates that all links over a made-up cable have in common."""
    found: dict[str, tuple[int, ...]] = {}
    for link in topology.links:
        if link.carrier is None or link.carrier.medium != "twinax" or link.possible_rates is None:
            continue
        for name in link.cables:
            before = found.get(name, link.possible_rates)
            found[name] = tuple(rate for rate in before if rate in link.possible_rates)
    return found


def _fibres(plan: Plan, topology: Topology) -> Mapping[str, int]:
    """Fibres in use by cable: as its links have it, and where it has none, as the modules at its own ends do."""
    found: dict[str, int] = {}
    for link in topology.links:
        if link.channel is None or link.carrier is None or link.carrier.medium != "fibre":
            continue
        for name, count in _uses(plan, link.channel):
            found[name] = max(count, found.get(name, 0))
    for cable in plan.cables.values():
        if cable.category in FIBRE_GRADES and cable.name not in found:
            ends = cable.ends if len(cable.to_ports) == 1 else (cable.from_port,)
            used = max(_fibres_at(plan, end) for end in ends)
            if used:
                found[cable.name] = used
    return found


def _uses(plan: Plan, channel: Channel) -> Iterator[tuple[str, int]]:
    """The cables of a channel with the fibres in use in each; behind a breakout those of the far module alone."""
    ends, cables = (channel.near, channel.far), channel.cables
    if channel.trunk == channel.far:
        ends, cables = ends[::-1], cables[::-1]
    first, last = (_fibres_at(plan, end) for end in ends)
    used = max(first, last) if channel.trunk is None else first
    for cable in cables:
        if used:
            yield cable.name, used
        if len(cable.to_ports) > 1:
            used = last


def _fibres_at(plan: Plan, ref: PortRef) -> int:
    """Fibres that the module in a port uses; 0 where none is known."""
    optic = optics().get(plan.devices[ref.device].ports[ref.port].module or "")
    return 0 if optic is None else optic.fibres
