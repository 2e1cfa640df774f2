"""Bench tests: what to do with what has arrived, before any of it goes into the room. Common practice, no source."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from netaudit.model.bill import Bulk
from netaudit.model.goods import Goods, Item
from netaudit.model.moving import BenchTest
from netaudit.standards.copper import copper_reach
from netaudit.standards.phys import phys
from netaudit.units import both_rates_text, sold_length_text

_COPY = "Copy for ten minutes: the error counters at both ends must not move."
_DIRECT = f"Plug it into the two cages that it is for: both ends must take it and show the same rate. {_COPY}"
_LIGHT = (
    "Look at both end faces through a fibre microscope and never with the eye, clean them, look again, and only then "
    f"plug. Both ends must show a link; never look into a fibre. {_COPY}"
)
_HOST = "Count, look at the plugs, and join the machine and its adapter: the machine must find it at once, every time."
_ADAPTER = "Put it into its machine: the system must name it, and its port must show the rate that it was bought for."
_COUNT = "Count, and look at a few: contacts straight, and the printed category right."
_HOUSING = "Count, and look for damage from the journey; the printed category and the number of openings must be right."
_MACHINE = (
    "Look for damage from the journey before you sign for it. Switch it on by itself for an hour: every fan turns, no "
    "alarm stays on, and every port that the plan uses shows a link with a cord that is known to be good."
)
_CORD = "a short cord between them."
_CORD_AND_ATTENUATOR = (
    "a short cord and the attenuator that their maker names between them: never with a short cord alone, since too "
    "much light can harm the receiver."
)
_MAYBE_ATTENUATOR = (
    f"{_CORD} Read first in the data sheet the most light that they send and the most that they bear: where the first "
    "is more, put the attenuator that their maker names between."
)
_VERY_FAR = re.compile(r"BASE-(?:[EZ][RX]|B[RX][4-9]0)")
"""Physical layers for 30 km and more, whose senders are brighter than their receivers bear."""
_FAR = re.compile(r"BASE-(?:L[RX][0-9]*$|B[RX][12]0)")
"""Physical layers for 10 or 20 km; the standard's own bear their own light, those of some makers may not."""
_HOW = {
    "fibre cord": _LIGHT,
    "twinax": _DIRECT,
    "active twinax": _DIRECT,
    "active optical cable": f"{_DIRECT} Never look into an end of it.",
    "thunderbolt cable": _HOST,
    "usb cable": _HOST,
    "network adapter": _ADAPTER,
    "jack": _COUNT,
    "plug": _COUNT,
    "panel": _HOUSING,
    "plate": _HOUSING,
}


def bench_tests(
    buy: Iterable[Item], bulk: Iterable[Bulk], modules: Iterable[Item], parts: Iterable[Item]
) -> tuple[BenchTest, ...]:
    """A test for each row of the bill, in its order; spares are tested like all others."""
    return (
        *(_test(item) for item in buy),
        *(_box_test(one) for kind in bulk for one in kind.items),
        *(_test(item) for item in (*modules, *parts)),
    )


def _test(item: Item) -> BenchTest:
    return BenchTest(item.goods.text, item.order, _how(item.goods))


def _how(goods: Goods) -> str:
    if goods.what == "cord":
        return _cord(goods)
    if goods.what == "module":
        return _module(goods)
    return _HOW.get(goods.what, _MACHINE)


def _cord(goods: Goods) -> str:
    """How a cord of twisted pair is tested, at the highest rate that the published limits promise over it."""
    length = None if goods.length_m is None else sold_length_text(goods.length_m)
    printed = ", ".join(each for each in (goods.category, length) if each is not None)
    reading = f" ({printed})" if printed else ""
    rates = _promised_bit_per_s(goods)
    shown = (
        f"at {both_rates_text(rates[0])}, or at the best that both ports can do"
        if rates
        else "at the best of both ports"
    )
    return (
        f"Count, look at the latches of the plugs, and read what is printed on the jacket{reading}. Plug it between "
        f"two machines or switch ports: it must link {shown}. {_COPY}"
    )


def _promised_bit_per_s(goods: Goods) -> Sequence[int]:
    """Rates that are promised over a cord, the highest first [bit/s]; empty where its category is not known."""
    return sorted(
        (
            phys()[reach.phy].rate_bit_per_s
            for (_, category, screened), reach in copper_reach().items()
            if category == goods.category and screened == bool(goods.screened)
            if reach.assured_m is not None and reach.assured_m >= (goods.length_m or 0.0)
        ),
        reverse=True,
    )


def _module(goods: Goods) -> str:
    """How modules are tested."""
    layer = None if goods.detail is None else phys().get(goods.detail)
    rate = "the same rate" if layer is None else both_rates_text(layer.rate_bit_per_s)
    caps = "" if layer is not None and layer.medium == "copper" else " Keep the caps on until then."
    between = _between(goods.detail or "")
    return (
        f"Test in pairs, in the two devices that they are for, with {between}{caps} Both ends must show {rate}: never "
        f"trust one side, since a port may show a link that the other end does not have. {_COPY}"
    )


def _between(phy: str) -> str:
    """What joins two modules on the bench, and what to mind about their light."""
    if _VERY_FAR.search(phy):
        return _CORD_AND_ATTENUATOR
    return _MAYBE_ATTENUATOR if _FAR.search(phy) else _CORD


def _box_test(item: Item) -> BenchTest:
    """How boxes and reels are tested, and how the runs that are cut from them are ended."""
    how = (
        f"Read what is printed on the jacket: category {item.goods.category}, solid copper and not copper-clad "
        "aluminium, and the fire class that the local code asks for. Note the metre mark at the pulling end now and "
        "before each pull, and compare what is printed on the box: the mark at the other end is buried inside. End "
        "both ends of each run by the same scheme, T568A or T568B of ANSI/TIA-568, and check its wire map with a "
        "tester before the wall is closed; to certify it is the installer's work."
    )
    return BenchTest(item.goods.text, item.order, how)
