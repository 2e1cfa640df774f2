"""Costs and priorities of spanning trees."""

import pytest

from netaudit.standards.trees import default_priority, tree_cost, tree_costs

MEGA = 1_000_000


@pytest.mark.parametrize(
    ("rate_m", "cost"),
    [
        # spanning-tree cost, guide of a switch system, support.hpe.com/techhub/eginfolib/Aruba/OS-CX_10.04
        (10, 2_000_000),
        (100, 200_000),
        (1_000, 20_000),
        (2_000, 10_000),
        (10_000, 2_000),
        (100_000, 200),
        (1_000_000, 20),
    ],
)
def test_the_long_scale(rate_m: int, cost: int) -> None:
    assert cost == tree_cost(rate_m * MEGA, "long")


def test_every_cost_on_the_long_scale_is_20_tb_per_s_divided_by_the_rate() -> None:
    """IEEE 802.1D-2004; the formula 20,000,000 / speed stands in the MIB 1.3.6.1.4.1.2928.2.2.1.3.9.1.5,
    mib-explorer.com, with the speed in Mb/s."""
    assert {rate: 20_000_000 * MEGA // rate for rate in tree_costs()} == {
        rate: row.long.count for rate, row in tree_costs().items()
    }
    assert all(20_000_000 * MEGA % rate == 0 for rate in tree_costs())


@pytest.mark.parametrize(
    ("rate_m", "cost"),
    # IEEE 802.1D-1998 by notes.networklessons.com/stp-cost-short-mode
    [(10, 100), (100, 19), (1_000, 4), (2_000, 3), (10_000, 2)],
)
def test_the_short_scale(rate_m: int, cost: int) -> None:
    assert cost == tree_cost(rate_m * MEGA, "short")


@pytest.mark.parametrize("rate_m", [2_500, 5_000, 20_000, 25_000, 40_000, 50_000, 100_000, 1_000_000])
def test_the_short_scale_has_no_figure_for_rates_that_are_younger_than_it(rate_m: int) -> None:
    assert tree_cost(rate_m * MEGA, "short") is None
    assert tree_cost(rate_m * MEGA, "long") is not None


def test_a_rate_in_no_table_has_no_cost() -> None:
    assert tree_cost(300 * MEGA, "long") is None
    assert tree_cost(300 * MEGA, "short") is None


def test_a_bridge_that_nobody_set_has_the_middle_priority() -> None:
    """src/libnm-base/nm-base.h of NetworkManager at commit 355bc90."""
    assert 32768 == default_priority().count
