"""Ends: what the ends of a made-up cable have to be, by the ports that it joins and the rate that it runs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from functools import cache

from netaudit.model.place import PortRef
from netaudit.model.plan import FIBRE_GRADES, HOST_CABLE_KINDS, TWINAX_KINDS, Cable, Port
from netaudit.network.plugs import CAGES
from netaudit.ordering.shop.fitting import Fitted
from netaudit.standards.cages import WIDE_LANES, cages, form_of
from netaudit.standards.optics import optics
from netaudit.standards.twinax import twinax_reach

FIBRE_CONNECTORS = ("lc", "sc", "mpo")
HOST_CONNECTORS = ("usb-a", "usb-c", "thunderbolt")
SMALL_CAGES = ("sfp", "sfp+", "sfp28")
"""Cages whose modules for fibre take an lc plug, whichever they are: common practice, no source."""
WIDE_CAGES = ("qsfp+", "qsfp28")
FIBRES_A_LANE = 2
"""Fibres of one lane, there and back."""


def ends_of(fitted: Fitted, cable: Cable) -> str | None:
    """The two ends, such as `lc - sc`, whichever way it lies; `qsfp+ - 4 x sfp+` of a breakout, all tails counted.

    None where an end is not known, and where the kind of cable leaves no choice: twisted pair, Thunderbolt both ways.
    """
    near, *far = plugs_of(fitted, cable)
    known = [plug for plug in far if plug is not None]
    if near is None or len(known) != len(far):
        return None
    if len(known) > 1:
        counts = Counter(known)
        if len(counts) == 1:
            counts[known[0]] = tails_of(fitted, cable)
        return f"{near} - {', '.join(f'{count} x {plug}' for plug, count in sorted(counts.items()))}"
    return None if near == known[0] == cable.category else " - ".join(sorted((near, known[0])))


def plugs_of(fitted: Fitted, cable: Cable) -> tuple[str | None, ...]:
    """The plug at each end of a cable, the near one first; None where it is not known, and for twisted pair."""
    ports = [_port(fitted, end) for end in cable.ends]
    if cable.category in FIBRE_GRADES:
        return tuple(map(_fibre_plug, ports))
    if cable.category in TWINAX_KINDS:
        return _made_up_plugs(fitted, cable, [port.connector for port in ports])
    taken = HOST_CONNECTORS if cable.category in HOST_CABLE_KINDS else ()
    return tuple(port.connector if port.connector in taken else None for port in ports)


def tails_of(fitted: Fitted, cable: Cable) -> int:
    """Tails that a cable is sold with: those of the plan, or more where a breakout with such tails always has more."""
    tails = set(plugs_of(fitted, cable)[1:])
    return _lanes(fitted, cable) if len(tails) == 1 else len(cable.to_ports)


def _lanes(fitted: Fitted, cable: Cable) -> int:
    """Lanes that a cable is made for: those of the plan, or more where a breakout always has more.

    A wide cage parts into as many as it has lanes where all tails end in small ones, parallel fibres into pairs.
    Common practice, no source.
    """
    planned = len(cable.to_ports)
    near, *far = (_port(fitted, end) for end in cable.ends)
    if planned == 1:
        return planned
    if cable.category in TWINAX_KINDS and near.connector in WIDE_CAGES:
        return max(planned, WIDE_LANES) if all(port.connector in SMALL_CAGES for port in far) else planned
    if _fibre_plug(near) == "mpo" and all(_fibre_plug(port) in ("lc", "sc") for port in far):
        used = fitted.fibres.get(cable.name) or cable.fibres or 0
        return max(planned, used // FIBRES_A_LANE)
    return planned


def _port(fitted: Fitted, end: PortRef) -> Port:
    return fitted.plan.devices[end.device].ports[end.port]


def _fibre_plug(port: Port) -> str | None:
    """The plug of a fibre: the port's own connector, or what the module in its cage takes."""
    if port.connector in FIBRE_CONNECTORS:
        return port.connector
    if port.module is not None:
        optic = optics().get(port.module)
        return None if optic is None else optic.connector
    return "lc" if port.connector in SMALL_CAGES else None


def _made_up_plugs(fitted: Fitted, cable: Cable, connectors: Sequence[str | None]) -> tuple[str | None, ...]:
    """The plugs for the highest rate at which one fits into each cage; where none does, those of the cages.

    The rates that the link may run go first. All lanes run one rate, so that a cage for a higher one is given the
    plug of the lower.
    """
    known = [connector for connector in connectors if connector in CAGES]
    if len(known) == len(connectors):
        lanes = _lanes(fitted, cable)
        for rate in (*fitted.rates_bit_per_s.get(cable.name, ()), *_made_up_rates()):
            plugs = (_form_at(rate * lanes), *[_form_at(rate)] * len(cable.to_ports))
            if all(
                (cage, plug) in cages() and cages()[cage, plug].works for cage, plug in zip(known, plugs, strict=True)
            ):
                return plugs
    return tuple(connector if connector in CAGES else None for connector in connectors)


@cache
def _made_up_rates() -> tuple[int, ...]:
    """Rates at which made-up cables are sold, the highest first [bit/s]."""
    return tuple(sorted({rate for rate, _ in twinax_reach()}, reverse=True))


@cache
def _form_at(rate_bit_per_s: int) -> str:
    """The form of the plugs of made-up cables for a rate [bit/s]; empty where there are none."""
    row = twinax_reach().get((rate_bit_per_s, "twinax"))
    return "" if row is None or row.phy is None else form_of(row.phy).form
