"""The sheets of moving day."""

from __future__ import annotations

from bills import HOSTILE, full_bill

from netaudit.report.bill.sheets.moving import accept_sheet, bench_sheet, moves_sheet


def test_moves_are_numbered_in_each_direction_and_leave_a_cell_to_tick() -> None:
    expected = [
        ("before", *[None] * 5, "Check that the backup of the storage can be read.", None),
        ("unplug", 1, "seats", "C06", "cut-1/wire", "core/1", None, None),
        ("plug", 1, "storage", "D01", "vault/fast", "core/9", None, None),
        ("plug", 2, "seats", HOSTILE[0], "cut-1/wire", "loft-plate/1, loft-plate/2", None, None),
        ("after", *[None] * 5, "Switch the switches on first, then the storage.", None),
    ]

    assert expected == list(moves_sheet(full_bill()).rows)


def test_a_cable_to_accept_has_its_rate_in_words_and_empty_cells_to_fill_in() -> None:
    sheet = accept_sheet(full_bill())
    expected = ("C01", "cut-1/wire", "loft-plate/1", "10 Gb/s (1250 MB/s)", "cut-1/wire and core/1", None, None, None)

    assert ["cable", "from", "to", "expected", "where", "seen", "initials", "note"] == [
        column.name for column in sheet.columns
    ]
    assert expected == sheet.rows[0]


def test_a_cable_without_an_expected_rate_has_none() -> None:
    assert ("B01", "core/13", "vault/a, vault/b", None, None, None, None, None) == accept_sheet(full_bill()).rows[1]


def test_a_cable_on_which_no_port_shows_a_rate_is_not_called_unknown() -> None:
    row = accept_sheet(full_bill()).rows[3]

    assert ("W09", "none", "see that both ends are there") == (row[0], row[3], row[4])


def test_a_bench_test_has_its_quantity() -> None:
    assert ("cord 6A, 26 AWG, 3 m", 5) == bench_sheet(full_bill()).rows[0][:2]
