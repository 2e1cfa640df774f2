"""The printable page: complete, safe to open, and in agreement with the bill."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from bills import HOSTILE, empty_bill, full_bill
from pages import Element, shape, tree

from netaudit.model.bill import Bill
from netaudit.model.moving import Acceptance, Step
from netaudit.model.place import PortRef
from netaudit.report.bill.page.page import page
from netaudit.report.bill.words import sentence, standing

ELEMENTS = {
    "html", "head", "meta", "title", "style", "body", "header", "main", "nav", "section", "article", "div", "p", "a",
    "h1", "h2", "h3", "h4", "ul", "li", "table", "thead", "tbody", "tr", "th", "td", "span", "bdi", "wbr",
}  # fmt: skip
ATTRIBUTES = {
    "lang", "dir", "charset", "http-equiv", "content", "name", "aria-label", "aria-hidden", "href", "id", "class",
    "scope", "colspan", "style",
}  # fmt: skip
PARTS = ("order", "before", "cuts", "lengths", "choose", "free", "bench", "labels", "day", "ports", "accept", "cards")


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


def test_the_order_breaks_between_rows_and_only_what_is_cut_out_starts_a_page(full: Element) -> None:
    """CSS Fragmentation Level 3, 3.1: a forced break before an element."""
    style = full.one("style").text
    forced = re.findall(r"^\s*(.*) \{[^}]*break-before: page", style, re.M)

    assert ["#cards"] == forced


def test_on_a_narrow_screen_rows_of_the_order_are_no_wider_than_the_screen(full: Element) -> None:
    narrow = full.one("style").text.partition("@media screen and (max-width")[2].partition("@page")[0]

    assert ".order, .order tbody { display: block; min-width: 0; }" in narrow


def test_heads_are_repeated_and_rows_stay_whole_in_print(full: Element) -> None:
    """CSS Fragmentation Level 3, 3.2; CSS 2.2, 17.2: a table-header-group is repeated on every page."""
    style = full.one("style").text

    assert "tr { break-inside: avoid; }" in style
    assert "thead { display: table-header-group; }" in style
    assert "counter(page)" in style
