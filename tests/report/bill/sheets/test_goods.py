"""The sheet of what to order."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from bills import HOSTILE, empty_bill, full_bill

from netaudit.report.bill.sheets.goods import bill_sheet


def rows(what: str) -> list[dict[str, object]]:
    """The rows of one kind of goods in the full bill, by the names of their columns."""
    sheet = bill_sheet(full_bill())
    names = [column.name for column in sheet.columns]
    return [dict(zip(names, row, strict=True)) for row in sheet.rows if row[0] == what]


def test_a_cord_has_its_kind_its_numbers_its_price_and_its_cables() -> None:
    expected = {
        "what": "cord", "category": "6A", "screened": "no", "gauge": "26 AWG", "ends": "rj45 - rj45",
        "length [m]": 3.0, "quantity": 4, "spares": 1, "order": 5, "price": Decimal("7.20"), "currency": "EUR",
        "sum": Decimal("36.00"), "serves": "C01, C02, C03, C04",
    }  # fmt: skip

    assert expected == rows("cord")[0]


def test_unknown_length_price_and_screen_stay_empty() -> None:
    unmeasured, fibre = rows("cord")[2], rows("fibre cord 12 fibres")[0]

    assert [None, None, None, None] == [unmeasured[name] for name in ("length [m]", "price", "currency", "sum")]
    assert None is fibre["screened"]


def test_floating_point_does_not_show_in_lengths() -> None:
    assert 0.3 == rows("cord")[1]["length [m]"]


def test_boxes_of_one_size_and_price_are_one_row_without_spares() -> None:
    boxes = [row for row in rows("box") if row["category"] == "6A" and row["order"] is not None]
    expected = [(304.8, 2, 0, 2, Decimal("259.80")), (100.0, 1, 0, 1, Decimal(49))]

    assert expected == [
        tuple(row[key] for key in ("length [m]", "quantity", "spares", "order", "sum")) for row in boxes
    ]
    assert [f"W02, {HOSTILE[2]}, W03", "W04"] == [row["serves"] for row in boxes]


def test_boxes_that_nobody_can_count_yet_are_a_row_without_numbers() -> None:
    row = next(row for row in rows("box") if row["category"] == "5e")

    assert [None] * 4 == [row[key] for key in ("length [m]", "quantity", "spares", "order")]
    assert f"W11, {HOSTILE[8]}" == row["serves"]


def test_runs_that_no_box_counts_have_a_row_beside_the_boxes_of_their_kind() -> None:
    row = next(row for row in rows("box") if row["category"] == "6A" and row["order"] is None)

    assert [None] * 4 == [row[key] for key in ("length [m]", "quantity", "spares", "price")]
    assert "W09, W10" == row["serves"]


def test_a_row_of_runs_longer_than_any_box_names_them() -> None:
    bulk = full_bill().bulk[2]._replace(unmeasured=(), too_long=("W10",))
    sheet = bill_sheet(replace(empty_bill(), bulk=(bulk,)))

    assert "W10" == sheet.rows[0][-1]


def test_no_total_stands_among_the_rows() -> None:
    bill = full_bill()
    kinds_of_boxes, open_kinds = 3, 2
    expected = len(bill.buy) + kinds_of_boxes + open_kinds + len(bill.modules) + len(bill.parts)

    assert expected == len(bill_sheet(bill).rows)
