"""The bill in sections, in the order of doing it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from bills import CORD, SPECIFICATION, UNMEASURED, UNMEASURED_WALLS, WALLS, empty_bill, full_bill

from netaudit.model.bill import Bill, Box, Cut, RunLength
from netaudit.model.goods import Total
from netaudit.report.bill.sections import sections
from netaudit.report.goods_words import NO_PRICES


def rows_of(bill: Bill, title: str) -> list[tuple[str, ...]]:
    """The rows below the title that begins so."""
    return [row for section in sections(bill) if section.title.startswith(title) for row in section.rows]


def lines_of(bill: Bill, title: str) -> list[str]:
    """The sentences below the title that begins so."""
    return [line for section in sections(bill) if section.title.startswith(title) for line in section.lines]


def test_without_prices_there_are_no_columns_for_them() -> None:
    bill = replace(empty_bill(), buy=(UNMEASURED,), unpriced=1)

    assert [("2", "cord 6A", "1", "1", "C09")] == rows_of(bill, "To order")
    assert [NO_PRICES] == lines_of(bill, "To order")


def test_one_price_is_enough_for_the_columns() -> None:
    bill = replace(empty_bill(), buy=(UNMEASURED, CORD), totals=(Total("EUR", Decimal("36.00"), 1),), unpriced=1)

    assert [("", ""), ("7.20 EUR", "36.00 EUR")] == [row[4:6] for row in rows_of(bill, "To order")]


def test_with_prices_each_row_says_what_one_costs_and_all_of_them() -> None:
    bill = replace(empty_bill(), buy=(CORD,), totals=(Total("EUR", Decimal("36.00"), 1),))
    expected = ("5", "cord 6A, 26 AWG, rj45 - rj45, 3 m", "4", "1", "7.20 EUR", "36.00 EUR", "C01, C02, C03 and C04")

    assert [expected] == rows_of(bill, "To order")


def test_boxes_of_one_size_and_price_share_a_row() -> None:
    rows = [row[:6] for row in rows_of(replace(empty_bill(), bulk=(WALLS,)), "To order")]
    expected = [
        ("2", "box of cable 6A, 304.8 m (1000 ft)", "2", "0", "129.90 EUR", "259.80 EUR"),
        ("1", "box of cable 6A, 100 m", "1", "0", "49.00 EUR", "49.00 EUR"),
        ("open", "cable 6A, for runs that no box counts", "", "", "", ""),
    ]

    assert expected == rows


def test_runs_that_no_box_counts_have_a_row_that_names_them() -> None:
    row = rows_of(replace(empty_bill(), bulk=(UNMEASURED_WALLS,)), "To order")[0]

    assert ("open", "cable 5e, for runs that no box counts", "", "", "W11 and  =1+1") == row


def test_each_box_tells_its_cuts_and_what_is_left() -> None:
    row = rows_of(replace(empty_bill(), bulk=(WALLS,)), "Cut from boxes of 304.8 m")[1]

    assert ("2", "304.8 m (1000 ft)", "W03 20.5 m", "284.3 m") == row


def test_boxes_and_reels_of_one_kind_of_cable_have_headings_that_tell_them_apart() -> None:
    reels = WALLS._replace(boxes=(Box(1, 1000.0, 10.0),), cuts=(Cut(1, "W20", 990.0, 989.0, 10.0),))
    longer = reels._replace(boxes=(Box(1, 2000.0, 1010.0),))
    cut = [one for one in sections(replace(empty_bill(), bulk=(WALLS, reels, longer))) if one.title.startswith("Cut")]
    expected = [("boxes of 304.8 m (1000 ft) and 100 m", "box"), ("reels of 1 km", "reel"), ("reels of 2 km", "reel")]

    assert [(f"Cut from {source}: 6A, solid copper, both ends' waste included", word) for source, word in expected] == [
        (one.title, one.columns[0].name) for one in cut
    ]


def test_runs_that_no_box_counts_are_named() -> None:
    expected = [
        "Not counted, because not measured yet: W09.",
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
        ("largest packet (MTU)", "at least 9000 octets", ""),
        ("bonds to terminate", "1", ""),
        ("VLANs to tell apart", "20, 44", ""),
        ("spanning tree", "needed", ""),
        ("power", "at most 41.5 W", ""),
    ] == rows[2:]


def test_what_is_not_bought_is_named() -> None:
    bill = replace(empty_bill(), installed=("W01", "W02"), owned=("C07",))

    assert [("already installed", "W01 and W02"), ("already owned", "C07")] == rows_of(bill, "Not bought")


def test_every_cable_of_a_long_row_is_counted() -> None:
    item = CORD._replace(serves=tuple(f"C{number}" for number in range(1, 13)))
    row = rows_of(replace(empty_bill(), buy=(item,)), "To order")[0]

    assert row[-1].endswith("C8 and 4 more")


def test_a_section_without_anything_to_tell_is_left_out() -> None:
    assert () == sections(empty_bill())


def test_the_sections_stand_in_the_order_of_doing_it() -> None:
    expected = [
        "To order",
        "Cut from boxes of 304.8 m (1000 ft) and 100 m: 6A, solid copper, both ends' waste included",
        "Cut from boxes of 100 m: 7A, screened, solid copper, both ends' waste included",
        "Cut from boxes: 5e, solid copper, both ends' waste included",
        "Lengths worked out from racks and routes",
        "Not bought",
        f"{SPECIFICATION.device}: what to look for",
        "Ports left free",
        "To know before ordering",
    ]

    assert expected == [section.title for section in sections(full_bill())]


def test_every_row_has_a_text_for_each_column_and_numbers_stand_to_the_right() -> None:
    numbers = {
        column.name: column.number for section in sections(full_bill()) for column in section.columns if column.name
    }

    assert [] == [row for section in sections(full_bill()) for row in section.rows if len(row) != len(section.columns)]
    assert ["order", "needed", "spare", "price of one", "in all", "holds", "left", "length", "free", "of"] == [
        name for name, number in numbers.items() if number
    ]
