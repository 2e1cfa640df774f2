"""The printable page: complete, safe to open, and in agreement with the bill."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from bills import HOSTILE, SEAT, bills, empty_bill, full_bill
from hypothesis import given, settings
from pages import Element, shape, tree

from netaudit.model.bill import Bill
from netaudit.model.moving import Acceptance, Step
from netaudit.model.place import PortRef
from netaudit.report.bill.page.page import page
from netaudit.report.bill.words import sentence, standing
from netaudit.report.goods_words import price_text, total_text

ELEMENTS = {
    "html", "head", "meta", "title", "style", "body", "header", "main", "nav", "section", "article", "div", "p", "a",
    "h1", "h2", "h3", "h4", "ul", "li", "table", "thead", "tbody", "tr", "th", "td", "span", "bdi", "wbr",
}  # fmt: skip
ATTRIBUTES = {
    "lang", "dir", "charset", "http-equiv", "content", "name", "aria-label", "aria-hidden", "href", "id", "class",
    "scope", "colspan", "style",
}  # fmt: skip
PARTS = ("order", "before", "cuts", "lengths", "choose", "free", "bench", "labels", "day", "ports", "accept", "cards")
FULL = page(full_bill())


@pytest.fixture(scope="module")
def full() -> Element:
    return tree(FULL)


def named(name: str) -> Bill:
    """A bill with one name wherever a name may stand."""
    port = PortRef(name.replace("/", "|"), name)
    bill = full_bill()
    return replace(
        bill,
        file=name,
        plan=name,
        buy=(bill.buy[0]._replace(serves=(name,)),),
        bulk=(),
        measure=(name,),
        installed=(name,),
        plug=(Step(1, "seats", name, port, (port,)),),
        accept=(Acceptance(name, port, (port,), None, name),),
        ports=tuple(row._replace(port=port, cable=name, far=port, network=name) for row in bill.ports),
        cards=tuple(card._replace(device=name, leave=(name,)) for card in bill.cards),
        remarks=(name,),
    )


def test_the_page_speaks_english_and_has_one_first_heading(full: Element) -> None:
    html = full.one("html")

    assert ("en", "ltr") == (html.attributes["lang"], html.attributes["dir"])
    assert 'Boathouse "cutting" rooms & <attic>' == full.one("h1").text


def test_headings_never_leave_out_a_level(full: Element) -> None:
    levels = [int(each.tag[1]) for each in full.every() if re.fullmatch("h[1-6]", each.tag)]
    jumps = [(one, other) for one, other in pairwise(levels) if other > one + 1]

    assert 1 == levels[0]
    assert not jumps


def test_every_header_cell_says_what_it_heads(full: Element) -> None:
    scopes = Counter(cell.attributes.get("scope") for cell in full.every("th"))

    assert {"col", "row", "rowgroup"} == set(scopes)


def test_every_row_of_a_table_has_as_many_cells_as_its_head(full: Element) -> None:
    for table in full.every("table"):
        heads = [len(list(head.every("th"))) for head in table.every("thead")]
        rows = {
            sum(int(cell.attributes.get("colspan", 1)) for cell in row.every() if cell.tag in ("th", "td"))
            for body in table.every("tbody")
            for row in body.every("tr")
        }
        assert len(rows) == 1
        assert not heads or set(heads) == rows


def test_the_answer_stands_first_and_is_the_one_of_all_forms(full: Element) -> None:
    bill = full_bill()
    lines = [line.text for line in full.one("header").every("p", "standing")]

    assert sentence(bill) == full.one("p", "answer").text
    assert list(standing(bill)) == lines


def test_every_part_is_in_the_contents_and_the_contents_lead_to_it(full: Element) -> None:
    links = [(link.attributes["href"], link.text) for link in full.one("nav").every("a")]
    sections = [(f"#{part.attributes['id']}", part.one("h2").text) for part in full.every("section")]

    assert list(PARTS) == [part.attributes["id"] for part in full.every("section")]
    assert sections == links


def test_a_bill_without_anything_still_gives_its_answer() -> None:
    empty = tree(page(empty_bill()))

    assert ["order", "before"] == [part.attributes["id"] for part in empty.every("section")]
    assert sentence(empty_bill()) == empty.one("p", "answer").text
    assert "Nothing has to be measured or identified." in empty.part("before").text
    assert "cut list" in empty.one("p", "absent").text


def test_nothing_is_fetched_from_anywhere(full: Element) -> None:
    """Content Security Policy Level 3, 6.1: what `default-src 'none'` does not allow is not loaded."""
    policies = [each.attributes["content"] for each in full.every("meta") if "http-equiv" in each.attributes]
    style = full.one("style").text

    assert ["default-src 'none'; style-src 'unsafe-inline'"] == policies
    assert {"#"} == {link.attributes["href"][0] for link in full.every("a")}
    assert not re.search(r"url\(|@import|@font-face|https?:", style)


def test_page_uses_only_the_elements_and_attributes_that_it_is_made_of(full: Element) -> None:
    used = shape(full)

    assert ELEMENTS == {tag for tag, _ in used}
    assert ATTRIBUTES == {name for _, names in used for name in names}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_name_makes_no_element_and_no_attribute_and_is_shown_as_it_is(name: str) -> None:
    shown, plain = tree(page(named(name))), tree(page(named("harmless")))

    assert shape(plain) == shape(shown)
    assert name == shown.one("h1").text
    for part in ("order", "before", "day", "ports", "accept", "cards"):
        assert name in [each.text for each in shown.part(part).every("bdi")]


def test_names_from_right_to_left_do_not_turn_what_stands_beside_them() -> None:
    """HTML Living Standard, 4.5.24: a bdi element is isolated from the text around it."""
    name = "שלום"
    accept = tree(page(named(name))).part("accept")
    around = {each.tag for each in accept.every() for part in each.inside if isinstance(part, str) and name in part}
    where = {row[3] for row in accept.rows()}

    assert {"bdi", "td"} == around
    assert {name} == where


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


def by_box(bill: Bill) -> list:
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


def test_the_order_breaks_between_rows_and_only_what_is_cut_out_starts_a_page() -> None:
    """CSS Fragmentation Level 3, 3.1: a forced break before an element."""
    style = tree(FULL).one("style").text
    forced = re.findall(r"^\s*(.*) \{[^}]*break-before: page", style, re.M)

    assert ["#cards"] == forced


def test_on_a_narrow_screen_rows_of_the_order_are_no_wider_than_the_screen() -> None:
    narrow = tree(FULL).one("style").text.partition("@media screen and (max-width")[2].partition("@page")[0]

    assert ".order, .order tbody { display: block; min-width: 0; }" in narrow


def test_heads_are_repeated_and_rows_stay_whole_in_print() -> None:
    """CSS Fragmentation Level 3, 3.2; CSS 2.2, 17.2: a table-header-group is repeated on every page."""
    assert "tr { break-inside: avoid; }" in FULL
    assert "thead { display: table-header-group; }" in FULL
    assert "counter(page)" in FULL
