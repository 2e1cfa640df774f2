"""The short main table against well-known lengths."""

import pytest

from netaudit.model.limits import Column
from netaudit.standards.overview import overview

GIGA = 1_000_000_000


@pytest.mark.parametrize(
    ("rate_g", "medium", "reach_m", "phy"),
    [
        # kb.wisc.edu/ns page 7829; TIA TSB-155-A; Ethernet Alliance (June 2012); SFF-8431
        (1, "category 5e", 100, "1000BASE-T"),
        (10, "category 6", 37, "10GBASE-T"),
        (10, "category 6A", 100, "10GBASE-T"),
        (10, "OM3", 300, "10GBASE-SR"),
        (10, "OM4", 400, "10GBASE-SR"),
        (10, "twinax", 7, "10GSFP+Cu"),
        (25, "category 8.1", 30, "25GBASE-T"),
        (40, "OM4", 150, "40GBASE-SR4"),
    ],
)
def test_a_rate_goes_as_far_as_published(rate_g: int, medium: str, reach_m: float, phy: str) -> None:
    assert (rate_g * GIGA, medium, reach_m, phy) in [row.cells for row in overview().rows]


def test_a_medium_that_adds_nothing_or_promises_nothing_is_left_out() -> None:
    places = {(row.cells[0], row.cells[1]) for row in overview().rows}
    assert (GIGA, "category 6") not in places
    assert (GIGA, "OM4") not in places
    assert (5 * GIGA, "category 5e") not in places
    assert (10 * GIGA, "category 5e") not in places


def test_rates_rise_and_each_row_has_a_source() -> None:
    rates = [row.cells[0] for row in overview().rows]
    assert rates == sorted(rates)
    assert all(row.source.document for row in overview().rows)
    assert (Column("rate", "bit/s"), Column("medium", None)) == overview().columns[:2]


def test_of_layers_that_reach_equally_far_the_common_one_is_named() -> None:
    """1000BASE-LX10 comes before the layers over a single fibre, which need unlike modules at the two ends."""
    assert (GIGA, "OS2", 10000, "1000BASE-LX10") in [row.cells for row in overview().rows]
