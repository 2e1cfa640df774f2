"""Answers about limits are values."""

import dataclasses

import pytest

from netaudit.citation import PLAN
from netaudit.model.limits import Column, LimitRow, LimitTable


def test_a_table_is_frozen_and_equal_to_its_like() -> None:
    table, other = (LimitTable("t", (Column("rate", "bit/s"),), (LimitRow((1,), PLAN),)) for _ in range(2))

    assert table == other
    assert 1 == len({table, other})
    with pytest.raises(dataclasses.FrozenInstanceError):
        table.title = "other"  # type: ignore[misc]
