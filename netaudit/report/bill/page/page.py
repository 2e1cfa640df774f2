"""The bill as one page to print and carry: self-contained, without a script, a font or an image from elsewhere."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from netaudit.model.bill import Bill
from netaudit.model.moving import BenchTest
from netaudit.report.bill.page.cuts import BulkPart, bulk_parts
from netaudit.report.bill.page.day import (
    CardPart,
    DayPart,
    ExpectedRow,
    LabelsPart,
    MapPart,
    card_parts,
    day_part,
    expected_rows,
    labels_part,
    map_part,
)
from netaudit.report.bill.page.ends import ends_of
from netaudit.report.bill.page.order import (
    MissingPart,
    OrderPart,
    SpecificationPart,
    free_rows,
    length_rows,
    missing_part,
    order_part,
    specification_parts,
)
from netaudit.report.bill.rendering import rendered
from netaudit.report.bill.words import sentence, standing

Rows = (
    OrderPart
    | MissingPart
    | DayPart
    | MapPart
    | LabelsPart
    | tuple[BulkPart | SpecificationPart | BenchTest | ExpectedRow | CardPart, ...]
    | tuple[tuple[str, str, str], ...]
    | tuple[tuple[str, int, int, str, str], ...]
    | None
)
"""What the template of a part lays out."""


class Part(NamedTuple):
    """A part of the page."""

    name: str
    """What its template and its place on the page are called."""
    title: str
    rows: Rows
    """Empty or None where it has nothing to tell."""


def page(bill: Bill) -> str:
    """The page, whole."""
    every = tuple(_parts(bill))
    values: dict[str, object] = {
        "plan": bill.plan,
        "file": bill.file,
        "answer": sentence(bill),
        "standing": tuple(standing(bill)),
        "parts": tuple(part for part in every if part.rows),
        "absent": tuple(part.title for part in every if not part.rows),
    }
    return rendered("page.html.j2", values)


def _parts(bill: Bill) -> Iterator[Part]:
    """Every part in the order in which people need it; one without rows has nothing to tell."""
    ends = ends_of(bill.accept)
    yield Part("order", "To order", order_part(bill))
    yield Part("before", "Before ordering", missing_part(bill, ends))
    yield Part("cuts", "Cut list", tuple(bulk_parts(bill.bulk, ends)))
    yield Part("lengths", "Lengths worked out", tuple(length_rows(bill.lengths)))
    yield Part("choose", "Switches to choose", tuple(specification_parts(bill.specifications)))
    yield Part("free", "Ports left free", tuple(free_rows(bill.free)))
    yield Part("bench", "Bench test on arrival", bill.bench)
    yield Part("labels", "Labels", labels_part(bill.labels))
    yield Part("day", "Moving day", day_part(bill))
    yield Part("ports", "Port map", map_part(bill.ports))
    yield Part("accept", "Acceptance sheet", tuple(expected_rows(bill.accept)))
    yield Part("cards", "Address cards", tuple(card_parts(bill.cards)))
