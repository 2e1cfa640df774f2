"""Goods: what can be ordered, how much of it, and what it costs."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, NamedTuple

from netaudit.model.plan import Price
from netaudit.model.vocabulary import Category
from netaudit.units import sold_length_text

What = Literal[
    "cord", "fibre cord", "twinax", "active twinax", "active optical cable", "thunderbolt cable", "usb cable",
    "box", "module", "jack", "plug", "network adapter",
    "station", "storage", "switch", "router", "access-point", "panel", "plate", "adapter", "ups", "other",
]  # fmt: skip
"""What a thing is called in lists; cords are ready made, a box holds cable to be cut."""
REEL_FROM_M = 500.0
"""Length from which cable comes on a reel [m]: common practice, no source."""


class Goods(NamedTuple):
    """One kind of thing, told apart from all others by everything that matters to whoever buys it."""

    what: What
    detail: str | None = None
    """What the other fields cannot say: 10GBASE-SR of a module, `24 x rj45` of a panel, `12 fibres` of a cord."""
    category: Category | None = None
    screened: bool | None = None
    """Whether it has a screen; None where that means nothing, as for fibre."""
    gauge_awg: int | None = None
    """Gauge of a stranded cord [AWG]; None where any will do, or where that means nothing."""
    ends: str | None = None
    """What its two ends are, such as `lc - lc`; None where an end is not known."""
    length_m: float | None = None
    """Length it is sold in [m]; None where that is not known yet, or where that means nothing."""

    @property
    def name(self) -> str:
        """What it is called: `cord`, `module 10GBASE-SR`, `panel 24 x rj45`."""
        return self.what if self.detail is None else f"{self.what} {self.detail}"

    @property
    def on_a_reel(self) -> bool:
        """Whether it is so long that it comes on a reel, and not in a box."""
        return self.what == "box" and self.length_m is not None and self.length_m >= REEL_FROM_M

    @property
    def _called(self) -> str:
        """What people are told it is: a box is one of cable, and a long one is a reel."""
        if self.what != "box":
            return self.name
        return self.name.replace("box", "reel of cable" if self.on_a_reel else "box of cable", 1)

    @property
    def text(self) -> str:
        """All of it in words: `cord 6A, screened, 26 AWG, 3 m`, `box of cable 6A, 304.8 m (1000 ft)`."""
        told = self.category is None or self.category.replace("-", " ") in self.what
        parts = [
            self._called if told else f"{self._called} {self.category}",
            "screened" if self.screened else None,
            None if self.gauge_awg is None else f"{self.gauge_awg} AWG",
            self.ends,
            None if self.length_m is None else sold_length_text(self.length_m),
        ]
        return ", ".join(part for part in parts if part is not None)


class Item(NamedTuple):
    """A row of the bill."""

    goods: Goods
    quantity: int
    """How many the plan needs, without spares."""
    spares: int
    """How many more to keep in the drawer."""
    serves: tuple[str, ...]
    """Cables, ports or devices that it is for, in plan order."""
    price: Price | None = None
    """Price of one; None where nobody gave it."""

    @property
    def order(self) -> int:
        """How many to order, spares included."""
        return self.quantity + self.spares

    @property
    def cost(self) -> Price | None:
        """Price of all of them; None where the price of one is not known."""
        return None if self.price is None else self.price._replace(amount=self.price.amount * self.order)


class Total(NamedTuple):
    """What the priced rows of one currency come to."""

    currency: str
    amount: Decimal
    rows: int
    """Priced rows in it."""
