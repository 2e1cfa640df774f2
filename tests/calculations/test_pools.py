"""Pools against the table of ZFS Storage Pool Layout (white paper, 2022, with its corrections of 2023)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netaudit.calculations.pools import pool_read_bit_per_s, pool_write_bit_per_s
from netaudit.model.plan import Layout, Pool

MEGABYTE = 8_000_000
"""One MB/s [bit/s]."""
TWELVE = Pool(drives=12, read_bit_per_s=100 * MEGABYTE, write_bit_per_s=100 * MEGABYTE, layout="stripe")
"""The white paper's example: 12 drives of 6 TB that stream 100 MB/s each."""
layouts = st.sampled_from(["stripe", "mirror", "single-parity", "double-parity", "triple-parity"])


@pytest.mark.parametrize(
    ("layout", "groups", "read", "write"),
    [
        ("stripe", 1, 1200, 1200),
        ("mirror", 1, 1200, 600),
        ("single-parity", 1, 1100, 1100),
        ("double-parity", 1, 1000, 1000),
        ("triple-parity", 1, 900, 900),
        ("double-parity", 2, 800, 800),
    ],
)
def test_twelve_drives_stream_what_the_white_paper_says(layout: Layout, groups: int, read: int, write: int) -> None:
    pool = TWELVE._replace(layout=layout, groups=groups)
    assert read * MEGABYTE == pool_read_bit_per_s(pool)
    assert write * MEGABYTE == pool_write_bit_per_s(pool)


def test_spares_only_wait() -> None:
    pool = TWELVE._replace(drives=13, layout="single-parity", spares=1)
    assert pool_read_bit_per_s(pool) == pool_read_bit_per_s(TWELVE._replace(layout="single-parity"))


def test_a_measured_rate_wins_over_the_drives() -> None:
    pool = TWELVE._replace(measured_read_bit_per_s=700 * MEGABYTE, measured_write_bit_per_s=300 * MEGABYTE)
    assert (pool_read_bit_per_s(pool), pool_write_bit_per_s(pool)) == (700 * MEGABYTE, 300 * MEGABYTE)


def test_a_measured_rate_is_enough_by_itself() -> None:
    pool = Pool(measured_read_bit_per_s=700 * MEGABYTE)
    assert pool_read_bit_per_s(pool) == 700 * MEGABYTE
    assert pool_write_bit_per_s(pool) is None


@pytest.mark.parametrize("missing", ["drives", "layout", "read_bit_per_s", "write_bit_per_s"])
def test_a_missing_fact_makes_the_rate_unknown_and_never_zero(missing: str) -> None:
    pool = TWELVE._replace(**{missing: None})
    assert (pool_read_bit_per_s(pool) is None) == (missing != "write_bit_per_s")
    assert (pool_write_bit_per_s(pool) is None) == (missing != "read_bit_per_s")


@pytest.mark.parametrize("drives", [0, 1, 2])
def test_fewer_drives_than_the_layout_needs_are_no_pool(drives: int) -> None:
    assert pool_read_bit_per_s(TWELVE._replace(drives=drives, layout="double-parity")) is None


@given(layouts, st.integers(min_value=8, max_value=200), st.integers(min_value=1, max_value=2), st.integers(0, 1))
def test_another_drive_never_slows_a_pool_and_writing_never_beats_reading(
    layout: Layout, drives: int, groups: int, spares: int
) -> None:
    pool = TWELVE._replace(layout=layout, drives=drives, groups=groups, spares=spares)
    read, write = pool_read_bit_per_s(pool), pool_write_bit_per_s(pool)
    more = pool_read_bit_per_s(pool._replace(drives=drives + 1))
    assert read is not None
    assert write is not None
    assert more is not None
    assert write <= read < more
