"""What follows from the published limits, as tables for people: goodput, buses, loss, crosstalk, delay, loops."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from typing import cast

from netaudit.calculations.buses import usable_bit_per_s
from netaudit.calculations.channel_loss import insertion_loss_db
from netaudit.calculations.crosstalk import crosstalk_limit
from netaudit.calculations.delay import delay_ns
from netaudit.calculations.goodput import tcp_goodput_bit_per_s
from netaudit.calculations.resistance import loop_ohm
from netaudit.model.limits import Column, LimitRow, LimitTable, Topic
from netaudit.model.plan import Bus
from netaudit.model.vocabulary import BusKind
from netaudit.standards.buses import host_buses
from netaudit.standards.channel_loss import cable_losses, channel_losses
from netaudit.standards.crosstalk import crosstalk_terms, limit_lines
from netaudit.standards.delay import delays
from netaudit.standards.phys import phys
from netaudit.standards.reading import Citation
from netaudit.standards.resistance import conductor_resistance

HEADERS = Citation("IEEE 802.3, RFC 791, RFC 9293 and RFC 7323: the headers and gaps of every packet", None, "computed")
"""What goodput is worked out from."""
MTUS = (1500, 9000)
"""Largest packets that networks of edit rooms use [octets]."""
LANES = (1, 2, 4, 8, 16)
"""Widths of PCI Express."""
GRID_MHZ = (1, 10, 31.25, 62.5, 100, 250, 500, 600, 1000, 2000)
"""Frequencies at which tables of cabling are printed [MHz]."""
REGIME, CATEGORY, PART = Column("regime", None), Column("category", None), Column("part", None)
FREQUENCY = Column("at", "MHz")


def computed(topic: Topic) -> tuple[LimitTable, ...]:
    """Every table that follows from the published limits about a topic; none where nothing is to be worked out."""
    tables = [*_rate_tables(topic), *_bus_tables(topic), *_category_tables(topic)]
    if topic.kind == "subject":
        tables += [make() for subjects, make in SUBJECTS if topic.names[0] in subjects]
    return tuple(table for table in tables if table.rows)


def _rate_tables(topic: Topic) -> Iterator[LimitTable]:
    rates: tuple[int, ...] = ()
    if topic.kind == "rate":
        rates = tuple(int(name) for name in topic.names)
    elif topic.kind == "phy":
        rates = tuple(phys()[name].rate_bit_per_s for name in topic.names)
    if rates:
        yield goodput_table(rates)


def _bus_tables(topic: Topic) -> Iterator[LimitTable]:
    if topic.kind == "bus":
        yield bus_table(topic.names)


def _category_tables(topic: Topic) -> Iterator[LimitTable]:
    if topic.kind == "category":
        yield loss_table(topic.names, ("channel",))


def goodput_table(rates: tuple[int, ...]) -> LimitTable:
    """File data that TCP over IPv4 with timestamps carries at each rate [bit/s]."""
    rows = (LimitRow((rate, mtu, tcp_goodput_bit_per_s(rate, mtu)), HEADERS) for rate in rates for mtu in MTUS)
    return LimitTable(
        "What a rate leaves for file data",
        (Column("rate", "bit/s"), Column("packet", "octets"), Column("file data", "bit/s")),
        tuple(rows),
        ("TCP over IPv4 with timestamps, one way, without a VLAN tag",),
    )


def bus_table(kinds: Collection[str]) -> LimitTable:
    """What an adapter gets out of each bus of some kinds."""
    rows = []
    for (kind, _), bus in host_buses().items():
        for lanes in LANES if kind == "pcie" else (None,):
            usable = usable_bit_per_s(
                Bus(
                    kind=cast("BusKind", kind),
                    generation=bus.generation,
                    lanes=lanes,
                    rate_bit_per_s=bus.signal_bit_per_s if bus.generation is None else None,
                )
            )
            if kind in kinds and usable is not None:
                cells = (kind, bus.generation, lanes, bus.signal_bit_per_s, usable.rate_bit_per_s)
                rows.append(LimitRow(cells, usable.source))
    return LimitTable(
        "What an adapter gets out of a bus",
        (
            Column("bus", None),
            Column("generation", ""),
            Column("lanes", ""),
            Column("signals at", "bit/s"),
            Column("an adapter gets", "bit/s"),
        ),
        tuple(rows),
        ("One way, in the direction that carries less; PCI Express with packets of 256 octets",),
    )


def loss_table(categories: Collection[str], parts: Collection[str]) -> LimitTable:
    """Insertion loss of channels, permanent links or both of some categories over frequency."""
    rows = (
        LimitRow((part, regime, category, frequency_mhz, round(loss_db, 2)), source)
        for (part, regime, category), channel in channel_losses().items()
        if category in categories and part in parts
        for cable in [cable_losses()[regime, category]]
        for source in [channel.source if cable.source.may_fail else cable.source]
        for frequency_mhz in GRID_MHZ
        if cable.from_mhz <= frequency_mhz <= cable.to_mhz
        for loss_db in [insertion_loss_db(cable, channel, frequency_mhz)]
    )
    return LimitTable(
        "Insertion loss over frequency",
        (PART, REGIME, CATEGORY, FREQUENCY, Column("at most", "dB")),
        tuple(rows),
        ("A channel of full length with all its cords and connections; a link is the part that is built in",),
    )


def crosstalk_table() -> LimitTable:
    """Crosstalk and return loss that channels and permanent links must keep."""
    quantities = dict.fromkeys([*(key[0] for key in crosstalk_terms()), *(line.quantity for line in limit_lines())])
    rows = []
    for quantity in quantities:
        for regime, category in cable_losses():
            for part in ("channel", "link"):
                for frequency_mhz in GRID_MHZ:
                    kept = crosstalk_limit(quantity, part, regime, category, frequency_mhz)
                    if kept is not None:
                        cells = (quantity, part, regime, category, frequency_mhz, round(kept.level_db, 2))
                        rows.append(LimitRow(cells, kept.source))
    return LimitTable(
        "Crosstalk and return loss over frequency",
        (Column("quantity", None), PART, REGIME, CATEGORY, FREQUENCY, Column("at least", "dB")),
        tuple(rows),
    )


def delay_table() -> LimitTable:
    """Delay and skew of cables, channels and permanent links."""
    rows = (
        LimitRow((limit.quantity, limit.categories, limit.part, frequency_mhz, ns), limit.source)
        for limit in delays().values()
        for frequency_mhz in (1, 10, 100)
        for ns in [round(delay_ns(limit, frequency_mhz), 1)]
    )
    return LimitTable(
        "Delay and skew over frequency",
        (Column("quantity", None), Column("categories", None), PART, FREQUENCY, Column("at most", "ns")),
        tuple(rows),
    )


def loop_table() -> LimitTable:
    """Loop of a pair over 100 m by gauge."""
    rows = (
        LimitRow((gauge_awg, round(loop_ohm(100, gauge_awg), 2)), figure.source)
        for gauge_awg, figure in conductor_resistance().items()
    )
    return LimitTable(
        "Loop of a pair of solid copper, 100 m at 20 °C", (Column("gauge", "AWG"), Column("loop", "ohm")), tuple(rows)
    )


def _every_rate() -> LimitTable:
    return goodput_table(tuple(sorted({phy.rate_bit_per_s for phy in phys().values()})))


def _every_bus() -> LimitTable:
    return bus_table(tuple(dict.fromkeys(kind for kind, _ in host_buses())))


def _every_loss() -> LimitTable:
    return loss_table({category for _, category in cable_losses()}, ("channel", "link"))


SUBJECTS: tuple[tuple[frozenset[str], Callable[[], LimitTable]], ...] = (
    (frozenset({"goodput"}), _every_rate),
    (frozenset({"buses", "adapters"}), _every_bus),
    (frozenset({"insertion loss", "copper loss"}), _every_loss),
    (frozenset({"crosstalk", "next", "acr-f", "return loss", "alien crosstalk", "psanext"}), crosstalk_table),
    (frozenset({"delay", "skew", "nvp"}), delay_table),
    (frozenset({"resistance", "awg", "loop"}), loop_table),
)
"""Words of the views to the table that is worked out for them."""
