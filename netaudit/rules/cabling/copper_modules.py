"""Rules about modules that put twisted pair into a cage: they reach less far, and run warmer than the cage is for."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import PortRef, cable_place, device_place, port_place
from netaudit.model.plan import Device, Port
from netaudit.network.plugs import CAGES
from netaudit.rules.cabling.channels import in_a_row, known_length, longest_first
from netaudit.rules.cabling.copper_links import CopperLink, beyond, copper_links
from netaudit.rules.facts import Facts
from netaudit.rules.gaps import unknown_length
from netaudit.rules.rule import Rule
from netaudit.standards.modules import CopperModule, copper_modules
from netaudit.standards.phys import phys
from netaudit.units import length_text, number_text


def _is_cage(port: Port) -> bool:
    """Whether a port takes a module: by its connector, or because one sits in it."""
    return port.connector in CAGES or (port.connector is None and port.module is not None)


def _module(port: Port) -> CopperModule | None:
    """The module for twisted pair in a cage; None where there is none."""
    if port.module is None or phys()[port.module].medium != "copper" or not _is_cage(port):
        return None
    return copper_modules().get(port.module)


def _ends(copper: CopperLink, facts: Facts) -> dict[PortRef, CopperModule]:
    """The ends of a link that are modules for twisted pair."""
    found = {}
    for ref in (copper.link.near, copper.link.far):
        module = _module(facts.plan.devices[ref.device].ports[ref.port])
        if module is not None:
            found[ref] = module
    return found


def _links_with_modules(facts: Facts) -> Iterable[CopperLink]:
    return (copper for copper in copper_links(facts) if _ends(copper, facts))


def _judge_reach(copper: CopperLink, facts: Facts) -> Judgement:
    run, ends = copper.run, _ends(copper, facts)
    module = next(iter(ends.values()))
    if not beyond(run, module.reach_m):
        missing = unknown_length(copper.link, facts.plan)
        if missing is None:
            return None
        return COPPER_MODULE_REACH.not_checked(missing.where, reason=missing.reason, decides=missing.decides)
    reach = length_text(module.reach_m)
    ports = dict.fromkeys([*ends, copper.link.near, copper.link.far])
    return COPPER_MODULE_REACH.finding(
        *map(port_place, ports),
        *(cable_place(cable.name) for cable in longest_first(copper.channel.cables)),
        message=f"{in_a_row(copper.channel)}: {known_length(run)} on the {module.phy} module in {listed(ends)}, "
        f"and such modules are made for {reach}",
        remedy=f"Shorten the run to {reach}, use a built-in port for twisted pair instead of {listed(ends)}, "
        "or lay fibre with modules for it at both ends.",
        source=module.source,
        measured=Measure(run.least_m, "m"),
        limit=Measure(module.reach_m, "m"),
    )


def _reach_sources() -> tuple[Citation, ...]:
    return tuple(dict.fromkeys(module.source for module in copper_modules().values()))


COPPER_MODULE_REACH = Rule(
    name="copper-module-reach",
    family="cabling",
    severity="warn",
    subjects=_links_with_modules,
    judge=_judge_reach,
    what="A run of twisted pair on a module in a cage that is longer than such modules are made for.",
    why="A module has to live on little power, so that it reaches a third of what a built-in port does "
    "over the same cable.",
    todo="Shorten the run, use a built-in port, or lay fibre.",
    sources=_reach_sources,
)


def _devices_with_modules(facts: Facts) -> Iterable[Device]:
    for device in facts.plan.devices.values():
        if any(_module(port) for port in device.ports.values()):
            yield device


def _judge_heat(device: Device, facts: Facts) -> Judgement:
    modules = {name: module for name, port in device.ports.items() if (module := _module(port)) is not None}
    cages = [name for name, port in device.ports.items() if _is_cage(port)]
    side_by_side = [pair for pair in pairwise(device.ports) if modules.keys() >= set(pair)]
    crowded = len(modules) > 1 and 2 * len(modules) > len(cages)
    if not side_by_side and not crowded:
        return None
    hot = list(dict.fromkeys(name for pair in side_by_side for name in pair)) or list(modules)
    module = modules[hot[0]]
    draws = f"{number_text(module.power.typical_w or module.power.most_w)} to {number_text(module.power.most_w)} W"
    place = "side by side" if side_by_side else f"in {len(modules)} of {len(cages)} cages"
    ports = [PortRef(device.name, name) for name in hot]
    return COPPER_MODULE_HEAT.finding(
        device_place(device.name),
        *map(port_place, ports),
        message=f"{listed(ports)} hold {module.phy} modules {place}: each draws {draws}, "
        f"and a cage is made for {number_text(module.cage.most_w)} W at the most",
        remedy=f"Leave a cage free beside each such module and fill no more than half of the cages of {device.name} "
        "with them, or use fibre or twinax there; its guide says how many it bears.",
        source=module.cage.source,
        measured=Measure(module.power.most_w, "W"),
        limit=Measure(module.cage.most_w, "W"),
    )


def _heat_sources() -> tuple[Citation, ...]:
    return tuple(dict.fromkeys(module.cage.source for module in copper_modules().values()))


COPPER_MODULE_HEAT = Rule(
    name="copper-module-heat",
    family="cabling",
    severity="warn",
    subjects=_devices_with_modules,
    judge=_judge_heat,
    what="Modules for twisted pair in neighbouring cages, or in more than half of the cages of a device.",
    why="Each draws more power than its cage is made for; side by side they overheat, and links drop for no visible "
    "reason.",
    todo="Spread such modules out, or use fibre, twinax or built-in ports.",
    sources=_heat_sources,
)
