"""The rules that rows carry: cords and warmth, against the tables that cabling handbooks print."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netaudit.standards.copper import cord_rule, warm_rule

TEN_GIGA = 10_000_000_000


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
