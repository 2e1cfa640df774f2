"""What to know or to settle before modules, and cables whose ends sit in cages, are ordered."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from netaudit.listing import NAMES_AT_MOST, listed
from netaudit.model.place import PortRef
from netaudit.model.plan import FIBRE_GRADES, TWINAX_KINDS, Cable, Plan, Port
from netaudit.network.links import Link
from netaudit.network.plugs import CAGES, plug_of
from netaudit.network.topology import Topology
from netaudit.ordering.equipment.module_choice import Choices, bare_ends, in_plan_order
from netaudit.ordering.equipment.modules import may_take
from netaudit.standards.modules import copper_modules
from netaudit.standards.optics import optics
from netaudit.standards.phys import phys
from netaudit.units import length_text, number_text

LIGHT = (
    "Light in a fibre is invisible and can hurt the eye: never look into a fibre or a module, keep the dust caps on, "
    "and clean each plug before it goes in."
)
SPARE_CODING = (
    "A spare serves only the maker that it is coded for: where your devices have several, keep one for each coding."
)
"""Common practice, no source."""


def module_remarks(
    plan: Plan, topology: Topology, made: Choices, needed: Mapping[str, Sequence[PortRef]], cables: Sequence[Cable]
) -> tuple[str, ...]:
    """What to know or to settle before modules are ordered, a sentence each.

    `needed` are the ports that need a module bought, by physical layer; `cables` are those bought made up.
    """
    return (
        *_chosen_by_us(made),
        *_asked(plan, made),
        *_bare_copper(plan),
        *_no_cage(plan),
        *_no_cable(plan, topology),
        *_beside_made_up(plan),
        *_pairs(plan, topology, made),
        *_coding(needed, cables),
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


def _asked(plan: Plan, made: Choices) -> Iterator[str]:
    """A question for each reason, with all its ports in plan order."""
    reasons: dict[PortRef, dict[str, None]] = {}
    for ports, why in made.asked:
        for ref in ports:
            reasons.setdefault(ref, {})[why] = None
    by_reason: dict[str, list[PortRef]] = {why: [] for _, why in made.asked}
    for ref in in_plan_order(plan, reasons):
        for why in reasons[ref]:
            by_reason[why].append(ref)
    for why, refs in by_reason.items():
        yield f"Name the {'module' if len(refs) == 1 else 'modules'} for {listed(refs)}: {why}."


def _bare_copper(plan: Plan) -> Iterator[str]:
    """A question about cages without a module that twisted pair is planned for."""
    ends = bare_ends(plan, "twisted pair")
    cables = list(dict.fromkeys(ends.values()))
    if len(ends) == 1:
        yield f"{listed(ends)} is a cage, and {cables[0]} is twisted pair: name the module, or use another port."
    elif ends:
        yield (
            f"{listed(ends)} are cages, and {listed(cables)} {'is' if len(cables) == 1 else 'are'} twisted "
            "pair: name the modules, or use other ports."
        )


def _named(plan: Plan) -> Iterator[tuple[PortRef, Port]]:
    """Every port that names a module."""
    for device in plan.devices.values():
        for name, port in device.ports.items():
            if port.module is not None:
                yield PortRef(device.name, name), port


def _no_cage(plan: Plan) -> Iterator[str]:
    """Modules that are not ordered because nothing takes them."""
    refs = [
        ref
        for ref, port in _named(plan)
        if port.connector is not None and port.connector not in CAGES and not port.owned
    ]
    if refs:
        one = len(refs) == 1
        yield (
            f"{listed(refs)} {'is no cage' if one else 'are no cages'}: the module{'' if one else 's'} named there "
            f"{'is' if one else 'are'} not ordered."
        )


def _no_cable(plan: Plan, topology: Topology) -> Iterator[str]:
    """Modules that are not ordered because nothing is plugged into them."""
    refs = [ref for ref, port in _named(plan) if may_take(port) and ref not in topology.cabling.cables_at]
    if refs:
        names, it = ("names a module", "it") if len(refs) == 1 else ("name a module", "them")
        yield f"{listed(refs)} {names}, but no cable ends there: none is ordered for {it}."


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
        if link.carrier is not None and link.carrier.lanes > 1:
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


def _coding(needed: Mapping[str, Sequence[PortRef]], cables: Sequence[Cable]) -> Iterator[str]:
    """Common practice, no source."""
    if needed:
        rows = "; ".join(f"{phy} for {listed(ports)}" for phy, ports in needed.items())
        yield (
            "Some makers' cages take only modules coded for them, so order each one for the device that it goes into: "
            f"{rows}."
        )
    ends = _coded_ends(cables)
    if ends:
        pairs = [f"{listed(names)} for {listed(devices)}" for devices, names in ends.items()]
        more = f"; and {len(pairs) - NAMES_AT_MOST} more pairs" if len(pairs) > NAMES_AT_MOST else ""
        yield (
            "Made-up cables carry a code at each end, so order each one for the devices at both: "
            f"{'; '.join(pairs[:NAMES_AT_MOST])}{more}."
        )
    if needed or ends:
        yield SPARE_CODING


def _coded_ends(cables: Sequence[Cable]) -> Mapping[tuple[str, ...], list[str]]:
    """The devices that made-up cables join, with the cables that join them."""
    found: dict[tuple[str, ...], list[str]] = {}
    for cable in cables:
        if cable.category in TWINAX_KINDS:
            found.setdefault(tuple(dict.fromkeys(end.device for end in cable.ends)), []).append(cable.name)
    return found


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
