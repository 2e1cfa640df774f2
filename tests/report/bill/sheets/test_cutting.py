"""The sheets of cuts and of lengths."""

from __future__ import annotations

from itertools import islice

from bills import HOSTILE, bills, full_bill
from hypothesis import given, settings

from netaudit.model.bill import Bill
from netaudit.report.bill.sheets.cutting import cuts_sheet, lengths_sheet


def test_what_is_left_goes_down_with_every_cut() -> None:
    expected = [
        (1, 304.8, "6A", "no", "W02", 40.0, 41.0, 263.8),
        (1, 304.8, "6A", "no", HOSTILE[2], 40.0, 41.0, 222.8),
        (2, 304.8, "6A", "no", "W03", 19.5, 20.5, 284.3),
        (3, 100.0, "6A", "no", "W04", 89.3, 90.3, 9.7),
        (None, None, "6A", "no", "W09", None, None, None),
        (None, None, "6A", "no", "W10", None, None, None),
        (1, 100.0, "7A", "yes", "S01", 59.0, 60.0, 40.0),
        (1, 100.0, "7A", "yes", "S02", 29.0, 30.0, 10.0),
        (None, None, "5e", "no", "W11", None, None, None),
        (None, None, "5e", "no", HOSTILE[8], None, None, None),
    ]

    assert expected == list(cuts_sheet(full_bill()).rows)


@given(bills())
@settings(max_examples=40, deadline=None)
def test_after_its_last_cut_a_box_holds_what_the_bill_says_is_left(bill: Bill) -> None:
    rows = iter(cuts_sheet(bill).rows)
    for bulk in bill.bulk:
        left = {}
        for _ in bulk.cuts:
            row = next(rows)
            left[row[0]] = row[-1]
        assert {box.number: round(box.left_m, 6) for box in bulk.boxes} == left
        assert list(bulk.uncounted) == [row[4] for row in islice(rows, len(bulk.uncounted))]
    assert [] == list(rows)


def test_lengths_say_how_they_came_about_or_what_somebody_has_to_do() -> None:
    rows = lengths_sheet(full_bill()).rows
    expected = [
        ("C05", 2.2, "worked out"), (HOSTILE[2], 40.0, "worked out"), ("C09", None, "to measure"),
        ("W09", None, "to measure"), ("W11", None, "to measure"), (HOSTILE[8], None, "to measure"),
        ("W12", None, "to identify"), ("W10", None, "longer than any box"),
    ]  # fmt: skip

    assert expected == [row[:3] for row in rows]
    assert "12 units of 44.45 mm, 0.53 m, and a loop of 1.67 m" == rows[0][3]
    assert all(row[3] for row in rows)
