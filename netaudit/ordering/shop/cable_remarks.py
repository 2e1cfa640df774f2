"""What to know or to ask before cables with their plugs on are ordered: plugs, fibres and tails."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from netaudit.listing import listed
from netaudit.model.place import PortRef
from netaudit.model.plan import FIBRE_GRADES, TWINAX_KINDS, Cable, Plan
from netaudit.network.plugs import CAGES
from netaudit.ordering.shop.ends import plugs_of, tails_of
from netaudit.ordering.shop.fitting import Fitted
from netaudit.ordering.shop.made_up import USUAL_FIBRES, fibres_of, fibres_text

MPO_FIBRES = {8: (8, 12), 20: (20, 24)}
"""Fibres that a parallel module uses to those of the cords that serve it; what is over stays dark. From memory."""


def cable_remarks(fitted: Fitted, cables: Sequence[Cable]) -> tuple[str, ...]:
    """What to know or to ask before made-up cables are ordered, a sentence each.

    Cautions that name no document: common practice, no source.
    """
    fibre = [cable for cable in cables if cable.category in FIBRE_GRADES]
    return (
        *_without_plugs(fitted, cables),
        *_fibres_differ(fitted, fibre),
        *_free_tails(fitted, cables),
        *_polarity(fitted, fibre),
        *_polish(fibre),
        *_fixed_fibre(fitted.plan, fibre),
    )


def _without_plugs(fitted: Fitted, cables: Sequence[Cable]) -> Iterator[str]:
    """Cables whose plugs are not known: some wait for a module, others for a connector."""
    waiting: dict[str, list[PortRef]] = {}
    unknown: dict[str, list[PortRef]] = {}
    for cable in cables:
        if cable.category not in FIBRE_GRADES and cable.category not in TWINAX_KINDS:
            continue
        for end, plug in zip(cable.ends, plugs_of(fitted, cable), strict=True):
            if plug is None:
                port = fitted.plan.devices[end.device].ports[end.port]
                waits = port.connector in CAGES and port.module is None
                (waiting if waits else unknown).setdefault(cable.name, []).append(end)
    if waiting:
        ports = list(dict.fromkeys(end for ends in waiting.values() for end in ends))
        yield (
            f"Module first: order {listed(waiting)} only when the {_plural('module', ports)} for {listed(ports)} "
            f"{'is' if len(ports) == 1 else 'are'} named, which {'decides' if len(ports) == 1 else 'decide'} on plugs "
            "and fibres."
        )
    if unknown:
        ports = list(dict.fromkeys(end for ends in unknown.values() for end in ends))
        yield (
            f"{listed(unknown)} {'is' if len(unknown) == 1 else 'are'} on the bill without plugs: the plan names none "
            f"that goes into {listed(ports)}."
        )


def _fibres_differ(fitted: Fitted, fibre: Sequence[Cable]) -> Iterator[str]:
    for cable in fibre:
        used = fitted.fibres.get(cable.name)
        if cable.fibres is None or used is None:
            continue
        if cable.fibres < used or cable.fibres not in MPO_FIBRES.get(used, (cable.fibres,)):
            yield (
                f"{cable.name} has {fibres_text(cable.fibres)} by the plan, and the modules on its way use {used}: "
                "settle which is right before ordering; the bill has what the plan says."
            )


def _free_tails(fitted: Fitted, cables: Sequence[Cable]) -> Iterator[str]:
    for cable in cables:
        tails, used = tails_of(fitted, cable), len(cable.to_ports)
        if tails > used:
            free = tails - used
            yield (
                f"{cable.name} is sold with {tails} tails: {free} of them {'stays' if free == 1 else 'stay'} free; cap "
                f"{'it' if free == 1 else 'them'}."
            )


def _polarity(fitted: Fitted, fibre: Sequence[Cable]) -> Iterator[str]:
    """Polarity of duplex and of MPO cords: ANSI/TIA-568.3, from memory."""
    parallel = [cable.name for cable in fibre if "mpo" in plugs_of(fitted, cable)]
    duplex = [
        cable.name
        for cable in fibre
        if set(plugs_of(fitted, cable)) <= {"lc", "sc"} and fibres_of(fitted, cable) == USUAL_FIBRES
    ]
    if duplex:
        yield (
            f"Ask for {listed(duplex)} crossed, A to B, as duplex cords usually are: what one end sends, the other has "
            "to receive."
        )
    if parallel:
        yield (
            f"Ask which polarity type {listed(parallel)} {'needs' if len(parallel) == 1 else 'need'} (B for a direct "
            "link of two parallel modules), and whether with sockets or pins: modules have pins, so a cord into one "
            "has none."
        )


def _polish(fibre: Sequence[Cable]) -> Iterator[str]:
    single_mode = [cable.name for cable in fibre if cable.category.startswith("OS")]
    if single_mode:
        yield (
            f"Ask for {listed(single_mode)} whether the ports are polished UPC or APC, which never go together: both "
            "ends alike, as the ports have it."
        )


def _fixed_fibre(plan: Plan, fibre: Sequence[Cable]) -> Iterator[str]:
    fixed = [cable.name for cable in fibre if is_fixed_fibre(plan, cable)]
    if fixed:
        lies, whether = (
            ("lies", "it whether it comes pre-terminated, or is")
            if len(fixed) == 1
            else ("lie", "them whether they come pre-terminated, or are")
        )
        yield (
            f"{listed(fixed)} {lies} between passive ports: ask who lays {whether} spliced to pigtails, which are not "
            "on the bill."
        )


def is_fixed_fibre(plan: Plan, cable: Cable) -> bool:
    """Whether a cable is fibre that stays where it is laid: between ports of passive devices."""
    return cable.category in FIBRE_GRADES and all(plan.devices[end.device].passive for end in cable.ends)


def _plural(word: str, things: Sequence[object]) -> str:
    return word if len(things) == 1 else f"{word}s"
