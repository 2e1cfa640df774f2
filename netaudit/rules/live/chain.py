"""The chain from this machine to the storage: what it should carry for one reader, and the narrowest thing in it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from netaudit.calculations.goodput import tcp_goodput_bit_per_s
from netaudit.model.expectation import ExpectedRoad
from netaudit.model.machine_state import Interface
from netaudit.model.situation import Situation, Use
from netaudit.rules.live.buses import most_bit_per_s
from netaudit.rules.live.packets import used_mtu
from netaudit.rules.live.roads import leaving
from netaudit.rules.live.storage_ports import on_one_port
from netaudit.units import both_rates_text


class Chain(NamedTuple):
    """What a chain should carry for one reader."""

    rate_bit_per_s: int
    """With the disks, as far as the plan knows them [bit/s]."""
    by: str
    """The narrowest thing in it, in words."""
    network_bit_per_s: int
    """Without the disks: what links and buses leave [bit/s]."""


class _Bound(NamedTuple):
    rate_bit_per_s: int
    by: str
    network: bool = True
    """Whether it is of links and buses; else of the whole road with its disks."""


def chain_of(situation: Situation) -> Chain | None:
    """What the chain in use should carry; None where that is open, as it always is through the air.

    With a plan its promise counts for the planned road. What this machine and the storage tell of the links bounds it
    either way, in the smallest packets that are known to be used.
    """
    use = next(iter(leaving(situation)), None)
    state = None if use is None else situation.seen.interfaces.get(use.interface)
    if use is None or state is None or situation.through_air(use.interface) or state.medium == "tunnel":
        return None
    mtu = used_mtu(use, situation)
    planned = list(_planned(use, mtu, situation))
    own = list(_own_link(state, mtu))
    if not planned and not own:
        return None
    network = [*planned, *own, *_beside(use, state, mtu, situation)]
    least = min((bound for bound in network if bound.network), key=lambda bound: bound.rate_bit_per_s, default=None)
    if least is None:
        return None
    narrowest = min(network, key=lambda bound: bound.rate_bit_per_s)
    return Chain(narrowest.rate_bit_per_s, narrowest.by, least.rate_bit_per_s)


def _planned(use: Use, mtu: int, situation: Situation) -> Iterator[_Bound]:
    """What the plan promises of its own road, where the traffic is on it from end to end.

    Packets smaller than planned leave less of the rate that its links promise.
    """
    road = situation.planned_road
    if road is None or not situation.is_planned(use.interface) or not _to_the_planned_end(use, road, situation):
        return
    by = "the planned road" if road.limited_by is None else str(road.limited_by)
    if road.network_bit_per_s is not None:
        yield _Bound(road.network_bit_per_s, by)
        goodput = None if road.promised_bit_per_s is None else tcp_goodput_bit_per_s(road.promised_bit_per_s, mtu)
        if goodput is not None and goodput < road.network_bit_per_s:
            yield _Bound(goodput, f"{by} in packets of {mtu} octets")
    if road.goodput_bit_per_s is not None and road.goodput_bit_per_s != road.network_bit_per_s:
        yield _Bound(road.goodput_bit_per_s, by, network=False)


def _to_the_planned_end(use: Use, road: ExpectedRoad, situation: Situation) -> bool:
    """Whether the traffic goes to the planned port of the storage, and through a router only where that is planned."""
    far, expected = situation.address(use.remote), situation.expected
    planned = () if expected is None else expected.planned_addresses
    if far is None:
        return True
    if far.route is not None and far.route.gateway is not None and not road.routed:
        return False
    return not planned or any(on_one_port(far.address, each, situation) for each in planned)


def _own_link(state: Interface, mtu: int) -> Iterator[_Bound]:
    if state.rate_bit_per_s is not None and not state.made_up_rate:
        small = "" if mtu == state.mtu else f" in packets of {mtu} octets"
        goodput = tcp_goodput_bit_per_s(state.rate_bit_per_s, mtu)
        yield _Bound(goodput, f"{state.name} at {both_rates_text(state.rate_bit_per_s)}{small}")


def _beside(use: Use, state: Interface, mtu: int, situation: Situation) -> Iterator[_Bound]:
    """What bounds the chain beside its links: the adapter's bus, the storage's own port."""
    most = None if state.bus is None else most_bit_per_s(state.bus)
    if state.bus is not None and most is not None:
        yield _Bound(most, f"{state.bus.text} behind {state.name}")
    for offer in situation.seen.offers or ():
        if offer.address == use.remote and offer.rate_bit_per_s:
            goodput = tcp_goodput_bit_per_s(offer.rate_bit_per_s, mtu)
            yield _Bound(goodput, f"the storage's port {offer.address} at {both_rates_text(offer.rate_bit_per_s)}")
