"""What the page says of the order."""

from __future__ import annotations

from dataclasses import replace

from bills import UNMEASURED_WALLS, WALLS, empty_bill, full_bill, port

from netaudit.report.bill.page.ends import Ends
from netaudit.report.bill.page.order import free_rows, missing_part, order_part, specification_parts


def test_boxes_of_one_size_at_one_price_are_one_row_and_serve_all_their_cuts() -> None:
    part = order_part(replace(empty_bill(), bulk=(WALLS,)))
    expected = [
        ("2", "129.90 EUR", "259.80 EUR", ("W02", "-1+1", "W03")),
        ("1", "49.00 EUR", "49.00 EUR", ("W04",)),
        ("open", "", "", ("W09", "W10")),
    ]

    assert expected == [(row.order, row.price, row.cost, row.serves) for row in part.groups[0].rows]


def test_boxes_for_runs_that_nobody_measured_are_open_and_never_none() -> None:
    part = order_part(replace(empty_bill(), bulk=(UNMEASURED_WALLS,)))

    assert ["open"] == [row.order for row in part.groups[0].rows]


def test_a_number_stays_on_one_line_with_its_unit() -> None:
    part = order_part(full_bill())

    assert "cord 6A, 26\u00a0AWG, rj45 - rj45, 3\u00a0m" == part.groups[0].rows[0].what


def test_without_a_price_the_page_has_no_column_for_prices() -> None:
    assert order_part(full_bill()).priced
    assert not order_part(replace(empty_bill(), buy=(full_bill().buy[1],))).priced


def test_a_cable_that_is_there_is_read_and_one_that_is_not_is_chosen() -> None:
    bill = replace(empty_bill(), identify=("W12", "C40"), installed=("W12",))

    assert [("W12", True), ("C40", False)] == [(row.cable, row.there) for row in missing_part(bill, {}).identify]


def test_what_is_missing_is_told_with_the_ends_of_its_cable_where_the_bill_knows_them() -> None:
    ends = Ends(port("loft-plate/4"), (port("bay-panel/4"),))
    part = missing_part(replace(empty_bill(), measure=("W09", "W10")), {"W09": ends})

    assert [ends, Ends(None, ())] == [row.ends for row in part.measure]


def test_a_cage_without_a_module_is_told_among_what_is_missing() -> None:
    assert full_bill().unnamed == missing_part(full_bill(), {}).unnamed


def test_a_free_port_of_unknown_rate_or_connector_says_so() -> None:
    assert [("rj45", "10 Gb/s (1250 MB/s)"), ("rj45", ""), ("not known", "")] == [
        row[3:] for row in free_rows(full_bill().free)
    ]


def test_what_to_look_for_in_a_switch_is_told_in_full() -> None:
    (part,) = specification_parts(full_bill().specifications)
    expected = [
        ("largest packet (MTU)", "at least 9000 octets"),
        ("bonds to terminate", "1"),
        ("VLANs to tell apart", "20, 44"),
        ("spanning tree", "needed"),
        ("power", "at most 41.5 W"),
    ]

    assert [(6, "rj45, 10 Gb/s (1250 MB/s)"), (1, "connector not known, rate not known")] == [
        need[:2] for need in part.needs
    ]
    assert expected == list(part.facts)


def test_what_a_switch_need_not_have_is_not_asked_for() -> None:
    (wanted,) = full_bill().specifications
    plain = wanted._replace(packet_octets=None, bonds=0, vlans=(), spanning_tree=False, watts=None)
    (part,) = specification_parts([plain])

    assert () == part.facts
