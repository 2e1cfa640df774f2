"""Modules: what goes into the cages, two for each fibre between two of them, and what to know before ordering them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from netaudit.model.goods import Goods, Item
from netaudit.model.place import PortRef
from netaudit.model.plan import FIBRE_GRADES, Plan
from netaudit.network.links import Link
from netaudit.network.plugs import CAGES, plug_of
from netaudit.network.topology import Topology
from netaudit.ordering.made_up import spares
from netaudit.ordering.module_choice import Choices, choices
from netaudit.ordering.stock import Stock
from netaudit.ordering.words import listed
from netaudit.standards.modules import copper_modules
from netaudit.standards.optics import optics
from netaudit.standards.phys import phys
from netaudit.units import length_text, number_text

LIGHT = (
    "Light in a fibre is invisible and can hurt the eye: never look into a fibre or a module, keep the dust caps on, "
    "and clean each plug before it goes in."
)


def modules(plan: Plan, topology: Topology, stock: Stock, spare: float) -> tuple[Item, ...]:
    """A row for each physical layer, in plan order of the first port that takes it.

    A port that names a module needs one, unless the port itself is `owned: true`; a device that is owned does not
    bring its modules. A cage at the end of a fibre that names none gets the one that follows. Made-up cables bring
    their own ends, and a port that is no cage takes no module.
    """
    return tuple(
        Item(
            goods := Goods("module", detail=phy),
            quantity=len(ports),
            spares=spares(len(ports), spare),
            serves=tuple(map(str, ports)),
            price=stock.price(goods),
        )
        for phy, ports in _to_buy(plan, choices(plan, topology)).items()
    )


def _to_buy(plan: Plan, made: Choices) -> Mapping[str, list[PortRef]]:
    """The ports that need a module bought, by physical layer."""
    needed: dict[str, list[PortRef]] = {}
    for device in plan.devices.values():
        for name, port in device.ports.items():
            if port.owned or not (port.connector is None or port.connector in CAGES):
                continue
            ref = PortRef(device.name, name)
            phy = port.module or made.chosen.get(ref)
            if phy is not None and phys()[phy].medium != "twinax":
                needed.setdefault(phy, []).append(ref)
    return needed


def module_remarks(plan: Plan, topology: Topology) -> tuple[str, ...]:
    """What to know or to settle before modules are ordered, a sentence each."""
    made = choices(plan, topology)
    needed = _to_buy(plan, made)
    return (
        *_chosen_by_us(made),
        *(f"Name the module for {listed(ports)}: {why}." for ports, why in made.asked),
        *_bare_copper(plan),
        *_no_cage(plan),
        *_beside_made_up(plan),
        *_pairs(plan, topology, made),
        *_coding(needed),
        *_copper(needed),
        *_light(plan, needed),
    )


def _chosen_by_us(made: Choices) -> Iterator[str]:
    by_phy: dict[str, list[PortRef]] = {}
    for ref, phy in made.chosen.items():
        by_phy.setdefault(phy, []).append(ref)
    for phy, ports in by_phy.items():
        yield (
            f"The plan names no module for {listed(ports)}: {phy} is what follows from the fibre and both ends. "
            f"Write `module: {phy}` into the plan, so that it is checked."
        )


def _bare_copper(plan: Plan) -> Iterator[str]:
    """A question about cages without a module that twisted pair is planned for."""
    ends = {
        end: cable.name
        for cable in plan.cables.values()
        if plug_of(cable) == "twisted pair"
        for end in cable.ends
        if (port := plan.devices[end.device].ports[end.port]).connector in CAGES and port.module is None
    }
    if not ends:
        return
    cables = list(dict.fromkeys(ends.values()))
    if len(ends) == 1:
        yield (
            f"{listed(list(ends))} is a cage, and {cables[0]} is twisted pair: name the module, or use another port."
        )
    else:
        yield (
            f"{listed(list(ends))} are cages, and {listed(cables)} {'is' if len(cables) == 1 else 'are'} twisted "
            "pair: name the modules, or use other ports."
        )


def _no_cage(plan: Plan) -> Iterator[str]:
    """Modules that are not ordered because nothing takes them."""
    refs = [
        PortRef(device.name, name)
        for device in plan.devices.values()
        for name, port in device.ports.items()
        if port.module is not None and port.connector is not None and port.connector not in CAGES and not port.owned
    ]
    if refs:
        one = len(refs) == 1
        yield (
            f"{listed(refs)} {'is no cage' if one else 'are no cages'}: the module{'' if one else 's'} named there "
            f"{'is' if one else 'are'} not ordered."
        )


def _beside_made_up(plan: Plan) -> Iterator[str]:
    """Modules that the plan names where a cable with ends of its own is plugged in."""
    ends = {
        end: cable.name
        for cable in plan.cables.values()
        if plug_of(cable) == "made-up"
        for end in cable.ends
        if (module := plan.devices[end.device].ports[end.port].module) is not None and phys()[module].medium != "twinax"
    }
    if ends:
        cables = list(dict.fromkeys(ends.values()))
        yield (
            f"{listed(cables)} {'has' if len(cables) == 1 else 'have'} ends made on, and the plan names a module for "
            f"{listed(list(ends))} too: settle which one it is; the bill has both."
        )


def _pairs(plan: Plan, topology: Topology, made: Choices) -> Iterator[str]:
    """Links whose two modules are not the same: halves of a pair, and what does not belong together."""
    halves: list[str] = []
    strangers: list[str] = []
    for link in topology.links:
        near, far = (_module_at(plan, made, end) for end in (link.near, link.far))
        if near is None or far is None or near == far or not {near, far} <= optics().keys():
            continue
        (halves if optics()[near].hears(far) else strangers).append(_both_ends(link, near, far))
    if halves:
        yield f"These ends take two different modules that belong together; do not order two alike: {listed(halves)}."
    if strangers:
        yield (f"These modules do not belong together, so settle which one stays before ordering: {listed(strangers)}.")


def _module_at(plan: Plan, made: Choices, ref: PortRef) -> str | None:
    return plan.devices[ref.device].ports[ref.port].module or made.chosen.get(ref)


def _both_ends(link: Link, near: str, far: str) -> str:
    return f"{near} in {link.near} with {far} in {link.far}"


def _coding(needed: Mapping[str, Sequence[PortRef]]) -> Iterator[str]:
    """Common practice, no source."""
    if needed:
        rows = "; ".join(f"{phy} for {listed(ports)}" for phy, ports in needed.items())
        yield (
            "Some makers' cages take only modules coded for them, so order each one for the device that it goes into: "
            f"{rows}."
        )


def _copper(needed: Mapping[str, Sequence[PortRef]]) -> Iterator[str]:
    for phy, ports in needed.items():
        module = copper_modules().get(phy)
        if module is None:
            continue
        yield (
            f"A {phy} module reaches {length_text(module.reach_m)} and draws up to "
            f"{number_text(module.power.most_w)} W, where a cage is made for "
            f"{number_text(module.cage.most_w)} W: leave a cage free beside each "
            f"({listed(ports)}), and ask how many of them the device bears."
        )


def _light(plan: Plan, needed: Mapping[str, Sequence[PortRef]]) -> Iterator[str]:
    fibre = any(cable.category in FIBRE_GRADES for cable in plan.cables.values())
    if fibre or needed.keys() & optics().keys():
        yield LIGHT
