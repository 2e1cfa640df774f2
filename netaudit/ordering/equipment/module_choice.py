"""Which module goes into a cage that names none: the one that its fibre and both ends leave."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from netaudit.model.place import PortRef
from netaudit.model.plan import FIBRE_GRADES, Plan, Port
from netaudit.network.media import Carrier
from netaudit.network.plugs import CAGES, Plug, plug_of
from netaudit.network.topology import Topology
from netaudit.standards.cages import cages, form_of
from netaudit.standards.optics import optics
from netaudit.standards.phys import phys

USUAL = (
    "100BASE-FX", "1000BASE-SX", "1000BASE-LX10", "10GBASE-SR", "10GBASE-LR", "25GBASE-SR", "25GBASE-LR", "40GBASE-LR4",
)  # fmt: skip
"""Modules for two fibres with LC plugs that nobody has to think twice about, at most one for each rate and kind of
fibre: the short reach for multimode, the long one for single-mode. Common practice, no source."""

Asked = tuple[tuple[PortRef, ...], str]
"""Ports whose modules somebody has to name, and why, as the rest of a sentence."""


class Choices(NamedTuple):
    """The modules that the plan does not name."""

    chosen: Mapping[PortRef, str]
    """Port to the physical layer of the module that was chosen for it."""
    asked: tuple[Asked, ...]
    """What was left open."""


def choices(plan: Plan, topology: Topology) -> Choices:
    """A module for every cage without one at the end of a fibre, as far as only one answers.

    A far end that names its module is given the opposite one. Where neither does, it is the usual module of the
    highest rate that both cages run and the published limits do not refuse over this fibre. A cage that is owned and
    names no module, an end that is no cage, a breakout, a way that is not all fibre and one that leads nowhere are
    asked about.
    """
    chosen: dict[PortRef, str] = {}
    asked: list[Asked] = []
    for link in topology.links:
        if link.carrier is None or not _over_fibre(link.carrier):
            continue
        bare = tuple(end for end in (link.near, link.far) if _bare(_port(plan, end)) and end not in chosen)
        if not bare:
            continue
        ports = (_fitted(plan, link.near, chosen), _fitted(plan, link.far, chosen))
        found = _chosen(plan, ports, link.carrier, bare)
        if isinstance(found, str):
            asked.append((bare, found))
        else:
            chosen.update(found)
    settled = {*chosen, *(end for ends, _ in asked for end in ends)}
    lonely = tuple(end for end in bare_ends(plan, "fibre") if end not in settled)
    if lonely:
        asked.append((lonely, "the fibre leads to no other machine yet"))
    return Choices(chosen, tuple(asked))


def _over_fibre(carrier: Carrier) -> bool:
    """Whether there is fibre on the way, even where not all of it is."""
    return carrier.medium == "fibre" or any(grade in FIBRE_GRADES for grade in carrier.kinds)


def bare_ends(plan: Plan, plug: Plug) -> Mapping[PortRef, str]:
    """Cages that name no module and hold one kind of plug, each with its cable, in the order of the cables."""
    return {
        end: cable.name
        for cable in plan.cables.values()
        if plug_of(cable) == plug
        for end in cable.ends
        if _bare(_port(plan, end))
    }


def unnamed(plan: Plan, made: Choices) -> tuple[PortRef, ...]:
    """The cages that need a module which nobody has named, in plan order; one that is owned has its own."""
    asked = {end for ends, _ in made.asked for end in ends if end not in made.chosen}
    needed = asked | bare_ends(plan, "twisted pair").keys()
    return in_plan_order(plan, {ref for ref in needed if not _port(plan, ref).owned})


def in_plan_order(plan: Plan, refs: Collection[PortRef]) -> tuple[PortRef, ...]:
    """Some ports of a plan, in the order in which it has them."""
    every = (PortRef(device.name, name) for device in plan.devices.values() for name in device.ports)
    return tuple(ref for ref in every if ref in refs) if refs else ()


def takes(port: Port, phy: str) -> bool:
    """Whether a port takes a module as it is and runs its rate; what the plan does not say is no objection."""
    fits = port.connector is None or (port.connector in CAGES and cages()[port.connector, form_of(phy).form].works)
    return fits and (port.rates is None or phys()[phy].rate_bit_per_s in port.rates.bit_per_s)


def _bare(port: Port) -> bool:
    return port.connector in CAGES and port.module is None


def _port(plan: Plan, ref: PortRef) -> Port:
    return plan.devices[ref.device].ports[ref.port]


def _fitted(plan: Plan, ref: PortRef, chosen: Mapping[PortRef, str]) -> Port:
    """A port with the module that was chosen for it, if any was."""
    port = _port(plan, ref)
    return port._replace(module=port.module or chosen.get(ref))


def _chosen(
    plan: Plan, ports: tuple[Port, Port], carrier: Carrier, bare: tuple[PortRef, ...]
) -> Mapping[PortRef, str] | str:
    """Each bare end of a fibre between two ports with its module, or what stands in the way."""
    near, far = ports
    if carrier.lanes > 1:
        return "the modules of a breakout have to be made for each other"
    owned = next((end for end in bare if _port(plan, end).owned), None)
    if owned is not None:
        return f"{owned} is owned, and the plan does not say which module sits in it"
    named = near.module or far.module
    if named is not None and named not in optics():
        return f"the far end names {named}, which is not for fibre"
    if carrier.medium != "fibre":
        return "the way to the far end is not all fibre"
    if named is not None:
        return _opposite(plan, named, bare[0])
    if len(bare) == 1:
        return "the far end is no cage, and the plan does not say what light it sends"
    phy = next(_usual(near, far, carrier), None)
    return "no one module is usual for these cages over this fibre" if phy is None else dict.fromkeys(bare, phy)


def _opposite(plan: Plan, named: str, end: PortRef) -> Mapping[PortRef, str] | str:
    """The module that goes with the one at the far end."""
    phy = optics()[named].opposite
    return {end: phy} if takes(_port(plan, end), phy) else f"the {phy} that the far end asks for does not work there"


def _usual(near: Port, far: Port, carrier: Carrier) -> Iterator[str]:
    """Usual modules that both ends take, the fastest first: those that are promised, then those that may work."""
    multimode = any(grade.startswith("OM") for grade in carrier.kinds if grade in FIBRE_GRADES)
    medium = "multimode" if multimode else "singlemode"
    answers = {
        phy: replace(carrier, modules=(phy, phy)).promise(phys()[phy].rate_bit_per_s)
        for phy in sorted(USUAL, key=lambda phy: -phys()[phy].rate_bit_per_s)
        if phys()[phy].medium == medium and takes(near, phy) and takes(far, phy)
    }
    yield from (phy for phy, promise in answers.items() if promise.answer == "yes")
    yield from (phy for phy, promise in answers.items() if promise.answer == "undecided" and promise.why != "reach")
