"""Rule about modules: does a module go into its cage, and does the cage run the module's rate."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import NamedTuple

from netaudit.citation import PLAN, Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.place import PortRef, port_place
from netaudit.model.plan import Port
from netaudit.network.plugs import CAGES
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.rules.words import are, steps_text
from netaudit.standards.cages import Cage, cages, form_of
from netaudit.standards.phys import phys
from netaudit.units import both_rates_text

COPPER_MODULES = ("10GBASE-T", "1000BASE-T")
"""Modules for twisted pair that are sold, the fastest first: common practice, no source."""


class Loaded(NamedTuple):
    """Ports that are written alike, each with the same module in it."""

    ports: tuple[PortRef, ...]
    port: Port
    module: str

    @property
    def rate_bit_per_s(self) -> int:
        """Rate of the module [bit/s]."""
        return phys()[self.module].rate_bit_per_s


def _loaded(facts: Facts) -> Iterable[Loaded]:
    """Every port with a module whose plan says more of it; the ports of a range together."""
    alike: dict[tuple[str, int], list[PortRef]] = {}
    for device in facts.plan.devices.values():
        for name, port in device.ports.items():
            if port.module is not None and (port.connector is not None or port.rates is not None):
                alike.setdefault((device.name, id(port)), []).append(PortRef(device.name, name))
    for refs in alike.values():
        port = facts.port(refs[0])
        yield Loaded(tuple(refs), port, port.module or "")


def _judge(loaded: Loaded, facts: Facts) -> Judgement:
    connector, rates = loaded.port.connector, loaded.port.rates
    if connector is not None and connector not in CAGES:
        return _finding(
            loaded,
            f"{listed(loaded.ports)} {are(loaded.ports)} {connector}: no module goes into it",
            f"Leave `module` out of {listed(loaded.ports)}, or write the cage that is there as `connector`.",
            PLAN,
        )
    row = None if connector is None else cages()[connector, form_of(loaded.module).form]
    if row is not None and not row.works:
        return _finding(loaded, _too_big(loaded, row), _instead(loaded, facts), _gravest(row, loaded))
    if rates is not None and loaded.rate_bit_per_s not in rates.bit_per_s:
        return _finding(
            loaded,
            f"{_in_it(loaded)} runs {both_rates_text(loaded.rate_bit_per_s)}, and the port runs "
            f"{listed(map(both_rates_text, rates.bit_per_s))}: it stays dark",
            _instead(loaded, facts),
            PLAN,
        )
    if rates is None and row is not None and row.fits == "usually":
        return _may_not_run(loaded, row)
    return None


def _finding(loaded: Loaded, message: str, remedy: str, source: Citation) -> Judgement:
    where = map(port_place, loaded.ports)
    return MODULE_DOES_NOT_FIT.finding(*where, message=message, remedy=remedy, source=source)


def _may_not_run(loaded: Loaded, row: Cage) -> Judgement:
    rate = both_rates_text(loaded.rate_bit_per_s)
    return MODULE_DOES_NOT_FIT.not_checked(
        *map(port_place, loaded.ports),
        reason=f"Whether the {row.cage} cage of {listed(loaded.ports)} can be set to {rate} is not given",
        decides=f"write down `rates` of {listed(loaded.ports)}, as its data sheet has them",
    )


def _in_it(loaded: Loaded) -> str:
    return f"The {loaded.module} module in {listed(loaded.ports)}"


def _too_big(loaded: Loaded, row: Cage) -> str:
    if row.fits == "adapter":
        return f"{_in_it(loaded)} is made as {row.form}, which {_a_cage(row.cage)} takes only in an adapter"
    if all(not cages()[cage, row.form].works for cage in CAGES):
        return f"{_in_it(loaded)} is made as {row.form}, which fits none of the cages {', '.join(CAGES)}"
    return f"{_in_it(loaded)} is made as {row.form}, which does not work in {_a_cage(row.cage)}"


def _gravest(row: Cage, loaded: Loaded) -> Citation:
    """What refuses the module; the source of its form where that is the weaker of the two."""
    form = form_of(loaded.module).source
    return row.source if form.may_fail else form


def _instead(loaded: Loaded, facts: Facts) -> str:
    """What lets the planned module in, or else a module that does go in."""
    connector, rates, form = loaded.port.connector, loaded.port.rates, form_of(loaded.module).form
    home = next((cage for cage in CAGES if cages()[cage, form].works), None)
    steps = []
    if connector is not None and home is not None and cages()[connector, form].fits == "adapter":
        steps.append(f"put it into an adapter with {_a_cage(home)}, and write that as `connector`")
    free = facts.free.suiting(
        loaded.ports[0],
        (loaded.rate_bit_per_s,),
        lambda port: port.connector in CAGES and cages()[port.connector, form].works,
    )
    if free is not None:
        steps.append(f"put it into {free}, which is free and takes it")
    other = module_for(loaded.port, phys()[loaded.module].medium, None if rates is None else rates.bit_per_s)
    if other is not None:
        steps.append(f"use a {other} module in {listed(loaded.ports)} and at the far end")
    return steps_text(steps or ["use a port whose cage takes it and runs its rate"])


def _a_cage(cage: str) -> str:
    return f"{'an' if cage.startswith('s') else 'a'} {cage} cage"


def module_for(port: Port, medium: str, rates: Collection[int] | None) -> str | None:
    """The fastest module for a medium that works in the cage of a port at one of some rates [bit/s].

    None of the rates is given: any will do. None if no module does, or the port is no cage.
    """
    if port.connector not in CAGES:
        return None
    every = COPPER_MODULES if medium == "copper" else [phy.name for phy in phys().values() if phy.medium == medium]
    working = [
        name
        for name in every
        if cages()[port.connector, form_of(name).form].works and (rates is None or phys()[name].rate_bit_per_s in rates)
    ]
    return max(working, key=lambda name: phys()[name].rate_bit_per_s, default=None)


def _sources() -> Iterable[Citation]:
    return dict.fromkeys([PLAN, *(row.source for row in cages().values()), *(form_of(phy).source for phy in phys())])


MODULE_DOES_NOT_FIT = Rule(
    name="module-does-not-fit",
    family="ports",
    severity="fail",
    subjects=_loaded,
    judge=_judge,
    what="A module in a port whose cage is not made for its form, or does not run its rate.",
    why="Modules of several rates look alike and slide into each other's cages, and then no light comes on. "
    "One that is too big is bought and sent back.",
    todo="Use a module of a rate that the cage runs, and the same kind at both ends.",
    sources=_sources,
)
