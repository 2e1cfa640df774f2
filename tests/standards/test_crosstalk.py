"""Crosstalk terms and lines, as rows."""

from itertools import pairwise

import pytest

from netaudit.calculations.crosstalk import line_db
from netaudit.standards.crosstalk import LimitLine, crosstalk_terms, limit_lines


@pytest.mark.parametrize(
    ("quantity", "category", "cable_db", "connector_db"),
    [
        # Cable and connection at 100 MHz, blackbox.co.jp page 28492
        ("NEXT", "5e", 35.3, 43),
        ("ACR-F", "5e", 23.8, 35.1),
        ("NEXT", "6", 44.3, 54),
        ("ACR-F", "6", 27.8, 43.1),
    ],
)
def test_cable_and_connection_keep_apart_what_is_printed(
    quantity: str, category: str, cable_db: float, connector_db: float
) -> None:
    row = crosstalk_terms()[quantity, category]
    assert (cable_db, connector_db) == (row.cable_at_100_mhz_db, row.connector_at_100_mhz_db)


@pytest.mark.parametrize(
    ("quantity", "category", "cable_db"),
    # the same page: power sums of the cable
    [("PSNEXT", "5e", 32.3), ("PSACR-F", "5e", 20.8), ("PSNEXT", "6", 42.3), ("PSACR-F", "6", 24.8)],
)
def test_the_power_sum_of_the_cable_is_what_is_printed(quantity: str, category: str, cable_db: float) -> None:
    assert cable_db == crosstalk_terms()[quantity, category].cable_at_100_mhz_db


def pieces() -> list[tuple[LimitLine, LimitLine]]:
    key = ("quantity", "part", "regime", "category")
    return [
        (one, other)
        for one, other in pairwise(limit_lines())
        if all(getattr(one, name) == getattr(other, name) for name in key)
    ]


@pytest.mark.parametrize(("one", "other"), pieces())
def test_the_pieces_of_a_line_join(one: LimitLine, other: LimitLine) -> None:
    assert one.to_mhz == other.from_mhz
    assert line_db(one, one.to_mhz) == pytest.approx(line_db(other, other.from_mhz), abs=0.03)


def test_a_pair_keeps_more_from_one_other_than_from_all() -> None:
    for (quantity, category), row in crosstalk_terms().items():
        if not quantity.startswith("PS"):
            together = crosstalk_terms().get((f"PS{quantity}", category))
            assert together is None or together.cable_at_100_mhz_db < row.cable_at_100_mhz_db


def test_what_was_seen_nowhere_is_told_as_remembered() -> None:
    remembered = {(row.quantity, row.part, row.category) for row in limit_lines() if not row.source.may_fail}
    assert remembered == {
        ("PSNEXT", "channel", "6A"),
        ("NEXT", "link", "6A"),
        ("PSNEXT", "link", "6A"),
        ("return loss", "channel", "6A"),
    }
    assert {category for (_, category), row in crosstalk_terms().items() if not row.source.may_fail} == {"7", "7A"}
