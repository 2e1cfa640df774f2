"""What one row of each table says, with a unit in each name and the source beside the figures.

Rows are named tuples, which cost a sixth of what a dataclass costs when a command starts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, NamedTuple

from netaudit.citation import Citation

Medium = Literal["copper", "multimode", "singlemode", "either", "twinax"]


class Phy(NamedTuple):
    """A physical layer."""

    name: str
    """Designation, such as 10GBASE-SR."""
    rate_bit_per_s: int
    """Rate of data [bit/s]."""
    medium: Medium
    """copper is twisted pair; either is multimode or singlemode fibre."""
    clause: str | None
    """Clause of IEEE 802.3; None where that standard does not define it."""
    source: Citation


class CopperReach(NamedTuple):
    """How far a physical layer reaches over a channel of one category."""

    phy: str
    category: str
    screened: bool
    assured_m: float | None
    """Promised up to here [m]; None if nothing promises it at any length."""
    possible_m: float
    """Works up to here under conditions [m]; beyond is too long."""
    source: Citation


@dataclass(frozen=True, slots=True)
class Count:
    """A number of things."""

    count: int
    source: Citation


class Figure(NamedTuple):
    """A number, whose unit stands with the table it is in."""

    value: float
    source: Citation


class CordRule(NamedTuple):
    """How one body of rules counts stranded cords, which lose more than solid cable."""

    regime: str
    factors: Mapping[int, Figure]
    """Gauge [AWG] to loss of a cord against solid cable of its length [ratio]."""
    bounds: Mapping[int | None, tuple[float, float]]
    """Gauge [AWG], None being unknown, to the least and the most of it [ratio]."""
    budgets: Mapping[int, Figure]
    """Rate [bit/s] to the most solid cable that a channel may be worth [m]."""

    def least_factor(self, gauge_awg: int | None) -> float:
        """Loss of a cord against solid cable, at least [ratio]; an unknown gauge [AWG] is the best one."""
        return self.bounds[gauge_awg][0]

    def most_factor(self, gauge_awg: int | None) -> float:
        """Loss of a cord against solid cable, at most [ratio]; an unknown gauge [AWG] is the worst one."""
        return self.bounds[gauge_awg][1]

    @property
    def source(self) -> Citation:
        """What the rule as such rests on."""
        return next(iter(self.budgets.values())).source

    def source_of(self, gauge_awg: int | None) -> Citation:
        """Where the loss of a cord of this gauge [AWG] comes from; the rule itself for an unknown one."""
        return self.source if gauge_awg is None else self.factors[gauge_awg].source


class WarmLine(NamedTuple):
    """One straight piece of the length that warmth leaves."""

    from_c: float
    """Air at its cool end [°C]."""
    to_c: float
    """Air at its warm end [°C]."""
    fixed_at_from_m: float
    """Solid cable allowed at the cool end [m]."""
    shorter_m_per_c: float
    """What each degree takes away [m/°C]."""


class WarmRule(NamedTuple):
    """How much solid cable one body of rules allows in warm air."""

    regime: str
    screened: bool
    lines: tuple[WarmLine, ...]
    """From the coolest to the warmest, each starting where the last one ends."""
    source: Citation

    @property
    def from_c(self) -> float:
        """Air up to which nothing is taken away [°C]."""
        return self.lines[0].from_c

    @property
    def to_c(self) -> float:
        """Warmest air that the rule covers [°C]."""
        return self.lines[-1].to_c

    def allowed_fixed_m(self, air_c: float) -> float | None:
        """Solid cable allowed at a temperature of the air [°C], in metres; None in air that no rule covers."""
        air_c = max(air_c, self.from_c)
        for line in self.lines:
            if air_c <= line.to_c:
                return line.fixed_at_from_m - line.shorter_m_per_c * (air_c - line.from_c)
        return None


class FibreReach(NamedTuple):
    """How far a physical layer reaches over one grade of fibre, and what the fibre may lose on the way."""

    phy: str
    grade: str
    window_nm: int
    """Wavelength at which the loss of the fibre counts [nm]."""
    reach_m: float
    """Promised up to here [m]."""
    possible_m: float
    """Works up to here on a link engineered for it [m]; beyond is too long."""
    loss_db: float | None
    """Promised with a loss up to this [dB]; None where no budget is published."""
    possible_loss_db: float | None
    """Works with a loss up to this [dB]; beyond is too much."""
    source: Citation
    """Where the reach comes from."""
    loss_source: Citation | None
    """Where the loss comes from."""


class FibreAttenuation(NamedTuple):
    """What a grade of fibre may lose by its length at one wavelength."""

    grade: str
    window_nm: int
    """Wavelength [nm]."""
    worst_db_per_km: float
    """The most that cabled fibre of this grade may lose [dB/km]."""
    source: Citation
    typical_db_per_km: float | None
    """What decent fibre loses [dB/km]; None for multimode, whose joints matter more than the difference."""
    typical_source: Citation | None
    other_db_per_km: float | None
    """The most by another document [dB/km]; None where all that were seen agree."""
    other_source: Citation | None


class JointLoss(NamedTuple):
    """What a joint of two fibres loses."""

    joint: str
    """pair: two mated connectors · splice."""
    worst_db: float
    """The most that the standards allow [dB]."""
    source: Citation
    typical_db: float
    """What a decent one loses [dB]."""
    typical_source: Citation


class TwinaxReach(NamedTuple):
    """How long a made-up cable may be."""

    rate_bit_per_s: int
    """Rate of one lane set, as the port names it [bit/s]."""
    kind: str
    """twinax is passive copper; active-twinax has electronics in its ends; active-optical is fibre between them."""
    phy: str | None
    """Physical layer that defines it."""
    reach_m: float | None
    """Longest [m]; None if only its maker limits it."""
    source: Citation


class HostBus(NamedTuple):
    """What a bus between a computer and its adapter carries one way."""

    kind: str
    """pcie, thunderbolt, usb."""
    generation: int | None
    """None for USB, which goes by its signalling rate."""
    signal_bit_per_s: int
    """Signalling rate [bit/s]; of one lane for PCI Express."""
    data_share: Fraction | None
    """Share of the signal that is left for data after line code and packet headers; None where practice decides."""
    practical_bit_per_s: int | None
    """What adapters get in practice [bit/s]; None where the arithmetic decides."""
    source: Citation
