"""Names in a row, the many counted."""

from __future__ import annotations

import pytest

from netaudit.listing import either, first_few, listed


@pytest.mark.parametrize(
    ("names", "text"),
    [
        ([], ""),
        (["W01"], "W01"),
        (["W01", "C01"], "W01 and C01"),
        (["W01", "C01", "C02"], "W01, C01 and C02"),
        ([str(number) for number in range(8)], "0, 1, 2, 3, 4, 5, 6 and 7"),
        ([str(number) for number in range(9)], "0, 1, 2, 3, 4, 5, 6, 7 and 1 more"),
        ([str(number) for number in range(11)], "0, 1, 2, 3, 4, 5, 6, 7 and 3 more"),
    ],
)
def test_names_stand_in_a_row_and_the_many_are_counted(names: list[str], text: str) -> None:
    assert text == listed(names)
    assert text == listed(iter(names))


def test_of_several_things_one_may_be_enough() -> None:
    assert ["", "a", "a or b", "a, b or c"] == [either(names) for names in ("", "a", "ab", "abc")]
    assert "a, b, c, d, e, f, g, h and 1 more" == either("abcdefghi")


def test_a_few_names_are_parted_by_commas_alone() -> None:
    assert ["", "a", "a, b, c, d", "a, b, c, d and 1 more"] == [
        first_few(names) for names in ("", "a", "abcd", "abcde")
    ]
    assert "a, b and 3 more" == first_few("abcde", 2)


def test_things_are_written_as_they_write_themselves() -> None:
    assert ("1 and None", "1 or None", "1, None") == (listed([1, None]), either([1, None]), first_few([1, None]))
