"""Links: two active ports that a channel or the air joins, with the rates they agree on and are promised."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from netaudit.calculations.copper_run import CopperRun
from netaudit.model.place import Place, PortRef, cable_place, link_place, port_place
from netaudit.model.plan import Plan, Port
from netaudit.network.channels import Channel
from netaudit.network.hosts import PHY, bus_rate_bit_per_s
from netaudit.network.media import Carrier, carrier_of
from netaudit.standards.optics import optics
from netaudit.standards.phys import base_t, phys


@dataclass(frozen=True, slots=True)
class Promised:
    """The rate that the published limits promise, as bounds where it is undecided."""

    least_bit_per_s: int
    """Promised whatever the unknown is [bit/s]; 0 where nothing is."""
    most_bit_per_s: int | None
    """Never more than this whatever the unknown is [bit/s]; None if nothing bounds it."""

    @property
    def bit_per_s(self) -> int | None:
        """The promised rate [bit/s]; None if undecided."""
        return self.least_bit_per_s if self.least_bit_per_s == self.most_bit_per_s else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Two active ports that may exchange frames."""

    near: PortRef
    far: PortRef
    channel: Channel | None
    """The cables between them; None for radio."""
    carrier: Carrier | None
    """What the channel is made of; None for radio."""
    near_rates: tuple[int, ...] | None
    """What the near end can run through this channel, the highest first [bit/s]; None is unknown."""
    far_rates: tuple[int, ...] | None
    rates: tuple[int, ...] | None
    """What both ends can run, the highest first [bit/s]; empty if nothing; None is unknown."""
    promised: Promised
    phy: str | None
    """Physical layer at the agreed rate, `direct attach` or `radio`; None is unknown."""

    @property
    def agreed_bit_per_s(self) -> int | None:
        """The highest rate that both ends can run [bit/s]; None if unknown or if there is none."""
        return self.rates[0] if self.rates else None

    @property
    def possible_rates(self) -> tuple[int, ...] | None:
        """The rates it may come to run, the highest first [bit/s]; None if neither end's are known."""
        return self.rates if self.rates is not None else self.near_rates or self.far_rates

    @property
    def fastest_bit_per_s(self) -> int | None:
        """The highest rate that it may come to run [bit/s]; None if neither end's are known, or if there is none."""
        return self.possible_rates[0] if self.possible_rates else None

    @property
    def runs(self) -> bool:
        """Whether frames may pass: two ends without a common rate never link."""
        return self.rates != ()

    @property
    def by_radio(self) -> bool:
        """Whether the air joins its ends."""
        return self.channel is None

    @property
    def copper(self) -> CopperRun | None:
        """What decides about its twisted pair; None for other media."""
        return None if self.carrier is None else self.carrier.copper

    @property
    def cables(self) -> tuple[str, ...]:
        """Names of its cables, from the near end to the far one."""
        return () if self.channel is None else tuple(cable.name for cable in self.channel.cables)

    @property
    def place(self) -> Place:
        """Its own place."""
        return link_place(self.near, self.far)

    @property
    def places(self) -> tuple[Place, ...]:
        """The place of the link, of its two ports and of everything between them."""
        joints = () if self.channel is None else self.channel.joints
        ports = (self.near, self.far, *joints)
        return (self.place, *map(port_place, ports), *map(cable_place, self.cables))


def wired_link(plan: Plan, channel: Channel) -> Link:
    """The link over a channel."""
    near_port = _port(plan, channel.near)
    far_port = _port(plan, channel.far)
    carrier = carrier_of(plan, channel, near_port, far_port)
    if carrier.medium == "host":
        return _host_link(channel, carrier, bus_rate_bit_per_s(near_port, far_port, carrier.length_m))
    own = cable_rates(channel)
    near_rates = _narrowed(own_rates(near_port, channel, channel.near), own)
    far_rates = _narrowed(own_rates(far_port, channel, channel.far), own)
    rates = _common(near_rates, far_rates)
    promised = _unsettled(near_rates or far_rates, carrier) if rates is None else _promised(rates, carrier)
    return Link(
        near=channel.near,
        far=channel.far,
        channel=channel,
        carrier=carrier,
        near_rates=near_rates,
        far_rates=far_rates,
        rates=rates,
        promised=promised,
        phy=_phy(carrier, rates),
    )


def _host_link(channel: Channel, carrier: Carrier, bus_bit_per_s: int | None) -> Link:
    """The link of a computer to its adapter, as fast as the bus that both hang on."""
    rates = None if bus_bit_per_s is None else (bus_bit_per_s,)
    return Link(
        near=channel.near,
        far=channel.far,
        channel=channel,
        carrier=carrier,
        near_rates=rates,
        far_rates=rates,
        rates=rates,
        promised=Promised(bus_bit_per_s or 0, bus_bit_per_s),
        phy=PHY,
    )


def radio_link(near: PortRef, near_port: Port, far: PortRef, far_port: Port) -> Link:
    """The association of a radio with an access point; nothing promises its rate."""
    near_rates = near_port.rates.bit_per_s if near_port.rates else None
    far_rates = far_port.rates.bit_per_s if far_port.rates else None
    known = [rates[0] for rates in (near_rates, far_rates) if rates]
    most = min(known, default=None)
    return Link(
        near=near,
        far=far,
        channel=None,
        carrier=None,
        near_rates=near_rates,
        far_rates=far_rates,
        rates=(most,) if most is not None and len(known) == 2 else None,
        promised=Promised(0, most),
        phy="radio",
    )


def _promised(rates: Sequence[int], carrier: Carrier) -> Promised:
    """Bounds of the promised rate: the highest rate that is promised, and the highest that may be."""
    most = 0
    for rate in rates:
        answer = carrier.promise(rate).answer
        if answer == "yes":
            return Promised(rate, max(most, rate))
        if answer == "undecided":
            most = max(most, rate)
    return Promised(0, most)


def _unsettled(rates: Sequence[int] | None, carrier: Carrier) -> Promised:
    """The same while the rates of an end are unknown: nothing is promised yet, and the known end bounds it."""
    return Promised(0, None if rates is None else _promised(rates, carrier).most_bit_per_s)


def _port(plan: Plan, port: PortRef) -> Port:
    return plan.devices[port.device].ports[port.port]


def cable_rates(channel: Channel) -> tuple[int, ...] | None:
    """What the ends of made-up cables leave of the rates; None if none says."""
    rates: tuple[int, ...] | None = None
    for cable in channel.cables:
        rates = _narrowed(rates, cable.rates.bit_per_s if cable.rates else None)
    return rates


def own_rates(port: Port, channel: Channel, end: PortRef) -> tuple[int, ...] | None:
    """What one end of a channel can run, cage and module, whatever the cable; None is unknown.

    A breakout's trunk gives each lane its part.
    """
    cage = port.rates.bit_per_s if port.rates else None
    module = (phys()[port.module].rate_bit_per_s,) if port.module is not None else None
    rates = _narrowed(cage, module)
    if rates is not None and end == channel.trunk:
        return tuple(rate // channel.lanes for rate in rates)
    return rates


def _narrowed(one: tuple[int, ...] | None, other: tuple[int, ...] | None) -> tuple[int, ...] | None:
    """The rates of both, or of the one that is known."""
    if one is None or other is None:
        return one if other is None else other
    others = set(other)
    return tuple(rate for rate in one if rate in others)


def _common(one: tuple[int, ...] | None, other: tuple[int, ...] | None) -> tuple[int, ...] | None:
    """The rates of both; None while one is unknown, unless the other has none at all."""
    known = one is not None and other is not None
    return _narrowed(one, other) if known or () in (one, other) else None


def _phy(carrier: Carrier, rates: tuple[int, ...] | None) -> str | None:
    near, far = carrier.modules
    if carrier.medium == "twinax":
        return "direct attach"
    if carrier.medium == "fibre":
        return near if near is not None and optics()[near].hears(far or "") else None
    return base_t(rates[0]) if carrier.medium == "copper" and rates else None
