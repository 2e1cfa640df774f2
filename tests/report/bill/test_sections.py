"""The bill in sections: the answer first, then what has to be found out, then everything in the order of doing it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from bills import CORD, SCREENED_WALLS, SPECIFICATION, UNMEASURED, UNMEASURED_WALLS, WALLS, empty_bill, euros, full_bill

from netaudit.model.bill import Bill, Bulk, RunLength
from netaudit.model.goods import Goods, Item, Total
from netaudit.report.bill.sections import sections, sentence, standing


def rows_of(bill: Bill, title: str) -> list[tuple[str, ...]]:
    """The rows below the title that begins so."""
    return [row for section in sections(bill) if section.title.startswith(title) for row in section.rows]


def lines_of(bill: Bill, title: str) -> list[str]:
    """The sentences below the title that begins so."""
    return [line for section in sections(bill) if section.title.startswith(title) for line in section.lines]


def test_the_answer_counts_what_is_ordered_with_spares() -> None:
    expected = "Order 5 cords and cables, 3 boxes of cable and 1 module, spares included."
    module = Item(Goods("module", "10GBASE-SR"), 1, 0, ("core/1",))

    assert expected == sentence(replace(empty_bill(), buy=(CORD,), bulk=(WALLS,), modules=(module,)))


def test_one_of_each_is_said_as_one() -> None:
    expected = "Order 1 cord or cable, 1 box of cable and 1 part, spares included."
    one = CORD._replace(quantity=1, spares=0)
    plate = Item(Goods("plate"), 1, 0, ("p",))

    assert expected == sentence(replace(empty_bill(), buy=(one,), bulk=(SCREENED_WALLS,), parts=(plate,)))


def test_a_room_that_has_everything_needs_nothing() -> None:
    assert "Nothing needs to be ordered." == sentence(empty_bill())


def test_where_facts_are_missing_nothing_can_be_ordered_yet() -> None:
    assert "Nothing can be ordered yet." == sentence(replace(empty_bill(), identify=("W04",)))


def test_what_has_to_be_found_out_is_told_apart_by_whether_it_is_there_already() -> None:
    bill = replace(empty_bill(), identify=("W04", "W06"), measure=("C09", "W05"), installed=("W05", "W06"), unpriced=1)
    expected = [
        "Before you order, choose a category for W04: without one nothing of it is on this bill.",
        "Before you order, measure C09: counted, but without a length.",
        "Already there, of unknown category: read the jacket of W06.",
        "Already there, of unknown length: W05; `check` wants to know it.",
    ]

    assert expected == list(standing(bill))


def test_a_search_that_was_stopped_is_told() -> None:
    expected = ["The search for fewer boxes was stopped: this is the best found until then."]

    assert expected == list(standing(replace(empty_bill(), stopped=True)))


def test_the_total_stands_beside_the_answer() -> None:
    bill = replace(empty_bill(), totals=(Total("EUR", Decimal("36.00"), 1),))

    assert ["All in all 36.00 EUR."] == list(standing(bill))


def test_without_prices_there_are_no_columns_for_them() -> None:
    bill = replace(empty_bill(), buy=(UNMEASURED,), unpriced=1)

    assert [("2", "cord 6A", "1", "1", "C09")] == rows_of(bill, "To order")
    assert ["No prices were given,"] == [line[:21] for line in lines_of(bill, "To order")]


def test_with_prices_each_row_says_what_one_costs_and_all_of_them() -> None:
    bill = replace(empty_bill(), buy=(CORD,), totals=(Total("EUR", Decimal("36.00"), 1),))
    expected = ("5", "cord 6A, 26 AWG, rj45 - rj45, 3 m", "4", "1", "7.20 EUR", "36.00 EUR", "C01, C02, C03 and C04")

    assert [expected] == rows_of(bill, "To order")


def test_boxes_of_one_size_and_price_share_a_row() -> None:
    rows = [row[:6] for row in rows_of(replace(empty_bill(), bulk=(WALLS,)), "To order")]
    expected = [
        ("2", "box of cable 6A, 304.8 m", "2", "0", "129.90 EUR", "259.80 EUR"),
        ("1", "box of cable 6A, 100 m", "1", "0", "49.00 EUR", "49.00 EUR"),
    ]

    assert expected == rows


def test_each_box_tells_its_cuts_and_what_is_left() -> None:
    row = rows_of(replace(empty_bill(), bulk=(WALLS,)), "Cut from boxes of 6A")[1]

    assert ("2", "304.8 m", "W03 20.5 m", "284.3 m") == row


FEWEST = SCREENED_WALLS._replace(proved_optimal=True)


@pytest.mark.parametrize(
    ("bulk", "proof"),
    [
        (WALLS, "No other choice of boxes costs less: proved."),
        (
            WALLS._replace(proved_optimal=False, price_bound=euros("300")),
            "Whether another choice of boxes costs less is not proved; none can cost less than 300.00 EUR.",
        ),
        (WALLS._replace(proved_optimal=False, price_bound=None),
         "Whether another choice of boxes costs less is not proved."),
        (FEWEST, "One box holds them all."),
        (WALLS._replace(objective="fewest boxes", lower_bound=3), "Fewer boxes cannot do: proved."),
        (
            WALLS._replace(objective="fewest boxes", lower_bound=2, proved_optimal=False),
            "Not proved to be the fewest: 3 boxes, and at least 2 are needed.",
        ),
    ],
)  # fmt: skip
def test_the_proof_says_how_good_the_choice_is(bulk: Bulk, proof: str) -> None:
    assert proof == lines_of(replace(empty_bill(), bulk=(bulk,)), "Cut from boxes")[0]


def test_runs_that_no_box_counts_are_named() -> None:
    expected = [
        "Not counted, because nobody has measured them: W09.",
        "Longer than any box that is sold, and cable in a wall is never joined: W10.",
    ]

    assert expected == lines_of(replace(empty_bill(), bulk=(WALLS,)), "Cut from boxes")[1:]


def test_runs_nobody_measured_have_no_empty_table() -> None:
    bill = replace(empty_bill(), bulk=(UNMEASURED_WALLS,))

    assert [] == rows_of(bill, "Cut from boxes")
    assert 1 == len(lines_of(bill, "Cut from boxes"))


def test_a_length_that_was_worked_out_says_how() -> None:
    bill = replace(empty_bill(), lengths=(RunLength("C02", 1.18, "rack bay: 2 units 0.09 m"),))

    assert [("C02", "1.18 m", "rack bay: 2 units 0.09 m")] == rows_of(bill, "Lengths worked out")


def test_a_switch_that_is_not_chosen_gets_a_list_to_buy_by() -> None:
    rows = rows_of(replace(empty_bill(), specifications=(SPECIFICATION,)), SPECIFICATION.device)

    assert ("6 x", "rj45, 10 Gb/s (1250 MB/s)", "core/1 and core/2") == rows[0]
    assert ("1 x", "connector not known, rate not known", "core/12") == rows[1]
    assert [
        ("packets", "at least 9000 octets", ""),
        ("bonds", "1", ""),
        ("VLANs", "20, 44", ""),
        ("spanning tree", "yes: it stands in a ring", ""),
    ] == rows[2:6]


def test_what_is_not_bought_is_named() -> None:
    bill = replace(empty_bill(), installed=("W01", "W02"), owned=("C07",))

    assert [("already installed", "W01 and W02"), ("already owned", "C07")] == rows_of(bill, "Not bought")


def test_every_cable_of_a_long_row_is_counted() -> None:
    item = CORD._replace(serves=tuple(f"C{number}" for number in range(1, 13)))
    row = rows_of(replace(empty_bill(), buy=(item,)), "To order")[0]

    assert row[-1].endswith("C8 and 4 more")


def test_a_section_without_anything_to_tell_is_left_out() -> None:
    assert () == sections(empty_bill())
    assert len(sections(full_bill())) >= 8
