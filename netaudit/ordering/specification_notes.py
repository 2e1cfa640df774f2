"""What else to look for in a switch, in sentences."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from netaudit.model.bill import Specification
from netaudit.model.place import PortRef
from netaudit.model.plan import Plan, Station, Switch
from netaudit.model.ports import LEAST_MTU
from netaudit.network.links import Link
from netaudit.network.plugs import CAGES
from netaudit.ordering.free_ports import PortKind, kind_of, kind_text, plugged_ports
from netaudit.ordering.words import listed
from netaudit.standards.modules import copper_modules
from netaudit.units import length_text, number_text, rate_text

FRAME_OCTETS = 18
"""Header and check sequence around a packet [octets]; IEEE 802.3 clause 3.1.1."""
TAG_OCTETS = 4
"""A VLAN tag [octets]; IEEE 802.1Q, and IEEE 802.3 clause 3.2.7 for the longer frame."""
MIDDLE_RATES_BIT_PER_S = (5_000_000_000, 2_500_000_000)
"""Rates that came after 10GBASE-T, so that many ports skip them [bit/s]: IEEE 802.3bz."""


class Wanted(NamedTuple):
    """A switch that is to be bought, with what is known of it so far."""

    switch: Switch
    specification: Specification
    networks: tuple[str, ...]
    """Networks that cross it."""
    links: tuple[Link, ...]
    """Its links."""

    @property
    def needed(self) -> frozenset[str]:
        """Names of the ports that are needed."""
        return frozenset(port.port for need in self.specification.needs for port in need.ports)


def notes(plan: Plan, wanted: Wanted) -> tuple[str, ...]:
    """What else to look for in a switch, a sentence each."""
    return (
        _managed(wanted),
        *_networks(plan, wanted),
        *_frames(wanted),
        *_rates(wanted),
        *_modules(wanted),
        *_copper_modules(wanted),
        *_power_over_cable(plan, wanted),
        *_reserve(wanted),
        *_place(plan, wanted),
    )


def _managed(wanted: Wanted) -> str:
    specification = wanted.specification
    asks = [
        f"{_counted(specification.bonds, 'bond')}" if specification.bonds else None,
        "a spanning tree, since it stands in a ring" if specification.spanning_tree else None,
        "VLANs" if specification.vlans or len(wanted.networks) > 1 else None,
    ]
    reasons = [ask for ask in asks if ask is not None]
    if not reasons:
        return "Nothing in the plan asks for a managed switch."
    return f"It has to be a managed switch: the plan asks for {listed(reasons)}."


def _networks(plan: Plan, wanted: Wanted) -> Iterator[str]:
    if len(wanted.networks) > 1:
        silent = [name for name in wanted.networks if plan.networks[name].vlan is None]
        number = f" Give {listed(silent)} a `vlan` each." if silent else ""
        yield f"{listed(wanted.networks)} cross it: keep them apart by VLANs, or take a switch for each.{number}"


def _frames(wanted: Wanted) -> Iterator[str]:
    octets = wanted.specification.packet_octets
    if octets is not None and octets > LEAST_MTU:
        frame = octets + FRAME_OCTETS
        yield (
            f"A packet of {octets} octets needs frames of {frame} octets, {frame + TAG_OCTETS} with a VLAN tag "
            "(IEEE 802.3 clause 3): hold that against the largest frame in its data sheet."
        )


def _rates(wanted: Wanted) -> Iterator[str]:
    """What has to stand in the lists of rates beside the highest one."""
    for need in wanted.specification.needs:
        rate = need.rate_bit_per_s
        if need.connector == "rj45" and rate in MIDDLE_RATES_BIT_PER_S:
            yield (
                f"{listed(need.ports)}: {rate_text(rate)} has to be in the list of rates; many ports for twisted pair "
                "step from 10 Gb/s straight to 1 Gb/s."
            )
        elif need.connector in CAGES and need.connector != "sfp" and rate is not None and rate <= 1_000_000_000:
            yield f"{listed(need.ports)}: ask whether the cage can be set to {rate_text(rate)}; some run one rate only."


def _needed_cages(wanted: Wanted) -> list[PortRef]:
    return [port for need in wanted.specification.needs if need.connector in CAGES for port in need.ports]


def _modules(wanted: Wanted) -> Iterator[str]:
    cages = _needed_cages(wanted)
    if cages:
        yield (
            f"Ask which modules and made-up cables its cages take ({listed(cages)}): some take only those coded for "
            "them."
        )


def _copper_modules(wanted: Wanted) -> Iterator[str]:
    for phy, module in copper_modules().items():
        count = sum(wanted.switch.ports[ref.port].module == phy for ref in _needed_cages(wanted))
        if count:
            yield (
                f"{_counted(count, f'{phy} module')} in its cages {'draws' if count == 1 else 'draw'} up to "
                f"{number_text(module.power.most_w)} W each, where a cage is made for "
                f"{number_text(module.cage.most_w)} W: ask how many it bears, and leave a cage free beside each."
            )


def _power_over_cable(plan: Plan, wanted: Wanted) -> Iterator[str]:
    """Common practice, no source: access points are often fed by the switch."""
    ends = (end for link in wanted.links if link.channel is not None for end in (link.near, link.far))
    fed = list(dict.fromkeys(end.device for end in ends if plan.devices[end.device].role == "access-point"))
    if fed:
        are = "is" if len(fed) == 1 else "are"
        yield f"Ask whether {listed(fed)} {are} to be fed over the cable, and with how many watts."


def _reserve(wanted: Wanted) -> Iterator[str]:
    kinds: dict[PortKind, int] = {}
    for name, port in plugged_ports(wanted.switch).items():
        if name not in wanted.needed:
            kinds[kind_of(port)] = kinds.get(kind_of(port), 0) + 1
    if kinds:
        count = sum(kinds.values())
        each = [f"{number} x {kind_text(kind)}" for kind, number in kinds.items()]
        yield f"{_counted(count, 'more port')} {'is' if count == 1 else 'are'} planned free: {listed(each)}."


def _place(plan: Plan, wanted: Wanted) -> Iterator[str]:
    switch = wanted.switch
    rack = None if switch.rack is None else plan.racks.get(switch.rack.rack)
    if switch.rack is not None:
        depth = None if rack is None or rack.depth_m is None else rack.depth_m
        deep = "" if depth is None else f", which is {length_text(depth)} deep"
        yield f"It has to fit into {_counted(switch.rack.height, 'unit')} of rack {switch.rack.rack}{deep}."
    room = switch.room or (None if rack is None else rack.room)
    seats = [device.name for device in plan.devices.values() if isinstance(device, Station) and device.room == room]
    if room is not None and seats:
        yield f"It stands in {room} with {listed(seats)}: ask how loud its fans are."


def _counted(count: int, one: str) -> str:
    return f"{count} {one}" if count == 1 else f"{count} {one}s"
