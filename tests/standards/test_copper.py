"""Twisted pair: reach, connections, cords and warmth, against second publications typed in by hand."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netaudit.model.vocabulary import COPPER_CATEGORIES
from netaudit.standards.copper import copper_reach, cord_rule, most_connections, warm_rule

GIGA = 1_000_000_000
TEN_GIGA = 10 * GIGA
BASE_T = ("10BASE-T", "100BASE-TX", "1000BASE-T", "2.5GBASE-T", "5GBASE-T", "10GBASE-T", "25GBASE-T", "40GBASE-T")


@pytest.mark.parametrize(
    ("phy", "category", "screened", "reach_m"),
    [
        # Ethernet Media Standards and Distances, University of Wisconsin-Madison, kb.wisc.edu/ns page 7829
        ("10BASE-T", "3", False, 100),
        ("100BASE-TX", "5", False, 100),
        ("1000BASE-T", "5", False, 100),
        ("10GBASE-T", "6", False, 55),
        ("10GBASE-T", "6", True, 100),
        ("10GBASE-T", "6A", False, 100),
        ("10GBASE-T", "7", True, 100),
        # Get to Know Category 8 Cabling, belden.com: 25GBASE-T and 40GBASE-T to 30 m
        ("25GBASE-T", "8.1", True, 30),
        ("40GBASE-T", "8.2", True, 30),
        # Large vendor summary of 802.3bz, EDOC1000060368: 2.5G over 5e, 5G over screened 5e and over 6, 100 m
        ("2.5GBASE-T", "5e", False, 100),
        ("5GBASE-T", "5e", True, 100),
        ("5GBASE-T", "6", False, 100),
    ],
)
def test_the_furthest_reach_over_twisted_pair(phy: str, category: str, screened: bool, reach_m: float) -> None:
    assert reach_m == copper_reach()[phy, category, screened].possible_m


@pytest.mark.parametrize(
    ("phy", "category"),
    [
        # intelek.eu, 10GBASE-T: not possible on category 5e
        ("10GBASE-T", "5e"),
        # IEEE 802.3ab as told by the same table of kb.wisc.edu: 1000BASE-T starts at category 5
        ("1000BASE-T", "3"),
        # cablinginstall.com, October 2015: over category 7 and 7A, 10GBASE-T is still the fastest
        ("25GBASE-T", "7A"),
        ("40GBASE-T", "7"),
    ],
)
def test_no_reach_where_the_category_is_not_specified(phy: str, category: str) -> None:
    assert (phy, category, True) not in copper_reach()


def test_10gbase_t_over_unscreened_category_6_is_assured_to_37_m() -> None:
    """TIA TSB-155-A in its publisher's summary: 37 m should operate, 37 m to 55 m may."""
    row = copper_reach()["10GBASE-T", "6", False]
    assert (row.assured_m, row.possible_m) == (37, 55)


@pytest.mark.parametrize("phy_and_category", [("5GBASE-T", "5e"), ("1000BASE-T", "5")])
def test_what_only_works_in_defined_cases_is_assured_at_no_length(phy_and_category: tuple[str, str]) -> None:
    """802.3bz objectives for 5G over class D; Gigabit Ethernet over Category 5 (1998) asks for TSB-95."""
    assert copper_reach()[*phy_and_category, False].assured_m is None


@pytest.mark.parametrize(("rate_g", "count"), [(1, 4), (10, 4), (25, 2), (40, 2)])
def test_the_most_connections_in_a_channel(rate_g: int, count: int) -> None:
    """Category 8 Questions Answered, cablinginstall.com: 100 m with four connectors, 30 m with two."""
    assert count == most_connections(rate_g * GIGA).count


@pytest.mark.parametrize("phy", BASE_T)
@pytest.mark.parametrize("screened", [False, True])
def test_a_better_category_reaches_no_less(phy: str, screened: bool) -> None:
    reaches = [copper_reach().get((phy, category, screened)) for category in COPPER_CATEGORIES]
    for lesser, better in pairwise(reaches):
        if lesser is not None:
            assert better is not None
            assert better.possible_m >= lesser.possible_m
            assert (better.assured_m or 0) >= (lesser.assured_m or 0)


def test_a_screen_takes_nothing_away() -> None:
    for (phy, category, screened), row in copper_reach().items():
        if not screened:
            with_screen = copper_reach()[phy, category, True]
            assert with_screen.possible_m >= row.possible_m
            assert (with_screen.assured_m or 0) >= (row.assured_m or 0)


@pytest.mark.parametrize("category", COPPER_CATEGORIES)
@pytest.mark.parametrize("screened", [False, True])
def test_a_higher_rate_reaches_no_further_over_twisted_pair(category: str, screened: bool) -> None:
    assured = [row.assured_m or 0 if (row := copper_reach().get((phy, category, screened))) else 0 for phy in BASE_T]
    assert assured == sorted(assured, reverse=True)


def test_connections_and_budgets_are_unknown_for_a_rate_without_a_layer_over_twisted_pair() -> None:
    with pytest.raises(KeyError):
        most_connections(50_000_000_000)
    with pytest.raises(KeyError):
        cord_rule("iso").budgets.__getitem__(50_000_000_000)


@pytest.mark.parametrize(
    ("fixed_m", "gauge_awg", "cords_m"),
    [
        # ANSI/TIA/EIA-568-B.1 clause 6.4.1.4 as quoted by cabling-design.com; 8 m at 26 AWG also belden.com (Kish 2014)
        (90.0, 24, 10.0),
        (90.0, 26, 8.0),
        (80.0, 24, 18.33),
        (70.0, 26, 21.33),
        # cablinginstall.com, June 2018: 10 m of 28 AWG with 82.5 m
        (82.5, 28, 10.0),
        # cablinginstall.com, 2017: about 6 m of 28 AWG with 90 m
        (90.0, 28, 6.15),
    ],
)
def test_tia_cords_fill_the_budget_exactly(fixed_m: float, gauge_awg: int, cords_m: float) -> None:
    rule = cord_rule("tia")
    assert rule.least_factor(gauge_awg) == rule.most_factor(gauge_awg)
    worth_m = fixed_m + rule.most_factor(gauge_awg) * cords_m
    assert rule.budgets[TEN_GIGA].value == pytest.approx(worth_m, abs=0.01)


@pytest.mark.parametrize("gauge_awg", [22, 23, 24, 26, 28, None])
def test_iso_counts_every_cord_at_one_and_a_half(gauge_awg: int | None) -> None:
    """Adriaenssens (IEEE 802.3an, March 2004): 90 m and 10 m of cords count as 105 m."""
    rule = cord_rule("iso")
    assert rule.least_factor(gauge_awg) == rule.most_factor(gauge_awg) == 1.5
    assert rule.budgets[TEN_GIGA].value == 90 + 10 * 1.5


def test_a_cord_of_unknown_gauge_lies_between_the_best_and_the_worst() -> None:
    rule = cord_rule("tia")
    assert (rule.least_factor(None), rule.most_factor(None)) == (1.2, 1.95)


def test_a_cord_thicker_than_the_table_rests_on_memory_and_the_others_do_not() -> None:
    rule = cord_rule("tia")
    assert rule.source_of(23).standing == "memory"
    assert rule.source_of(None) == rule.source
    assert all(rule.source_of(gauge).may_fail for gauge in (24, 26, 28))


@pytest.mark.parametrize("rate_bit_per_s", [25_000_000_000, 40_000_000_000])
def test_a_channel_of_30_m_has_a_budget_of_its_own(rate_bit_per_s: int) -> None:
    """Vaden, cablinginstall.com volume 24 issue 8: 24 m of cable and 6 m of cords."""
    assert cord_rule("tia").budgets[rate_bit_per_s].value == pytest.approx(24 + 6 * 1.2)
    assert cord_rule("iso").budgets[rate_bit_per_s].value == pytest.approx(24 + 6 * 1.5)


@pytest.mark.parametrize(
    ("screened", "lengths_m"),
    [
        # ISO/IEC 11801 edition 2.2 as printed by tsuko.co.jp, 20 to 60 °C in steps of 5
        (False, [90.0, 88.2, 86.4, 84.6, 82.8, 80.1, 77.4, 74.7, 72.0]),
        (True, [90.0, 89.1, 88.2, 87.3, 86.4, 85.5, 84.6, 83.7, 82.8]),
    ],
)
def test_iso_lengths_in_warm_air(screened: bool, lengths_m: list[float]) -> None:
    rule = warm_rule("iso", screened)
    assert [rule.allowed_fixed_m(air_c) for air_c in range(20, 61, 5)] == pytest.approx(lengths_m)


@pytest.mark.parametrize(
    ("air_c", "fixed_m"),
    [
        # the annex of ANSI/TIA-568 on temperature, as quoted in the trade press: 84 m at 40 °C
        (40, 84.0),
        # connectionsplus.ca, high temps and cable: 79.5 m at 50 °C
        (50, 79.5),
        (20, 90.0),
        # From memory of ANSI/TIA-568-B.2-1 annex G
        (60, 75.0),
    ],
)
def test_tia_lengths_in_warm_air(air_c: float, fixed_m: float) -> None:
    assert fixed_m == pytest.approx(warm_rule("tia", False).allowed_fixed_m(air_c))


@pytest.mark.parametrize("regime", ["iso", "tia"])
@pytest.mark.parametrize("screened", [False, True])
def test_no_length_is_known_in_hotter_air_than_the_rule_covers(regime: str, screened: bool) -> None:
    rule = warm_rule(regime, screened)
    assert rule.to_c == 60
    assert rule.allowed_fixed_m(60.1) is None
    assert rule.allowed_fixed_m(-10) == 90


def test_only_the_screened_tia_line_rests_on_memory() -> None:
    weak = [
        (regime, screened)
        for regime in ("iso", "tia")
        for screened in (False, True)
        if not warm_rule(regime, screened).source.may_fail
    ]
    assert weak == [("tia", True)]


@given(
    st.sampled_from(["iso", "tia"]),
    st.booleans(),
    st.floats(min_value=-20, max_value=60),
    st.floats(min_value=-20, max_value=60),
)
def test_warmer_air_never_allows_more(regime: str, screened: bool, one_c: float, other_c: float) -> None:
    cool_m, warm_m = (warm_rule(regime, screened).allowed_fixed_m(air_c) for air_c in sorted((one_c, other_c)))
    assert warm_m is not None
    assert cool_m is not None
    assert warm_m <= cool_m + 1e-9


@given(st.sampled_from(["iso", "tia"]), st.floats(min_value=20, max_value=60))
def test_a_screen_never_allows_less_in_warm_air(regime: str, air_c: float) -> None:
    unscreened_m, screened_m = (warm_rule(regime, screened).allowed_fixed_m(air_c) for screened in (False, True))
    assert unscreened_m is not None
    assert screened_m is not None
    assert screened_m >= unscreened_m


@pytest.mark.parametrize(
    ("screened", "lengths_m"),
    [
        # ISO/IEC 11801 edition 2.2 as printed by tsuko.co.jp, 20 to 60 °C in steps of 5
        (False, [90.0, 88.2, 86.4, 84.6, 82.8, 80.1, 77.4, 74.7, 72.0]),
        (True, [90.0, 89.1, 88.2, 87.3, 86.4, 85.5, 84.6, 83.7, 82.8]),
    ],
)
def test_the_warmest_air_for_a_length_reads_the_printed_table_the_other_way(
    screened: bool, lengths_m: list[float]
) -> None:
    rule = warm_rule("iso", screened)
    assert [rule.warmest_c(length_m) for length_m in lengths_m] == pytest.approx(range(20, 61, 5))


def test_a_length_that_is_good_in_any_warm_air_or_in_none_stops_at_the_ends_of_the_rule() -> None:
    rule = warm_rule("tia", False)
    assert (60, 20) == (rule.warmest_c(10), rule.warmest_c(90.01))


def test_the_best_gauge_is_one_whose_loss_is_firmly_known() -> None:
    """568-B.1 clause 6.4.1.4: 24 AWG loses a fifth more than solid cable; thicker cords are taken as such from memory."""
    assert 24 == cord_rule("tia").best_gauge_awg
    assert 28 == cord_rule("iso").best_gauge_awg
