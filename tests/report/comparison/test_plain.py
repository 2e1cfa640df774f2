"""Two bills side by side as plain text."""

from __future__ import annotations

from netaudit.model.comparison import Comparison
from netaudit.report.comparison.plain import plain


def test_the_answer_is_followed_by_each_difference_and_the_totals(comparison: Comparison) -> None:
    expected = """\
bigger.yaml needs 3 more cords and 1 box of cable less than small.yaml, and costs 41.20 EUR more.

Before: small.yaml. After: bigger.yaml.

What differs
  what, spares included               before  after  difference  price of one  costs
  cord 6A, 26 AWG, 3 m                4       8      4 more      7.20 EUR      28.80 EUR more
  cord 6A, 26 AWG, 0.3 m              2       1      1 less      9.10 EUR      9.10 EUR less
  box of cable 6A, 304.8 m (1000 ft)  2       1      1 less      129.00 EUR    129.00 EUR less

5 rows are the same in both.

In all
  before      after       costs
  300.00 EUR  341.20 EUR  41.20 EUR more
"""

    assert expected == plain(comparison)


def test_what_has_no_price_has_no_number_and_is_told(unpriced: Comparison) -> None:
    text = plain(unpriced)

    assert "  module 10GBASE-SR, lc               0       3      3 more                    no price\n" in text
    assert (
        "  These sums leave out what has no price: 1 row of small.yaml and 2 rows of big\\x1b[31m ger.yaml.\n"
    ) in text
    assert "  1.00 GBP    1.00 GBP    the same\n" in text
    assert text.endswith("\nWhat neither number counts\n  small.yaml: length not known: C09.\n")


def test_without_any_price_there_is_no_total(comparison: Comparison) -> None:
    text = plain(comparison._replace(totals=(), same=1))

    assert text.endswith("\n1 row is the same in both.\n\nNo prices were given, so there is no total.\n")


def test_two_plans_that_need_the_same_have_no_table(comparison: Comparison) -> None:
    assert "What differs" not in plain(comparison._replace(differences=()))


def test_no_line_trails_blanks_or_holds_what_a_terminal_would_obey(unpriced: Comparison) -> None:
    for line in plain(unpriced._replace(before="a\x07b.yaml", open=("a\x1b[2J\nb",))).splitlines():
        assert line == line.rstrip()
        assert line.isprintable()
