"""The bill: what to buy, cut, label, plug and tick off, as it follows from a plan."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import Literal, NamedTuple

from netaudit.model.goods import Goods, Item, Total
from netaudit.model.moving import Acceptance, AddressCard, BenchTest, Label, PortRow, Step
from netaudit.model.place import PortRef
from netaudit.model.plan import Price
from netaudit.model.specification import Specification
from netaudit.model.vocabulary import Category

Objective = Literal["fewest boxes", "lowest price"]
SURPLUS_FROM_M = 50.0
"""Length from which what stays over is worth a shorter box, and the step of these [m]: common practice, no source."""


class Cut(NamedTuple):
    """One piece cut from a box; it is never joined to another."""

    box: int
    """Number of the box, counted from 1."""
    cable: str
    length_m: float
    """What comes off the box, the waste of both ends included [m]."""
    run_m: float
    """Length of the run itself [m]."""
    left_m: float
    """Length left in the box after this cut [m]."""


class Box(NamedTuple):
    """A box or reel of bulk cable."""

    number: int
    """Counted from 1."""
    size_m: float
    """Length in it when it is new [m]."""
    left_m: float
    """Length left when all is cut [m]."""
    price: Price | None = None


class Surplus(NamedTuple):
    """Far more cable than is used, in one box."""

    size_m: float
    """Length in it when it is new [m]."""
    left_m: float
    """Length left when all is cut [m]."""
    enough_m: float
    """A shorter length that would do [m]."""


class Bulk(NamedTuple):
    """Runs of one kind of solid cable that are cut from the same sizes, and the boxes they are cut from."""

    category: Category
    screened: bool
    boxes: tuple[Box, ...]
    """Empty while no run can be cut: none is measured, or every one is longer than any box."""
    cuts: tuple[Cut, ...]
    """Box by box, the longest first."""
    objective: Objective
    lower_bound: int | None
    """Boxes below which nobody can go; None while no run can be cut."""
    price_bound: Price | None
    """Price below which nobody can go; None where not all sizes have one price each in one currency."""
    proved_optimal: bool | None
    """Whether no better choice exists; None while no run can be cut."""
    unmeasured: tuple[str, ...] = ()
    """Cables whose length is not known; none of the boxes counts them."""
    too_long: tuple[str, ...] = ()
    """Cables longer than any box that is sold."""

    @property
    def items(self) -> tuple[Item, ...]:
        """Its boxes as rows of the bill: one for each size and price, with the cables cut from them, and no spares."""
        numbers: dict[tuple[float, Price | None], list[int]] = {}
        for box in self.boxes:
            numbers.setdefault((box.size_m, box.price), []).append(box.number)
        row_of = {number: row for row, own in numbers.items() for number in own}
        serves: dict[tuple[float, Price | None], list[str]] = {row: [] for row in numbers}
        for cut in self.cuts:
            serves[row_of[cut.box]].append(cut.cable)
        return tuple(
            Item(self._goods(size_m), len(own), 0, tuple(serves[size_m, price]), price)
            for (size_m, price), own in numbers.items()
        )

    @property
    def kind(self) -> Goods:
        """The cable that is in its boxes, of whatever size."""
        return self._goods(None)

    def _goods(self, size_m: float | None) -> Goods:
        return Goods("box", category=self.category, screened=self.screened, length_m=size_m)

    @property
    def uncounted(self) -> tuple[str, ...]:
        """Cables for which no box is counted: nobody has measured them, or no box is long enough."""
        return (*self.unmeasured, *self.too_long)

    @property
    def surplus(self) -> Surplus | None:
        """What is left in the fullest box, where that is far more than is used; None where it is not.

        None as well where sizes were mixed: then a shorter one was at hand.
        """
        fullest = max(self.boxes, key=lambda box: box.left_m, default=None)
        if fullest is None or len({box.size_m for box in self.boxes}) > 1:
            return None
        used_m = fullest.size_m - fullest.left_m
        if fullest.left_m <= max(used_m, SURPLUS_FROM_M):
            return None
        return Surplus(fullest.size_m, fullest.left_m, ceil(round(used_m / SURPLUS_FROM_M, 6)) * SURPLUS_FROM_M)

    @property
    def cost(self) -> Price | None:
        """Price of all its boxes; None where one has none or where they are in two currencies."""
        prices = [box.price for box in self.boxes if box.price is not None]
        currencies = {price.currency for price in prices}
        if len(prices) != len(self.boxes) or len(currencies) != 1:
            return None
        return prices[0]._replace(amount=sum((price.amount for price in prices[1:]), prices[0].amount))


class RunLength(NamedTuple):
    """A length that the plan does not give and that follows from the room."""

    cable: str
    length_m: float
    """Length worked out [m]."""
    how: str
    """The parts of the sum in words, each with its length; people read them, nobody reckons with them."""


class FreePorts(NamedTuple):
    """Ports of one kind on one device."""

    device: str
    connector: str | None
    rate_bit_per_s: int | None
    """Highest rate [bit/s]; None is unknown, and for passive ports, which have none."""
    free: int
    of: int
    """All of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """Everything that follows from a plan for whoever orders, cuts, labels, plugs and ticks off."""

    file: str
    """The plan's file as the caller named it."""
    plan: str | None
    """Name of the plan."""
    buy: tuple[Item, ...]
    """Cords and other made-up cables."""
    bulk: tuple[Bulk, ...]
    modules: tuple[Item, ...]
    parts: tuple[Item, ...]
    """Jacks, plugs, panels, plates, adapters and whatever else is not owned yet."""
    totals: tuple[Total, ...]
    """A total for each currency; empty where nothing has a price."""
    unpriced: int
    """Rows without a price."""
    lengths: tuple[RunLength, ...]
    """Lengths that were worked out."""
    measure: tuple[str, ...]
    """Cables whose length nobody knows."""
    identify: tuple[str, ...]
    """Cables whose category nobody knows."""
    installed: tuple[str, ...]
    owned: tuple[str, ...]
    labels: tuple[Label, ...]
    ports: tuple[PortRow, ...]
    """Port map: every port of every device."""
    free: tuple[FreePorts, ...]
    specifications: tuple[Specification, ...]
    bench: tuple[BenchTest, ...]
    unplug: tuple[Step, ...]
    """Only what is plugged now: cables that are owned already."""
    plug: tuple[Step, ...]
    accept: tuple[Acceptance, ...]
    cards: tuple[AddressCard, ...]
    remarks: tuple[str, ...]
    """What to know before ordering, a sentence each."""
    before_moving: tuple[str, ...] = ()
    """What to do before the first plug is pulled or pushed, a sentence each."""
    after_moving: tuple[str, ...] = ()
    """What to do when all is plugged, in which order to switch on above all, a sentence each."""
    unnamed: tuple[PortRef, ...] = ()
    """Cages that need a module which nobody has named: nothing of it is on the bill."""
    stopped: bool = False
    """Whether somebody stopped the search for fewer boxes, so that this is the best found until then."""

    @property
    def there(self) -> frozenset[str]:
        """Cables that need not be bought."""
        return frozenset((*self.installed, *self.owned))

    @property
    def to_choose(self) -> tuple[str, ...]:
        """Cables to buy of which nobody knows the category: nothing of them is on the bill."""
        there = self.there
        return tuple(name for name in self.identify if name not in there)

    @property
    def to_measure(self) -> tuple[str, ...]:
        """Cables to buy of which only the length is missing: they are on the bill, without a length."""
        open_anyway = {*self.there, *self.identify}
        return tuple(name for name in self.measure if name not in open_anyway)

    @property
    def complete(self) -> bool:
        """Whether everything that the plan needs is on the bill, each thing with its length."""
        uncounted = any(row.uncounted for row in self.bulk)
        return not (self.to_choose or self.to_measure or self.unnamed or uncounted)
