"""The rule of host cables: does the cable between a computer and its adapter carry the bus at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from netaudit.calculations.buses import TOLERANCE_M, reaches_of
from netaudit.citation import Citation
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.place import Place, PortRef, cable_place, port_place
from netaudit.model.plan import Bus, HostCable
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.standards.buses import HostCableReach, host_cables
from netaudit.units import length_text, rate_text


class _Attached(NamedTuple):
    """A port behind a host cable."""

    ref: PortRef
    cable: HostCable
    bus: Bus | None
    cables: tuple[str, ...] = ()
    """Names of the cables that it is, where the plan lists it among its cables."""
    measured: bool = True
    """Whether its whole length is known."""

    @property
    def places(self) -> tuple[Place, ...]:
        """What to look at: the cables, then the port."""
        return (*map(cable_place, self.cables), port_place(self.ref))

    @property
    def kind(self) -> str:
        """The cable as people call it."""
        return "an active one" if self.cable.active else "one without electronics"


def _attached(facts: Facts) -> Iterable[_Attached]:
    """Every port with a host cable, of its own or among the cables, unless no length is published for its bus."""
    own = (
        _Attached(PortRef(device.name, name), port.host_cable, port.bus)
        for device in facts.plan.devices.values()
        for name, port in device.ports.items()
        if port.host_cable is not None
    )
    for attached in (*own, *_among_cables(facts)):
        if attached.bus is None or reaches_of(attached.bus, active=attached.cable.active):
            yield attached


def _among_cables(facts: Facts) -> Iterator[_Attached]:
    """The port that gives its bus, on each host cable that stands among the cables, taken to be passive."""
    for link in facts.topology.links:
        if link.carrier is not None and link.carrier.medium == "host":
            cable = HostCable(link.carrier.least_m)
            buses = [(ref, bus) for ref in (link.near, link.far) if (bus := facts.port(ref).bus) is not None]
            measured = link.carrier.length_m is not None
            yield from (_Attached(ref, cable, bus, link.cables, measured) for ref, bus in buses[:1])


def _judge(attached: _Attached, facts: Facts) -> Judgement:
    length_m = attached.cable.length_m
    longest = [reaches[-1] for reaches in _possible(attached)]
    farthest = max(longest, key=lambda reach: reach.reach_m)
    if length_m > farthest.reach_m + TOLERANCE_M:
        bus = "any bus" if attached.bus is None else str(attached.bus)
        return HOST_CABLE_TOO_LONG.finding(
            *attached.places,
            message=f"{attached.ref} hangs on {length_text(length_m)} of host cable; "
            f"{attached.kind} carries {bus} over {length_text(farthest.reach_m)} at the most",
            remedy=_remedy(attached),
            source=farthest.length_source,
            measured=Measure(length_m, "m"),
            limit=Measure(farthest.reach_m, "m"),
        )
    if not attached.measured:
        cables = listed(attached.cables)
        return HOST_CABLE_TOO_LONG.not_checked(
            *attached.places,
            reason=f"The length of {cables} is not given",
            decides=f"measure {cables}: up to {length_text(farthest.reach_m)} is good",
        )
    if length_m <= min(reach.reach_m for reach in longest) + TOLERANCE_M:
        return None
    return HOST_CABLE_TOO_LONG.not_checked(
        *attached.places,
        reason=f"The bus of {attached.ref} is not given, which decides how long its host cable may be",
        decides=f"write down `bus` of {attached.ref}, such as thunderbolt 3 or usb 10G",
    )


def _possible(attached: _Attached) -> list[tuple[HostCableReach, ...]]:
    """How far such a cable carries each bus that the port may have."""
    active = attached.cable.active
    if attached.bus is not None:
        return [reaches_of(attached.bus, active=active)]
    return [reaches for (_, of_active), reaches in host_cables().items() if of_active == active]


def _remedy(attached: _Attached) -> str:
    """The lengths that carry the bus, the fastest first, and what carries it farther."""
    if attached.bus is None:
        return f"Use a shorter host cable, and move the adapter of {attached.ref} to the computer."
    own = reaches_of(attached.bus, active=attached.cable.active)
    good = " or ".join(f"{length_text(one.reach_m)} for {rate_text(one.signal_bit_per_s)}" for one in own)
    active = reaches_of(attached.bus, active=True)
    if not attached.cable.active and active and active[-1].reach_m > own[0].reach_m:
        good = f"{good}, or an active one of at most {length_text(active[-1].reach_m)}"
    longer = " or one whose maker answers for that length" if attached.cable.active else ""
    return f"Use a host cable of at most {good}{longer}; the network cable may be the long one."


def _sources() -> Iterator[Citation]:
    yield from dict.fromkeys(reach.length_source for reaches in host_cables().values() for reach in reaches)


HOST_CABLE_TOO_LONG = Rule(
    name="host-cable-too-long",
    family="cabling",
    severity="fail",
    subjects=_attached,
    judge=_judge,
    what="A Thunderbolt or USB cable between a computer and its network adapter that is longer than its bus allows.",
    why="The adapter falls back to a slower bus, drops out under load, or is not found at all.",
    todo="Put the adapter close to the computer and let the network cable be the long one.",
    sources=_sources,
)
