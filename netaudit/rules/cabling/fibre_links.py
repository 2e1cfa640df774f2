"""Links over fibre, and what they may turn out to run."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from netaudit.listing import listed
from netaudit.model.place import PortRef
from netaudit.model.plan import Cable
from netaudit.network.channels import Channel
from netaudit.network.links import Link
from netaudit.network.media import Carrier
from netaudit.rules.facts import Facts
from netaudit.rules.optics import Choice, chosen
from netaudit.standards.fibre import FibreReach, fibre_attenuation, fibre_reach
from netaudit.standards.optics import optics
from netaudit.standards.phys import phys
from netaudit.units import length_text

CARE = (
    "The light is invisible and can hurt the eye: never look into a fibre or an open port, keep the dust caps on, "
    "and clean each plug before it goes in."
)
"""The caution that goes with every step at a fibre."""


class FibreLink(NamedTuple):
    """A link over fibre with what carries it."""

    link: Link
    channel: Channel
    carrier: Carrier
    choice: Choice | None
    """Which module stays, where those at its ends do not belong together."""

    @property
    def cables(self) -> tuple[Cable, ...]:
        """Its cables, from the near end to the far one."""
        return self.channel.cables

    @property
    def ends(self) -> tuple[tuple[PortRef, str | None], tuple[PortRef, str | None]]:
        """The ports at its two ends, each with the physical layer of its module."""
        near, far = self.carrier.modules
        return (self.link.near, near), (self.link.far, far)

    @property
    def modules(self) -> tuple[str, ...]:
        """The physical layers of the modules at its two ends, once the one that has to go is replaced."""
        if self.choice is not None:
            return tuple(dict.fromkeys((self.choice.kept.phy, self.choice.needed)))
        return tuple(dict.fromkeys(module for module in self.carrier.modules if module is not None))

    @property
    def layers(self) -> tuple[str, ...]:
        """The physical layers that it may turn out to run: every one at its rates until a module is named.

        None where the modules at its ends do not belong together.
        """
        near, far = self.carrier.modules
        named = near or far
        if named is None:
            rates = self.link.possible_rates
            return tuple(phy for phy in optics() if rates is None or phys()[phy].rate_bit_per_s in rates)
        if near is None or far is None:
            return (named,)
        unequal = (near, far) if optics()[near].also == far else (near,)
        return unequal if optics()[near].hears(far) else ()


def fibre_links(facts: Facts) -> Iterable[FibreLink]:
    """Every link over fibre."""
    for link in facts.topology.links:
        if link.channel is not None and link.carrier is not None and link.carrier.medium == "fibre":
            yield FibreLink(link, link.channel, link.carrier, chosen(link, facts.plan))


def running_fibre_links(facts: Facts) -> Iterable[FibreLink]:
    """The links over fibre whose ends have a rate in common, or may have."""
    return (one for one in fibre_links(facts) if one.link.runs)


def rows_of(layer: str) -> tuple[FibreReach, ...]:
    """How far a physical layer reaches over each grade that is specified for it."""
    return tuple(row for (phy, _), row in fibre_reach().items() if phy == layer)


def farthest(rows: Iterable[FibreReach], length_m: float) -> FibreReach | None:
    """The row that reaches the farthest, if that is as far as a length [m]; of equals the least lossy."""
    enough = [row for row in rows if row.reach_m >= length_m]
    return max(enough, key=lambda row: (row.reach_m, -_worst_db_per_km(row)), default=None)


def _worst_db_per_km(row: FibreReach) -> float:
    return fibre_attenuation()[row.grade, row.window_nm].worst_db_per_km


def _rivals(layer: str) -> list[str]:
    """The other layers at the rate of one; bidirectional ones are left out, since they need two different modules."""
    rate_bit_per_s = phys()[layer].rate_bit_per_s
    return [
        name
        for name, optic in optics().items()
        if name != layer and optic.partner is None and phys()[name].rate_bit_per_s == rate_bit_per_s
    ]


def other_layer(layer: str, grades: Sequence[str], length_m: float) -> FibreReach | None:
    """Another layer at the same rate that reaches a length [m] over each of some grades, with the least to spare.

    Its row is that of the grade over which it reaches the least.
    """
    found = []
    for name in _rivals(layer):
        rows = [row for grade in grades if (row := fibre_reach().get((name, grade)))]
        if rows and len(rows) == len(grades):
            found.append(min(rows, key=lambda row: row.reach_m))
    return min((row for row in found if row.reach_m >= length_m), key=lambda row: row.reach_m, default=None)


def beyond_it(subject: FibreLink, layer: str) -> str:
    """What carries the rate of a physical layer over the length of a link, as the end of a sentence."""
    carrier, link = subject.carrier, subject.link
    better = farthest(rows_of(layer), carrier.least_m)
    if better is not None:
        return f"lay {better.grade} from end to end, over which {layer} reaches {length_text(better.reach_m)}"
    other = other_layer(layer, carrier.kinds, carrier.least_m)
    if other is not None:
        modules = f"put {other.phy} modules into {link.near} and {link.far}"
        return f"{modules}, good to {length_text(other.reach_m)} over {listed(carrier.kinds)}"
    rows = (row for name in _rivals(layer) for row in rows_of(name) if row.reach_m >= carrier.least_m)
    enough = min(rows, key=lambda row: (row.reach_m, _worst_db_per_km(row)), default=None)
    if enough is None:
        return "put a switch on the way"
    return f"lay {enough.grade} with {enough.phy} modules at both ends, good to {length_text(enough.reach_m)}"
