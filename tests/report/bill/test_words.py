"""Words that every form of a bill shares: the answer first, then what has to be found out."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from bills import (
    CORD,
    MODULE,
    SCREENED_WALLS,
    SPECIFICATION,
    UNMEASURED,
    UNMEASURED_WALLS,
    WALLS,
    empty_bill,
    full_bill,
    port,
)

from netaudit.model.bill import Bill, Box, FreePorts
from netaudit.model.goods import Goods, Item, Total
from netaudit.model.specification import PortNeed
from netaudit.report.bill.sheet import Column, Sheet
from netaudit.report.bill.words import (
    LARGEST_PACKET,
    NOT_JUDGED,
    demands,
    expected_text,
    free_kind,
    nothing,
    port_kind,
    sentence,
    split_text,
    standing,
)

PLATE = Item(Goods("plate"), 1, 0, ("p",))
COUNTED = WALLS._replace(unmeasured=(), too_long=())


def test_the_answer_counts_what_is_ordered_with_spares() -> None:
    expected = "Order 5 cords and cables, 3 boxes of cable and 3 modules, spares included."

    assert expected == sentence(replace(empty_bill(), buy=(CORD,), bulk=(COUNTED,), modules=(MODULE,)))


def test_one_of_each_is_said_as_one() -> None:
    expected = "Order 1 cord or cable, 1 box of cable and 1 part, spares included."
    one = CORD._replace(quantity=1, spares=0)

    assert expected == sentence(replace(empty_bill(), buy=(one,), bulk=(SCREENED_WALLS,), parts=(PLATE,)))


def test_reels_are_not_counted_as_boxes() -> None:
    reels = COUNTED._replace(boxes=(Box(1, 500.0, 10.0), Box(2, 1000.0, 10.0)))
    expected = "Order 3 boxes of cable and 2 reels of cable, spares included."

    assert expected == sentence(replace(empty_bill(), bulk=(COUNTED, reels)))


@pytest.mark.parametrize(
    ("bill", "expected"),
    [
        (empty_bill(), "Nothing needs to be ordered."),
        (replace(empty_bill(), measure=("W01",), installed=("W01",)), "Nothing needs to be ordered."),
        (replace(empty_bill(), identify=("W01",), owned=("W01",)), "Nothing needs to be ordered."),
        (replace(empty_bill(), identify=("W04",)), "Nothing can be ordered yet: 1 cable is not on the bill."),
        (
            replace(empty_bill(), unnamed=(port("sw/7"), port("st/x"))),
            "Nothing can be ordered yet: 2 modules are not on the bill.",
        ),
        (
            replace(empty_bill(), parts=(PLATE,), identify=("W04", "W05"), bulk=(UNMEASURED_WALLS,)),
            "Order 1 part, spares included; 4 cables are not on it yet.",
        ),
        (
            replace(empty_bill(), parts=(PLATE,), bulk=(WALLS._replace(boxes=(), cuts=()),), unnamed=(port("sw/7"),)),
            "Order 1 part, spares included; 2 cables and 1 module are not on it yet.",
        ),
        (
            replace(empty_bill(), buy=(UNMEASURED,), measure=("C09",)),
            "Order 2 cords and cables, spares included.",
        ),
    ],
)
def test_the_answer_says_how_much_is_not_on_the_bill_yet(bill: Bill, expected: str) -> None:
    """A cord without a length is on it; a cable without a category, and a run that no box counts, are not."""
    assert expected == sentence(bill)


def told(bill: Bill) -> list[str]:
    """What stands beside the answer, without its last line."""
    *lines, last = standing(bill)
    assert NOT_JUDGED == last
    return lines


def test_what_has_to_be_found_out_is_told_apart_by_whether_it_is_there_already() -> None:
    bill = replace(empty_bill(), identify=("W04", "W06"), measure=("C09", "W05"), installed=("W05", "W06"), unpriced=1)
    expected = [
        "Before you order, choose a category for W04: without one nothing of it is on this bill.",
        "Before you order, measure C09: counted, but without a length.",
        "Already there, of unknown category: read the jacket of W06.",
        "Already there, of unknown length: W05; `check` wants to know it.",
    ]

    assert expected == told(bill)


def test_a_cable_whose_category_is_to_be_chosen_is_not_called_counted_without_a_length() -> None:
    bill = replace(empty_bill(), identify=("W04", "W05"), measure=("W04", "W05"))
    expected = ["Before you order, choose a category for W04 and W05: without one nothing of them is on this bill."]

    assert expected == told(bill)


def test_a_run_that_no_box_counts_is_not_called_counted() -> None:
    bill = replace(
        empty_bill(), measure=("C09", "W11", "W12"), bulk=(UNMEASURED_WALLS._replace(unmeasured=("W11", "W12")),)
    )
    expected = [
        "Before you order, measure C09: counted, but without a length.",
        "Before you order, measure W11 and W12: no box is counted for them yet.",
    ]

    assert expected == told(bill)


@pytest.mark.parametrize(
    ("ports", "expected"),
    [
        (("sw/7",), "Before you order, name the module of sw/7: nothing of it is on this bill."),
        (("sw/7", "st/x"), "Before you order, name the modules of sw/7 and st/x: nothing of them is on this bill."),
    ],
)
def test_cages_whose_module_nobody_named_are_told(ports: tuple[str, ...], expected: str) -> None:
    assert [expected] == told(replace(empty_bill(), unnamed=tuple(map(port, ports))))


@pytest.mark.parametrize(
    ("names", "expected"),
    [
        (("W2",), "W2 is longer than any box: order it on a reel by the metre, or shorten the run."),
        (("W2", "W3"), "W2 and W3 are longer than any box: order each on a reel by the metre, or shorten the run."),
    ],
)
def test_runs_longer_than_any_box_are_told_beside_the_answer(names: tuple[str, ...], expected: str) -> None:
    assert [expected] == told(replace(empty_bill(), bulk=(COUNTED._replace(too_long=names),)))


def test_a_search_that_was_stopped_is_told() -> None:
    expected = ["The search for fewer boxes was stopped: this is the best found until then."]

    assert expected == told(replace(empty_bill(), stopped=True))


def test_the_total_stands_beside_the_answer() -> None:
    bill = replace(empty_bill(), totals=(Total("EUR", Decimal("36.00"), 1),))

    assert ["All in all 36.00 EUR."] == told(bill)


def test_that_nothing_is_judged_is_said_last_whatever_the_bill() -> None:
    expected = ["Nothing is judged here: run `netaudit check` on the plan before you order."]

    assert [expected] * 2 == [list(standing(bill))[-1:] for bill in (empty_bill(), full_bill())]


def test_a_sheet_without_rows_is_told_in_one_line() -> None:
    assert "Cuts: nothing." == nothing(Sheet("cuts", "Cuts", (Column("cable"),), ()))


def test_an_expected_rate_has_both_units_and_no_rate_to_see_is_told_from_an_unknown_one() -> None:
    expected = ["10 Gb/s (1250 MB/s)", None, "1 Gb/s (125 MB/s)", "none"]

    assert expected == [expected_text(row) for row in full_bill().accept]


def test_a_port_to_look_for_has_its_connector_and_its_rate_in_both_units() -> None:
    need = PortNeed("rj45", 10_000_000_000, 6, ())
    unknown = PortNeed(None, None, 1, ())

    assert ["rj45, 10 Gb/s (1250 MB/s)", "connector not known, rate not known"] == [port_kind(need), port_kind(unknown)]


def test_a_port_that_has_to_split_is_told_with_its_lanes() -> None:
    need = PortNeed("qsfp+", 40_000_000_000, 1, (), lanes=4, lane_bit_per_s=10_000_000_000)

    assert [
        "qsfp+, 40 Gb/s (5000 MB/s), split into 4 lanes of 10 Gb/s (1250 MB/s)",
        "qsfp+, 40 Gb/s (5000 MB/s), split into 4 lanes",
    ] == [port_kind(need), port_kind(need._replace(lane_bit_per_s=None))]


def test_a_port_that_need_not_split_has_no_lanes() -> None:
    need = PortNeed("qsfp28", 100_000_000_000, 1, (), lanes=4, lane_bit_per_s=25_000_000_000)

    assert ["4 lanes of 25 Gb/s (3125 MB/s)", None] == [
        split_text(one) for one in (need, need._replace(lanes=1, lane_bit_per_s=None))
    ]


def test_what_a_switch_has_to_have_is_told_and_what_it_need_not_have_is_not() -> None:
    expected = [
        (LARGEST_PACKET, "at least 9000 octets"),
        ("bonds to terminate", "1"),
        ("VLANs to tell apart", "20, 44"),
        ("spanning tree", "needed"),
        ("power", "at most 41.5 W"),
    ]
    plain = SPECIFICATION._replace(packet_octets=None, bonds=0, vlans=(), spanning_tree=False, watts=None)

    assert expected == list(demands(SPECIFICATION))
    assert [] == list(demands(plain))


def test_a_free_port_of_unknown_connector_says_so() -> None:
    rows = (FreePorts("core", "rj45", 10**10, 2, 8), FreePorts("x", None, None, 0, 4))

    assert [("rj45", "10 Gb/s (1250 MB/s)"), ("not known", "")] == [free_kind(row) for row in rows]
