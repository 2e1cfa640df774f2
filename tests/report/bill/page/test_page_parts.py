"""The parts of the printable page: each tells all that the bill has of it."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from bills import SEAT, bills, empty_bill, full_bill
from hypothesis import given, settings
from pages import Element, tree

from netaudit.model.bill import Bill, Cut
from netaudit.report.bill.page.page import page
from netaudit.report.goods_words import price_text, total_text


def test_order_has_every_row_with_its_cost_and_what_it_serves(full: Element) -> None:
    bill = full_bill()
    rows = full.part("order").rows()
    expected = [
        [
            f"{item.order}",
            f"{item.spares}",
            price_text(item.price) or "no price",
            price_text(item.cost),
            ", ".join(item.serves),
        ]
        for item in (*bill.buy, *bill.modules, *bill.parts)
    ]
    shown = [[row[1], row[2], *row[4:]] for row in rows]

    assert not [row for row in expected if row not in shown]
    assert len(expected) + 5 == len(rows)


@given(bills())
@settings(max_examples=25, deadline=None)
def test_total_is_that_of_the_bill_and_every_cost_stands_above_it(bill: Bill) -> None:
    order = tree(page(bill)).part("order")
    rows = order.rows()
    costs = Counter(price_text(item.cost) for item in (*bill.buy, *bill.modules, *bill.parts) if item.cost is not None)

    if rows:
        assert total_text(bill.totals, bill.unpriced, complete=bill.complete) == order.one("p", "total").text
    assert not costs - Counter(row[5] for row in rows if len(row) == 7)
    assert sum(total.rows for total in bill.totals) == sum(len(row) == 7 and bool(row[5]) for row in rows)


@given(bills())
@settings(max_examples=25, deadline=None)
def test_every_cable_appears_wherever_the_bill_has_it(bill: Bill) -> None:
    root = tree(page(bill))
    shown = {part.attributes["id"]: [row for row in part.rows() if len(row) > 1] for part in root.every("section")}

    assert [*bill.measure, *bill.identify, *map(str, bill.unnamed)] == [row[1] for row in shown["before"]]
    assert [cut.cable for cut in by_box(bill)] == [row[1] for row in shown.get("cuts", [])]
    assert [run.cable for run in bill.lengths] == [row[0] for row in shown.get("lengths", [])]
    assert [step.cable for step in bill.plug] == [row[2] for row in shown.get("day", [])]
    assert [row.cable for row in bill.accept] == [row[0] for row in shown.get("accept", [])]


def by_box(bill: Bill) -> list[Cut]:
    """All cuts, box by box as the bill has them."""
    return [cut for bulk in bill.bulk for box in bulk.boxes for cut in bulk.cuts if cut.box == box.number]


def test_cables_that_nobody_measured_and_those_too_long_for_a_box_are_named(full: Element) -> None:
    told = [line.text for line in full.part("cuts").every("p")]

    assert "Not counted, because not measured yet: W09." in told
    assert "Longer than any box that is sold, and cable in a wall is never joined: W10." in told


def test_what_is_done_before_the_move_is_ticked_off() -> None:
    steps = ("Finish every copy.", "Photograph both ends.")
    day = tree(page(replace(empty_bill(), before_moving=steps))).part("day")

    assert list(steps) == [line.text for line in day.one("ul", "todo").every("li")]


def test_what_is_done_behind_the_last_plug_stands_behind_the_steps(full: Element) -> None:
    heads = [head.text for head in full.part("day").every("h3")]
    before, after = full.part("day").every("ul", "todo")

    assert ["Before the first plug", "Unplug", "Plug", "When all is plugged"] == heads
    assert [full_bill().before_moving, full_bill().after_moving] == [
        tuple(line.text for line in each.every("li")) for each in (before, after)
    ]


def test_the_page_tells_where_the_labels_are(full: Element) -> None:
    (line,) = full.part("labels").every("p")

    assert line.text.startswith("29 labels for the ends of 28 cables have sheets of their own")
    assert "netaudit cables PLAN --format html --sheet labels --output labels.html" in [
        call.text for call in line.every("span", "call")
    ]


def test_a_row_that_shows_no_rate_says_none_and_what_to_do_and_never_that_it_is_not_known(full: Element) -> None:
    expected = [
        ["10 Gb/s (1250 MB/s)", "cut-1/wire and core/1"], ["not known", ""], ["1 Gb/s (125 MB/s)", "core/2 and vault/slow"],
        ["none", "see that both ends are there"],
    ]  # fmt: skip

    assert expected == [[row[2].replace("\u00a0", " "), row[3]] for row in full.part("accept").rows()]


def test_acceptance_sheet_leaves_room_to_write(full: Element) -> None:
    heads = [head.text for head in full.part("accept").one("thead").every("th")]

    assert ["seen", "initials"] == heads[-2:]
    assert [["", ""]] * len(full_bill().accept) == [row[-2:] for row in full.part("accept").rows()]


def test_a_card_tells_the_address_to_mount_and_the_one_never_to_use(full: Element) -> None:
    seat, storage = full.part("cards").every("article")

    assert ["10.44.20.10"] == [line.text for line in seat.every("p", "address")]
    assert ["never at 192.168.44.10"] == [line.text for line in seat.every("p", "never")]
    assert ["cut-1", "at 10.44.20.10"] == storage.rows()[0]


def test_a_card_tells_what_to_type_in_with_the_netmask_and_the_vlan(full: Element) -> None:
    seat, _ = full.part("cards").every("article")
    expected = [
        ["address", "10.44.20.11/24 netmask 255.255.255.0"], ["address", "fd00::11/64"], ["router", "leave it empty"],
        ["largest packet (MTU)", "9000 octets"],
    ]  # fmt: skip

    assert expected == seat.rows()[:4]
    assert ["VLAN", "30 tagged"] in seat.rows()


def test_what_to_mind_and_what_to_leave_alone_have_a_heading_each_only_where_there_is_something(full: Element) -> None:
    seat, storage = full.part("cards").every("article")
    heads = [
        [head.text for head in card.every("h4") if not head.text.startswith(("wire", "air", "fast"))]
        for card in (seat, storage)
    ]

    assert [["Mind", "Leave alone"], ["Mounted by"]] == heads
    assert [(SEAT.mind, SEAT.leave)] == [tuple(tuple(line.text for line in ul.every("li")) for ul in seat.every("ul"))]
