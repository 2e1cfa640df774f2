"""Modules of two kinds at the ends of one fibre: which of them stays, and what goes into the other end."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.listing import either
from netaudit.model.place import PortRef
from netaudit.model.plan import Plan
from netaudit.network.links import Link
from netaudit.network.media import Carrier
from netaudit.network.plugs import CAGES
from netaudit.standards.cages import cages, form_of
from netaudit.standards.fibre import fibre_reach
from netaudit.standards.optics import optics
from netaudit.standards.phys import phys


class Module(NamedTuple):
    """A module in a port."""

    phy: str
    """Its physical layer."""
    at: PortRef


class Choice(NamedTuple):
    """Which of two modules stays, where they do not belong together."""

    kept: Module
    wrong: Module
    runs: bool
    """Whether both cages take the pair and run its rate, as far as the plan tells."""
    reach_m: float
    """How far the one that stays reaches over the fibre there [m]; 0 where it is not made for it."""
    grades: tuple[str, ...]
    """The known grades of the fibre."""

    @property
    def needed(self) -> str:
        """Physical layer that belongs where the wrong one is."""
        return optics()[self.kept.phy].opposite

    @property
    def merit(self) -> tuple[bool, int, float]:
        """What speaks for it: that both cages run it, then its rate [bit/s], then its reach [m]."""
        return self.runs, phys()[self.kept.phy].rate_bit_per_s, self.reach_m


def chosen(link: Link, plan: Plan) -> Choice | None:
    """Which of the modules at the two ends of a fibre stays, by merit; of equals the one at the near end.

    None where the modules belong together, or may: one is not named, or a breakout lies between.
    """
    carrier = link.carrier
    if carrier is None or carrier.medium != "fibre" or carrier.lanes > 1:
        return None
    near, far = carrier.modules
    if near is None or far is None or optics()[near].hears(far):
        return None
    one, other = Module(near, link.near), Module(far, link.far)
    both = (_choice(carrier, plan, one, other), _choice(carrier, plan, other, one))
    return max(both, key=lambda choice: choice.merit)


def _choice(carrier: Carrier, plan: Plan, kept: Module, wrong: Module) -> Choice:
    rows = [fibre_reach().get((kept.phy, grade)) for grade in carrier.kinds]
    needed = Module(optics()[kept.phy].opposite, wrong.at)
    return Choice(
        kept,
        wrong,
        runs=_runs(plan, kept) and _runs(plan, needed),
        reach_m=min((row.reach_m if row else 0.0 for row in rows), default=0.0),
        grades=carrier.kinds,
    )


def _runs(plan: Plan, module: Module) -> bool:
    """Whether its cage takes a module, in an adapter if need be, and runs its rate; one not described is taken to."""
    port = plan.devices[module.at.device].ports[module.at.port]
    if port.connector in CAGES and cages()[port.connector, form_of(module.phy).form].fits == "no":
        return False
    return port.rates is None or phys()[module.phy].rate_bit_per_s in port.rates.bit_per_s


def alike(choice: Choice) -> str:
    """The step that puts two modules of one kind, or the two halves of one pair, into both ends."""
    kept, wrong = choice.kept, choice.wrong
    if not choice.runs:
        return f"Use cages at {wrong.at} and {kept.at} that run one rate, with two modules of one kind for it."
    if choice.grades and not choice.reach_m:
        made = f"that is made for {either(choice.grades)}"
        return f"Put two modules of one kind {made} into {wrong.at} and {kept.at}."
    return f"Put {choice.needed} into {wrong.at}, to go with {kept.phy} in {kept.at}."
