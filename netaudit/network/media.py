"""Media: what a channel is made of, and what the published limits promise over it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass
from typing import Literal

from netaudit.calculations.copper import copper_promise, reach
from netaudit.calculations.copper_run import CopperRun, Cord
from netaudit.calculations.fibre import FibreRun, fibre_promise
from netaudit.calculations.promise import Promise, firm, gravest
from netaudit.calculations.twinax import twinax_promise
from netaudit.model.place import PortRef
from netaudit.model.plan import COPPER_CATEGORIES, Cable, Plan, Port, Regime
from netaudit.network.channels import Channel
from netaudit.network.plugs import ALL_PLUGS, Plug, plug_of, plugs_taken
from netaudit.standards.fibre import unequal_cores
from netaudit.standards.optics import optics

Medium = Literal["copper", "fibre", "twinax", "host", "mixed", "unknown"]

_MEDIUM_OF_PLUG: Mapping[Plug, Medium] = {
    "twisted pair": "copper",
    "fibre": "fibre",
    "made-up": "twinax",
    "thunderbolt": "host",
    "usb": "host",
}
_UNKNOWN = Promise("undecided", None, None, "medium")


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """What carries the frames of a channel."""

    medium: Medium
    regime: Regime
    length_m: float | None
    """Physical length [m]; None if any cable's is unknown."""
    least_m: float
    """Length of the cables whose length is known [m]."""
    kinds: tuple[str, ...]
    """Each category in it that is known, once."""
    kinds_known: bool
    """Whether every cable's category is."""
    copper: CopperRun | None
    """Twisted pair only."""
    fibres: tuple[FibreRun, ...]
    """Fibre only: the channel as if it were all of each of its grades."""
    modules: tuple[str | None, str | None]
    """Physical layers of the modules at the two ends."""
    lanes: int
    """Ends among which a breakout shares the rate."""

    @property
    def length_known(self) -> bool:
        """Whether every cable's length is."""
        return self.length_m is not None

    def promise(self, rate_bit_per_s: int) -> Promise:
        """Whether the published limits promise a rate [bit/s] over it."""
        if self.copper is not None:
            return copper_promise(self.copper, rate_bit_per_s, self.regime)
        if self.medium == "fibre":
            return self._over_fibre()
        if self.medium == "twinax":
            return self._over_twinax(rate_bit_per_s)
        return Promise("no", None, None, "medium") if self.medium == "mixed" else _UNKNOWN

    def reach_m(self, rate_bit_per_s: int) -> float | None:
        """Longest channel over which a rate [bit/s] is promised [m]; None where no one limit applies."""
        if self.copper is None:
            limit = self.promise(rate_bit_per_s).limit
            return limit.value if limit is not None and limit.unit == "m" else None
        if self.copper.clad or not self.copper.category_known or self.copper.lowest_category is None:
            return None
        row = reach(rate_bit_per_s, self.copper.lowest_category, screened=self.copper.screened)
        return None if row is None else row.assured_m

    def _over_twinax(self, rate_bit_per_s: int) -> Promise:
        answers = [
            twinax_promise(rate_bit_per_s, kind, least_m=self.least_m, length_m=self.length_m, modules=self.modules)
            for kind in self.kinds
        ]
        return self._settled(answers)

    def _over_fibre(self) -> Promise:
        near, far = self.modules
        if near is None or far is None:
            return _UNKNOWN
        if not optics()[near].hears(far):
            return Promise("no", None, optics()[near].source, "optics") if self.lanes == 1 else _UNKNOWN
        joint = unequal_cores(self.kinds)
        if joint is not None:
            return firm(Promise("no", None, joint.source, "cores"))
        layers = dict.fromkeys((near, far))
        return self._settled([fibre_promise(run, layer) for run in self.fibres for layer in layers])

    def _settled(self, answers: Sequence[Promise]) -> Promise:
        """The gravest of the answers for each known kind; undecided while a kind is missing and none refuses."""
        answer = gravest([one for one in answers if one.answer != "yes"], answers[0] if answers else _UNKNOWN)
        return answer if answer.answer == "no" or self.kinds_known else _UNKNOWN


def carrier_of(plan: Plan, channel: Channel, near_port: Port, far_port: Port) -> Carrier:
    """What a channel is made of, from its cables, its passive ports and the modules at its ends."""
    medium = _medium_of(channel, near_port, far_port)
    lengths = [cable.length_m for cable in channel.cables]
    known = [length for length in lengths if length is not None]
    length_m = sum(known) if len(known) == len(lengths) else None
    kinds = tuple(dict.fromkeys(cable.category for cable in channel.cables if cable.category != "unknown"))
    return Carrier(
        medium=medium,
        regime=plan.regime,
        length_m=length_m,
        least_m=sum(known),
        kinds=kinds,
        kinds_known=all(cable.category != "unknown" for cable in channel.cables),
        copper=_copper_run(plan, channel) if medium == "copper" else None,
        fibres=_fibre_runs(channel, kinds, length_m, sum(known)) if medium == "fibre" else (),
        modules=(near_port.module, far_port.module),
        lanes=channel.lanes,
    )


def _medium_of(channel: Channel, near_port: Port, far_port: Port) -> Medium:
    """What the plugs of a channel and the ports at its ends leave; `mixed` where they contradict each other.

    Twisted pair into a cage without a module is such a contradiction: the module that it needs is not in the plan.
    """
    left = plugs_taken(near_port) & plugs_taken(far_port)
    for cable in channel.cables:
        plug = plug_of(cable)
        left &= ALL_PLUGS if plug is None else {plug}
    media = {_MEDIUM_OF_PLUG[plug] for plug in left}
    if not media:
        return "mixed"
    return media.pop() if len(media) == 1 else "unknown"


def is_cord(cable: Cable, joints: Set[PortRef]) -> bool:
    """Whether a copper cable is a stranded cord: it says so, or it hangs on an active port and is not installed."""
    if cable.cord_awg is not None:
        return True
    return not cable.installed and any(end not in joints for end in cable.ends)


def _copper_run(plan: Plan, channel: Channel) -> CopperRun:
    joints = frozenset(channel.joints)
    joint_ports = [plan.devices[joint.device].ports[joint.port] for joint in channel.joints]
    categories = [*(cable.category for cable in channel.cables), *(port.category for port in joint_ports)]
    known = [category for category in categories if category in COPPER_CATEGORIES]
    cords = []
    fixed_m = 0.0
    airs_c = []
    for cable in channel.cables:
        cord = is_cord(cable, joints)
        if not cord:
            airs_c.append(plan.ambient_c if cable.ambient_c is None else cable.ambient_c)
        if cable.length_m is None:
            continue
        if cord:
            cords.append(Cord(cable.length_m, cable.cord_awg))
        else:
            fixed_m += cable.length_m
    return CopperRun(
        lowest_category=min(known, key=COPPER_CATEGORIES.index, default=None),
        category_known="unknown" not in categories,
        screened=all(cable.screened for cable in channel.cables)
        and all(port.screened is not False for port in joint_ports),
        fixed_m=fixed_m,
        cords=tuple(cords),
        length_known=all(cable.length_m is not None for cable in channel.cables),
        connections=len(channel.joints),
        ambient_c=max(airs_c, default=plan.ambient_c),
        clad=any(cable.material == "aluminium-clad" for cable in channel.cables),
    )


def _fibre_runs(
    channel: Channel, grades: tuple[str, ...], length_m: float | None, least_m: float
) -> tuple[FibreRun, ...]:
    losses = [cable.loss_db for cable in channel.cables if cable.loss_db is not None]
    whole = len(losses) == len(channel.cables)
    strands = [cable.fibres for cable in channel.cables if cable.fibres is not None and channel.lanes == 1]
    return tuple(
        FibreRun(
            grade=grade,
            least_m=least_m,
            length_m=length_m,
            pairs=len(channel.joints),
            splices=sum(cable.splices for cable in channel.cables),
            measured_db=sum(losses) if whole else None,
            parts_db=0.0 if whole else sum(losses),
            parts_m=0.0
            if whole
            else sum(cable.length_m or 0.0 for cable in channel.cables if cable.loss_db is not None),
            strands=min(strands, default=None),
        )
        for grade in grades
    )


def parts_below(plan: Plan, channel: Channel, category: str) -> tuple[tuple[Cable, ...], tuple[PortRef, ...]]:
    """The cables and passive ports whose known category is below another one."""
    floor = COPPER_CATEGORIES.index(category)

    def below(own: str | None) -> bool:
        return own in COPPER_CATEGORIES and COPPER_CATEGORIES.index(own) < floor

    joints = tuple(joint for joint in channel.joints if below(plan.devices[joint.device].ports[joint.port].category))
    return tuple(cable for cable in channel.cables if below(cable.category)), joints
