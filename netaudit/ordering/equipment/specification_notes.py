"""What else to look for in a switch, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.listing import listed
from netaudit.model.place import PortRef
from netaudit.model.ports import LEAST_MTU
from netaudit.network.plugs import CAGES
from netaudit.ordering.equipment.free_ports import PortKind, kind_of, kind_text, plugged_ports
from netaudit.ordering.equipment.wanted import Wanted
from netaudit.standards.modules import copper_modules
from netaudit.standards.twinax import twinax_reach_of
from netaudit.units import length_text, number_text, rate_text

FRAME_OCTETS = 18
"""Header and check sequence around a packet [octets]; IEEE 802.3 clause 3.1.1."""
TAG_OCTETS = 4
"""A VLAN tag [octets]; IEEE 802.1Q, and IEEE 802.3 clause 3.2.7 for the longer frame."""
CORRECTED_BIT_PER_S = 25_000_000_000
"""Rate at which the two ends choose an error correction, or none [bit/s]: IEEE 802.3by."""
MIDDLE_RATES_BIT_PER_S = (5_000_000_000, 2_500_000_000)
"""Rates that came after 10GBASE-T, so that many ports skip them [bit/s]: IEEE 802.3bz."""


def notes(wanted: Wanted) -> tuple[str, ...]:
    """What else to look for in a switch, a sentence each."""
    return (
        _managed(wanted),
        *_networks(wanted),
        *_bonds(wanted),
        *_frames(wanted),
        *_fabric(wanted),
        *_lanes(wanted),
        *_rates(wanted),
        *_error_correction(wanted),
        *_modules(wanted),
        *_copper_modules(wanted),
        *_power_over_cable(wanted),
        *_reserve(wanted),
        *_place(wanted),
    )


def _managed(wanted: Wanted) -> str:
    why_tree = "it stands in a ring" if wanted.ringed else "`spanning_tree: true`"
    asks = [
        _counted(wanted.bonds, "bond") if wanted.bonds else None,
        f"a spanning tree ({why_tree})" if wanted.tree else None,
        "VLANs" if wanted.told_apart else None,
    ]
    reasons = [ask for ask in asks if ask is not None]
    if not reasons:
        return "Nothing in the plan asks for a managed switch."
    return f"It has to be a managed switch: the plan asks for {listed(reasons)}."


def _networks(wanted: Wanted) -> Iterator[str]:
    names = [network.name for network in wanted.told_apart]
    silent = [network.name for network in wanted.told_apart if network.vlan is None]
    number = f" Give {listed(silent)} a `vlan`{' each' if len(silent) > 1 else ''}." if silent else ""
    if wanted.tagged:
        tagged = listed(name for name in names if name in wanted.tagged)
        apart = f"{listed(names)} cross it: keep them apart by VLANs. " if len(names) > 1 else ""
        reach = "reaches" if len(wanted.tagged) == 1 else "reach"
        yield f"{apart}{tagged} {reach} it with tags (IEEE 802.1Q), which its ports have to be set for.{number}"
    elif names:
        yield f"{listed(names)} cross it: keep them apart by VLANs, or take a switch for each.{number}"


def _bonds(wanted: Wanted) -> Iterator[str]:
    if wanted.bonds:
        yield f"Its {_counted(wanted.bonds, 'bond')}: LACP (IEEE 802.1AX) or static, as the other end has it."


def _frames(wanted: Wanted) -> Iterator[str]:
    octets = wanted.packet_octets
    if octets is not None and octets > LEAST_MTU:
        frame = octets + FRAME_OCTETS
        yield (
            f"A packet of {octets} octets needs frames of {frame} octets, {frame + TAG_OCTETS} with a VLAN tag "
            "(IEEE 802.3 clause 3): hold that against the largest frame in its data sheet."
        )
    if octets is not None and wanted.own_octets is not None and wanted.own_octets > octets:
        yield f"Its ports are planned for packets of {wanted.own_octets} octets, more than anything that crosses it."


def _fabric(wanted: Wanted) -> Iterator[str]:
    rate = wanted.switch.fabric_bit_per_s
    if rate is not None:
        yield f"Take one that forwards at least {rate_text(rate)} in all."


def _lanes(wanted: Wanted) -> Iterator[str]:
    for need in wanted.needs:
        if need.lanes > 1:
            rate = "" if need.lane_bit_per_s is None else f"{rate_text(need.lane_bit_per_s)} "
            yield f"{listed(need.ports)} must be able to split into {rate}lanes."


def _rates(wanted: Wanted) -> Iterator[str]:
    """What has to stand in the lists of rates beside the highest one."""
    for need in wanted.needs:
        rate = need.rate_bit_per_s
        if need.connector == "rj45" and rate in MIDDLE_RATES_BIT_PER_S:
            yield (
                f"{listed(need.ports)}: {rate_text(rate)} has to be in the list of rates; many ports for twisted pair "
                "step from 10 Gb/s straight to 1 Gb/s."
            )
        elif need.connector in CAGES and need.connector != "sfp" and rate is not None and rate <= 1_000_000_000:
            yield f"{listed(need.ports)}: ask whether the cage can be set to {rate_text(rate)}; some run one rate only."


def _error_correction(wanted: Wanted) -> Iterator[str]:
    """IEEE 802.3by: without error correction, or with BASE-R alone, passive twinax goes as far as 25GBASE-CR-S."""
    fast = [
        port
        for need in wanted.needs
        if need.connector in CAGES and CORRECTED_BIT_PER_S in (need.rate_bit_per_s, need.lane_bit_per_s)
        for port in need.ports
    ]
    plain_m = twinax_reach_of()["25GBASE-CR-S", "twinax"].reach_m
    if fast and plain_m is not None:
        yield (
            f"{listed(fast)}: at {rate_text(CORRECTED_BIT_PER_S)} both ends have to run the same error correction "
            "(IEEE 802.3by): ask whether it can be set; passive twinax of more than "
            f"{length_text(plain_m)} needs RS-FEC."
        )


def _needed_cages(wanted: Wanted) -> list[PortRef]:
    return [port for need in wanted.needs if need.connector in CAGES for port in need.ports]


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


def _power_over_cable(wanted: Wanted) -> Iterator[str]:
    """Common practice, no source: access points are often fed by the switch."""
    devices = wanted.plan.devices
    ends = (end for link in wanted.links if link.channel is not None for end in (link.near, link.far))
    fed = list(dict.fromkeys(end.device for end in ends if devices[end.device].role == "access-point"))
    if fed:
        are = "is" if len(fed) == 1 else "are"
        yield f"Ask whether {listed(fed)} {are} to be fed over the cable, and with how many watts."


def _reserve(wanted: Wanted) -> Iterator[str]:
    needed = {port.port for need in wanted.needs for port in need.ports}
    kinds: dict[PortKind, int] = {}
    for name, port in plugged_ports(wanted.switch).items():
        if name not in needed:
            kinds[kind_of(port)] = kinds.get(kind_of(port), 0) + 1
    if kinds:
        count = sum(kinds.values())
        each = [f"{number} x {kind_text(kind)}" for kind, number in kinds.items()]
        yield f"{_counted(count, 'more port')} {'is' if count == 1 else 'are'} planned free: {listed(each)}."


def _place(wanted: Wanted) -> Iterator[str]:
    position = wanted.switch.rack
    if position is not None:
        rack = wanted.plan.racks.get(position.rack)
        deep = "" if rack is None or rack.depth_m is None else f", which is {length_text(rack.depth_m)} deep"
        yield f"It has to fit into {_counted(position.height, 'unit')} of rack {position.rack}{deep}."
    if wanted.seats:
        yield f"It stands in {wanted.room} with {listed(wanted.seats)}: ask how loud its fans are."


def _counted(count: int, one: str) -> str:
    return f"{count} {one}" if count == 1 else f"{count} {one}s"
