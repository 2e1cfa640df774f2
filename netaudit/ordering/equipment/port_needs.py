"""Port needs: the ports that a switch has to have, as it follows from what is plugged into them."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from typing import NamedTuple

from netaudit.model.place import PortRef
from netaudit.model.plan import Connector, Port, Switch
from netaudit.model.specification import PortNeed
from netaudit.network.links import Link
from netaudit.standards.cages import WIDE_LANES

_RATES_OF_LANES_BIT_PER_S = (40 * 10**9, 100 * 10**9)
SPLIT_RATES_BIT_PER_S: Mapping[Connector | None, Sequence[int]] = {
    "qsfp+": _RATES_OF_LANES_BIT_PER_S[:1],
    "qsfp28": _RATES_OF_LANES_BIT_PER_S,
    "mpo": _RATES_OF_LANES_BIT_PER_S,
    None: _RATES_OF_LANES_BIT_PER_S,
}
"""Connector of a port with lanes, or that may have some, to the rates that it runs whole, the least first [bit/s]:
IEEE 802.3 clauses 85 and 86 (40 Gb/s), 92 and 95 (100 Gb/s)."""


class _Kind(NamedTuple):
    """What makes ports equal to whoever chooses a switch."""

    connector: Connector | None
    rate_bit_per_s: int | None
    lanes: int = 1
    lane_bit_per_s: int | None = None


def port_needs(switch: Switch, links: Mapping[str, Sequence[Link]], cabled: Container[PortRef]) -> tuple[PortNeed, ...]:
    """Ports at which a cable ends, by connector and rate, in file order.

    The rate is the one that the link agrees on or else the best of the far end, or else the port's own. A port with a
    cable of several tails is the whole port that splits into lanes of their rate, however few the tails are.
    """
    needed: dict[_Kind, list[PortRef]] = {}
    for name, port in switch.ports.items():
        ref = PortRef(switch.name, name)
        if ref in cabled:
            needed.setdefault(_kind(port, ref, links.get(name, ())), []).append(ref)
    return tuple(
        PortNeed(kind.connector, kind.rate_bit_per_s, len(ports), tuple(ports), kind.lanes, kind.lane_bit_per_s)
        for kind, ports in needed.items()
    )


def _kind(port: Port, ref: PortRef, links: Sequence[Link]) -> _Kind:
    own = None if port.rates is None else port.rates.bit_per_s[0]
    asked = [_asked_rates(link, ref) for link in links]
    channels = [link.channel for link in links if link.channel is not None]
    tails = max((channel.lanes for channel in channels if channel.trunk == ref), default=1)
    if tails > 1 and port.connector in SPLIT_RATES_BIT_PER_S:
        return _split(port.connector, own, min(tails, WIDE_LANES), [rate for rates in asked for rate in rates])
    return _Kind(port.connector, max((rates[0] for rates in asked if rates), default=own))


def _asked_rates(link: Link, ref: PortRef) -> Sequence[int]:
    """The rates that a link may ask of one of its ports, the first of them first [bit/s]; empty where unknown."""
    if link.agreed_bit_per_s is not None:
        return (link.agreed_bit_per_s,)
    return (link.far_rates if link.near == ref else link.near_rates) or ()


def _split(connector: Connector | None, own: int | None, tails: int, asked: Sequence[int]) -> _Kind:
    """A port that splits into lanes, for the fastest rate asked of it that so many lanes of it can run."""
    wholes = SPLIT_RATES_BIT_PER_S[connector]
    lane = max((rate for rate in asked if rate * tails <= wholes[-1]), default=None)
    if lane is None:
        return _Kind(connector, own, WIDE_LANES)
    lanes = WIDE_LANES if WIDE_LANES * lane <= wholes[-1] else tails
    return _Kind(connector, next(whole for whole in wholes if whole >= lanes * lane), lanes, lane)
