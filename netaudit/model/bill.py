"""The bill: what to buy, cut, label, plug and tick off, as it follows from a plan."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

from netaudit.model.goods import Item, Total
from netaudit.model.moving import Acceptance, AddressCard, BenchTest, Label, PortRow, Step
from netaudit.model.place import PortRef
from netaudit.model.plan import Price
from netaudit.model.vocabulary import Category

Objective = Literal["fewest boxes", "lowest price"]


class Cut(NamedTuple):
    """One piece cut from a box; it is never joined to another."""

    box: int
    """Number of the box, counted from 1."""
    cable: str
    length_m: float
    """What comes off the box, the waste of both ends included [m]."""
    run_m: float
    """Length of the run itself [m]."""


class Box(NamedTuple):
    """A box or reel of bulk cable."""

    number: int
    """Counted from 1."""
    size_m: float
    """Length in it when it is new [m]."""
    left_m: float
    """Length left when all is cut [m]."""
    price: Price | None = None


class Bulk(NamedTuple):
    """All runs of one kind of solid cable, and the boxes they are cut from."""

    category: Category
    screened: bool
    boxes: tuple[Box, ...]
    """Empty while no run is measured."""
    cuts: tuple[Cut, ...]
    """Box by box, the longest first."""
    objective: Objective
    lower_bound: int | None
    """Boxes below which nobody can go; None while no run is measured."""
    price_bound: Price | None
    """Price below which nobody can go; None where not all sizes have one price each in one currency."""
    proved_optimal: bool | None
    """Whether no better choice exists; None while no run is measured."""
    unmeasured: tuple[str, ...] = ()
    """Cables whose length is not known; none of the boxes counts them."""
    too_long: tuple[str, ...] = ()
    """Cables longer than any box that is sold."""

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
    """The parts of the sum in words, each with its length and where it comes from."""


class FreePorts(NamedTuple):
    """Ports of one kind on one device."""

    device: str
    connector: str | None
    rate_bit_per_s: int | None
    """Highest rate [bit/s]; None is unknown, and for passive ports, which have none."""
    free: int
    of: int
    """All of them."""


class PortNeed(NamedTuple):
    """Ports of one kind that a switch has to have."""

    connector: str | None
    rate_bit_per_s: int | None
    """Rate that what is plugged into them runs [bit/s]; None is unknown."""
    quantity: int
    ports: tuple[PortRef, ...]


class Specification(NamedTuple):
    """What to look for in a switch that is not chosen yet."""

    device: str
    needs: tuple[PortNeed, ...]
    packet_octets: int | None
    """Largest packet that it has to pass [octets]; None where no port says."""
    bonds: int
    """Bonds that it has to terminate."""
    vlans: tuple[int, ...]
    """VLANs that it has to tell apart."""
    spanning_tree: bool
    """Whether it stands in a ring, so that it has to run a spanning tree."""
    watts: float | None
    """What the plan allows it to draw [W]; None where the plan says nothing."""
    notes: tuple[str, ...] = ()
    """What else to look for, in sentences."""


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
    plug: tuple[Step, ...]
    accept: tuple[Acceptance, ...]
    cards: tuple[AddressCard, ...]
    remarks: tuple[str, ...]
    """What to know before ordering, a sentence each."""
    before_moving: tuple[str, ...] = ()
    """What to do before the first plug is pulled, a sentence each."""
    stopped: bool = False
    """Whether somebody stopped the search for fewer boxes, so that this is the best found until then."""
