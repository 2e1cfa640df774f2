"""Whether an item of stock is the goods of a bill, however it is spelt."""

from __future__ import annotations

import pytest

from netaudit.model.goods import Goods
from netaudit.model.plan import StockItem
from netaudit.ordering.shop.matching import (
    facts_beyond,
    facts_said,
    folded,
    is_kind,
    is_length,
    length_step,
    length_steps,
    names,
)

CORD = Goods("cord", category="6A", screened=False, gauge_awg=26, length_m=3.0)
TWINAX = Goods("twinax", category="twinax", ends="sfp+ - sfp+", length_m=1.0)
BOX = Goods("box", category="6A", screened=False, length_m=304.8)


@pytest.mark.parametrize(
    ("spelt", "usual"),
    [
        ("Cords", "cord"), ("patch cord", "cord"), ("Patch-Cables", "cord"), ("leads", "cord"), ("patch leads", "cord"),
        ("Fiber Patch Cords", "fibre cord"), ("fibre lead", "fibre cord"), ("active optical cables", "active optical cable"),
        ("AOC", "active optical cable"), ("DAC", "twinax"), ("active DACs", "active twinax"),
        ("direct attach cable", "twinax"), ("reel", "box"), ("Drums", "box"), ("boxes", "box"), ("box of cable", "box"), ("Reels of cable", "box"),
        ("transceivers 10GBASE-SR", "module 10gbase sr"), ("switches", "switch"), ("access  points", "access-point"),
        ("fibre\u00a0cord", "fibre cord"), ("Thunderbolt cables", "thunderbolt cable"), ("patch_cords", "cord"),
    ],
)  # fmt: skip
def test_spellings_of_the_trade_mean_the_same(spelt: str, usual: str) -> None:
    assert folded(usual) == folded(spelt)


@pytest.mark.parametrize("other", ["recorder", "leaded", "boxer", "cord reel 6", "fibre", "", "---"])
def test_a_word_inside_another_one_is_no_synonym(other: str) -> None:
    assert folded(other) not in {"cord", "box", "fibre cord"}


@pytest.mark.parametrize("hostile", ["{0}", "=1+1", "<b>cord</b>", "\\1", "شبكة", "x" * 64, "%s", "(", "[", "*"])
def test_any_name_can_be_folded(hostile: str) -> None:
    assert folded(hostile) not in names(CORD)
    assert folded(hostile) == folded(hostile.upper())


def test_goods_answer_to_their_kind_and_to_all_that_tells_them_apart() -> None:
    fibre = Goods("fibre cord", "12 fibres", "OM4", ends="mpo - mpo")

    assert {"cord": set(), "cord 6a": {"category"}} == names(CORD)
    assert {
        "fibre cord": set(), "fibre cord 12 fibre": {"detail"}, "fibre cord om4": {"category"},
        "fibre cord mpo mpo": {"ends"}, "fibre cord 12 fibre om4": {"detail", "category"},
        "fibre cord 12 fibre mpo mpo": {"detail", "ends"}, "fibre cord om4 mpo mpo": {"category", "ends"},
        "fibre cord 12 fibre om4 mpo mpo": {"detail", "category", "ends"},
    } == names(fibre)  # fmt: skip


@pytest.mark.parametrize(
    ("item", "goods", "expected"),
    [
        (StockItem("cord"), CORD, True),
        (StockItem("cord", category="6A", screened=False, cord_awg=26), CORD, True),
        (StockItem("cord", category="6"), CORD, False),
        (StockItem("cord", screened=True), CORD, False),
        (StockItem("cord", cord_awg=24), CORD, False),
        (StockItem("cord", cord_awg=24), CORD._replace(gauge_awg=None), True),
        (StockItem("cord", screened=True), CORD._replace(screened=True), True),
        (StockItem("cord", screened=False), CORD._replace(screened=True), False),
        (StockItem("twinax", screened=False), TWINAX, True),
        (StockItem("twinax", screened=True), TWINAX, False),
        (StockItem("switch", category="6A"), Goods("switch"), False),
        (StockItem("twinax", ends="sfp+ - sfp+"), TWINAX, True),
        (StockItem("twinax", ends="SFP+-SFP+"), TWINAX, True),
        (StockItem("twinax", ends="sfp+ - sfp28"), TWINAX, False),
        (StockItem("twinax", ends="sfp+ - sfp+"), TWINAX._replace(ends=None), False),
        (StockItem("fibre cord", ends="sc - lc"), Goods("fibre cord", ends="lc - sc"), True),
        (StockItem("fibre cord", ends="lc - sc"), Goods("fibre cord", ends="lc - lc"), False),
        (StockItem("DAC", ends="4 x sfp+ - qsfp+"), Goods("twinax", ends="qsfp+ - 4 x sfp+"), True),
        (StockItem("cord", ends="rj45 - rj45"), CORD, True),
        (StockItem("module", ends="lc"), Goods("module", "10GBASE-SR"), True),
    ],
)
def test_each_fact_that_an_item_gives_has_to_be_that_of_the_goods(
    item: StockItem, goods: Goods, expected: bool
) -> None:
    assert expected == is_kind(item, goods)


@pytest.mark.parametrize(
    ("length_m", "goods", "expected"),
    [
        (None, CORD, True), (3.0, CORD, True), (3.0009, CORD, True), (2.9991, CORD, True), (3.0011, CORD, False),
        (None, CORD._replace(length_m=None), True), (3.0, CORD._replace(length_m=None), False),
        (305.0, BOX, True), (304.8, BOX, True), (304.0, BOX, False), (1000 * 0.3048, BOX, True),
        (305.0, CORD._replace(length_m=304.8), False),
    ],
)  # fmt: skip
def test_a_length_is_the_same_within_a_millimetre_and_305_m_of_a_box_are_a_thousand_feet(
    length_m: float | None, goods: Goods, expected: bool
) -> None:
    assert expected == is_length(StockItem("any", length_m=length_m), goods)


def test_only_facts_that_make_a_difference_are_counted() -> None:
    item = StockItem("cord", category="6A", screened=False, cord_awg=26, length_m=3.0)

    assert {"category", "screened", "gauge", "length"} == facts_said(item, CORD)
    assert {"category", "screened", "length"} == facts_said(item, CORD._replace(gauge_awg=None))
    assert {"ends"} == facts_said(StockItem("twinax", ends="sfp+ - sfp+"), TWINAX)
    assert set() == facts_said(StockItem("cord"), CORD)
    assert set() == facts_said(StockItem("switch", screened=False), Goods("switch"))


def test_what_goods_leave_open_is_beyond_them() -> None:
    item = StockItem("cord", category="6A", screened=False, cord_awg=26, ends="rj45 - rj45")

    assert [1, 2, 0] == [
        facts_beyond(item, CORD), facts_beyond(item, CORD._replace(gauge_awg=None)), facts_beyond(StockItem("cord"), CORD)
    ]  # fmt: skip


@pytest.mark.parametrize("length_m", [0.5, 2.9995, 3.0, 3.0005, 304.8])
@pytest.mark.parametrize("off_m", [-0.001, -0.0005, 0.0, 0.0005, 0.001])
def test_lengths_that_are_the_same_are_found_beside_one_another(length_m: float, off_m: float) -> None:
    assert length_step(length_m + off_m) in length_steps(length_m)
