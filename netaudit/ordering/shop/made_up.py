"""Made-up cables: cords, fibre cords, direct attach and host cables, as rows of the bill."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import ceil

from netaudit.model.goods import Goods, Item, What
from netaudit.model.plan import COPPER_CATEGORIES, FIBRE_GRADES, Cable, Rates
from netaudit.ordering.shop.ends import ends_of
from netaudit.ordering.shop.fitting import Fitted
from netaudit.ordering.shop.stock import Stock
from netaudit.units import rate_text

USUAL_FIBRES = 2
"""Fibres of a duplex cord."""
_WHAT: Mapping[str, What] = {
    **dict.fromkeys(COPPER_CATEGORIES, "cord"),
    **dict.fromkeys(FIBRE_GRADES, "fibre cord"),
    "twinax": "twinax",
    "active-twinax": "active twinax",
    "active-optical": "active optical cable",
    "thunderbolt": "thunderbolt cable",
    "usb": "usb cable",
}


def made_up(fitted: Fitted, cables: Sequence[Cable], stock: Stock, spare: float) -> tuple[Item, ...]:
    """A row for each kind and length of cable, in the order of their first cables.

    `spare` is the share that is ordered on top [0 to 10]. A cable that nobody measured stands in a row without length.
    """
    rows: dict[Goods, list[str]] = {}
    for cable in cables:
        goods = cable_goods(fitted, cable)
        if cable.length_m is not None:
            goods = goods._replace(length_m=stock.sold_length_m(goods, cable.length_m))
        rows.setdefault(goods, []).append(cable.name)
    return tuple(
        Item(goods, len(serves), spares(len(serves), spare), tuple(serves), stock.price(goods))
        for goods, serves in rows.items()
    )


def cable_goods(fitted: Fitted, cable: Cable) -> Goods:
    """What a cable is bought as, but for its length; its category has to be known."""
    what = _WHAT[cable.category]
    twisted_pair = what == "cord"
    return Goods(
        what=what,
        detail=_detail(fitted, cable),
        category=cable.category,
        screened=cable.screened if twisted_pair else None,
        gauge_awg=cable.cord_awg if twisted_pair else None,
        ends=None if twisted_pair else ends_of(fitted, cable),
    )


def spares(quantity: int, share: float) -> int:
    """How many more to order: a share of the quantity [0 to 10], exact and rounded up, and one at least."""
    return max(1, ceil(quantity * Fraction(repr(share))))


def fibres_of(fitted: Fitted, cable: Cable) -> int:
    """Fibres of a cable: those of the plan, or else those that the modules on its way use; two if neither says."""
    return cable.fibres or fitted.fibres.get(cable.name, USUAL_FIBRES)


def fibres_text(fibres: int) -> str:
    """How many fibres, in words: `1 fibre`, `12 fibres`."""
    return "1 fibre" if fibres == 1 else f"{fibres} fibres"


def _detail(fitted: Fitted, cable: Cable) -> str | None:
    """What tells a cable apart beside its category: how many fibres it has, what its own ends run."""
    fibres = fibres_of(fitted, cable) if cable.category in FIBRE_GRADES else USUAL_FIBRES
    parts = [
        None if fibres == USUAL_FIBRES else fibres_text(fibres),
        None if cable.rates is None else _rates_text(cable.rates),
    ]
    return ", ".join(part for part in parts if part is not None) or None


def _rates_text(rates: Rates) -> str:
    if rates.up_to:
        return f"up to {rate_text(rates.bit_per_s[0])}"
    return " and ".join(map(rate_text, rates.bit_per_s))
