"""Filled acceptance sheets."""

from __future__ import annotations

import csv
from collections.abc import Callable
from dataclasses import replace
from io import StringIO

import pytest
from bills import HOSTILE, full_bill
from spoiled import spoiled

from netaudit.errors import InputError
from netaudit.model.moving import SeenRate
from netaudit.plan.sheets.acceptance import read_acceptance
from netaudit.report.bill.sheets.moving import accept_sheet
from netaudit.report.bill.table_csv import as_csv

Told = Callable[[Callable[[str], object], str | bytes], list[str]]
Written = Callable[[str | bytes], str]

SHEET = """\
cable,from,to,expected,where,seen,initials,note
C01,cut-1/wire,loft-plate/1,10 Gb/s,read at both,10G,MB,
C02,bay-panel/1,core/1,10 Gb/s,read at both,no link,MB,"loose,
and bent"
B01,core/13,"vault/a, vault/b",,,,,
"""


def test_a_filled_sheet_gives_a_row_for_each_cable(written: Written) -> None:
    expected = (
        SeenRate("C01", "cut-1/wire - loft-plate/1", 10_000_000_000, "MB", "", 2),
        SeenRate("C02", "bay-panel/1 - core/1", 0, "MB", "loose,\nand bent", 3),
        SeenRate("B01", "core/13 - vault/a, vault/b", None, "", "", 5),
    )

    assert expected == read_acceptance(written(SHEET))


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_our_own_sheet_filled_in_with_another_program_comes_back(separator: str, written: Written) -> None:
    rows = list(csv.DictReader(StringIO(as_csv(accept_sheet(full_bill())), newline="")))
    for row in rows:
        row.update(seen="1000M", initials="=MB", note="'fine'")
    text = StringIO(newline="")
    writer = csv.DictWriter(text, rows[0], delimiter=separator)
    writer.writeheader()
    writer.writerows(rows)
    found = read_acceptance(written(text.getvalue()))

    assert [(row.cable, str(row.from_port)) for row in full_bill().accept] == [
        (row.cable, row.ends.split(" - ")[0]) for row in found
    ]
    assert {(1_000_000_000, "=MB", "'fine'")} == {(row.seen_bit_per_s, row.initials, row.note) for row in found}


@pytest.mark.parametrize(
    ("seen", "expected"),
    [
        ("10G", 10_000_000_000),
        ("10 Gb/s", 10_000_000_000),
        ("1000M", 1_000_000_000),
        ("2.5G", 2_500_000_000),
        ("2,5 Gb/s", 2_500_000_000),
        ("1250 MB/s", 10_000_000_000),
        ("0", 0),
        ("0 Mb/s", 0),
        ("0.0", 0),
        ("No Link", 0),
        ("none", 0),
        ("DOWN", 0),
        ("no", 0),
        ("0 Mbps", 0),
        ("0/0 (Mbps)", 0),
        ("no carrier", 0),
        ("-", None),
        ("–", None),
        ("?", None),
        ("N/A", None),
        ("not tested", None),
        ("10 Gbps", 10_000_000_000),
        ("1,0 Gb/s", 1_000_000_000),
        ("2.5GBASE-T", 2_500_000_000),
        ("", None),
        ("  ", None),
    ],
)
def test_a_seen_rate_is_read_as_people_write_it(seen: str, expected: int | None, written: Written) -> None:
    # IEEE Std 802.3-2022, clauses 40, 126 and 55: the rates of 1000BASE-T, 2.5GBASE-T and 10GBASE-T.
    (row,) = read_acceptance(written(f"cable;seen\nC01;{seen}\n"))

    assert expected == row.seen_bit_per_s


@pytest.mark.parametrize(
    ("header", "seen", "expected"),
    [
        ("seen [Gb/s]", "10", 10_000_000_000),
        ("Seen (Mb/s)", "1000", 1_000_000_000),
        ("seen [Gb/s]", "2.5", 2_500_000_000),
        ("seen [Gb/s]", "100M", 100_000_000),
        ("seen [Gb/s]", "0", 0),
        ("seen [Gbps]", "10", 10_000_000_000),
        ("seen [Gb/s]", '"2,5"', 2_500_000_000),
    ],
)
def test_a_bare_number_has_the_unit_of_its_column(header: str, seen: str, expected: int, written: Written) -> None:
    (row,) = read_acceptance(written(f"cable,{header}\nC01,{seen}\n"))

    assert expected == row.seen_bit_per_s


@pytest.mark.parametrize(
    ("seen", "expected"),
    [
        ("10", "'10' has no unit: write 10G or 10 Gb/s, 10M or 10 Mb/s, or 10 MB/s"),
        ("1 GBps", "'1 GBps': 'GBps' is not how that unit is written: write 1 GB/s"),
        ("100baseT/Half", "'100baseT/Half' runs one way at a time: write the rate alone, and this into the note"),
        (
            "yes",
            "'yes' is not a rate: write a number and a unit, such as 10G, 183.5 Mb/s or 240 MB/s; "
            "write 'no link' where there is none, and nothing if not tested",
        ),
        (
            "-10G",
            "'-10G' is negative: a rate is 1 kb/s to 100 Tb/s; write 'no link' where there is none, "
            "and nothing if not tested",
        ),
        ("1,000 Mb/s", "'1,000 Mb/s' may be thousands or thousandths: write no mark, or two decimals"),
        ("1e9 b/s", "'1e9 b/s' is written with an exponent: write the number out, such as 10G, 183.5 Mb/s or 240 MB/s"),
    ],
)
def test_a_seen_rate_that_is_none_is_quoted(seen: str, expected: str, told: Told) -> None:
    assert [f"sheet.csv:2:5: seen: {expected}"] == told(read_acceptance, f"cable;seen\nC01;{seen}\n")


def test_a_decimal_comma_may_stand_in_quotes_where_commas_part_the_cells(written: Written) -> None:
    (row,) = read_acceptance(written('cable,seen\nC01,"1,0 Gb/s"\n'))

    assert 1_000_000_000 == row.seen_bit_per_s


@pytest.mark.parametrize("name", [name for name in HOSTILE if name == name.strip()])
def test_a_hostile_name_of_a_cable_comes_back_from_our_own_sheet_as_it_is(name: str, written: Written) -> None:
    (row, *_) = full_bill().accept
    bill = replace(full_bill(), accept=(row._replace(cable=name),))

    assert [name] == [row.cable for row in read_acceptance(written(as_csv(accept_sheet(bill))))]


def test_a_row_without_a_cable_is_refused(told: Told) -> None:
    assert ["sheet.csv:3:1: cable: a name is missing here: write 1 to 64 characters"] == told(
        read_acceptance, "cable,seen\nC01,10G\n,10G\n"
    )


def test_a_sheet_needs_cables_and_what_was_seen(told: Told) -> None:
    assert [
        "sheet.csv:1:1: no column is called 'cable', and the sheet needs it; is 'cables' meant for it?",
        "sheet.csv:1:1: no column is called 'seen', and the sheet needs it",
    ] == told(read_acceptance, "cables,note\nC01,fine\n")


def test_spoiled_sheets_are_read_or_refused_and_nothing_else(written: Written) -> None:
    refused = 0
    for text in spoiled(SHEET):
        try:
            read_acceptance(written(text.encode(errors="surrogateescape")))
        except InputError as error:
            refused += len(error.problems) > 0

    assert 50 < refused < 207
