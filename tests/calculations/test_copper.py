"""Twisted pair against the published limits: length, cords, warmth, connections, and what is left open.

Vectors, unless a test names its own: ANSI/TIA/EIA-568-B.1 6.4.1.4, C = (102 - H) / (1 + D) with D 0.2 for 24 AWG and
0.5 for 26 AWG, as given by cabling-design.com/helpdesk/answers/1225.shtml; ANSI/TIA-568.2-D, 28 AWG cords, as given by
cablinginstall.com/standards/article/16482353; ISO/IEC 11801 edition 2.2, temperature, as given by
tsuko.co.jp/lan_sekkei06.html; ANSI/TIA-568-B.2-1 annex G, as given by
connectionsplus.ca/features/high-temps-and-cable; TIA TSB-155-A, as given by
blog.siemon.com/standards/tsb-155-a-guidelines.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from wiring import G

from netaudit.calculations.copper import (
    base_t_rates,
    copper_promise,
    enough_category,
    possible_categories,
    possible_reaches,
    reach,
    room_left_m,
)
from netaudit.calculations.copper_run import CopperRun, Cord, loss_bounds_m, loss_equivalent_m
from netaudit.calculations.promise import Answer
from netaudit.model.plan import COPPER_CATEGORIES, Regime
from netaudit.standards.copper import cord_rule

TEN = 10 * G
FIVE = 5 * G
TWO_AND_A_HALF = 2_500_000_000
ORDER: dict[Answer, int] = {"no": 0, "undecided": 1, "yes": 2}
PUBLISHED_GAUGES = (24, 26, 28)
"""Gauges whose factor is published under both rules; thicker ones count as 24 AWG from memory only [AWG]."""


PLAIN = CopperRun(
    lowest_category="6A",
    category_known=True,
    screened=False,
    fixed_m=0.0,
    cords=(),
    length_known=True,
    connections=2,
    ambient_c=20.0,
    clad=False,
)


def run(fixed_m: float = 0.0, *cords: tuple[float, int | None], **facts: Any) -> CopperRun:
    """A run of unscreened 6A with two connections in cool air, unless that is what matters."""
    category = {"lowest_category": facts.pop("category")} if "category" in facts else {}
    return replace(PLAIN, fixed_m=fixed_m, cords=tuple(Cord(*cord) for cord in cords), **category, **facts)


def answer(channel: CopperRun, rate_bit_per_s: int = TEN, regime: Regime = "iso") -> tuple[Answer, str]:
    promise = copper_promise(channel, rate_bit_per_s, regime)
    return promise.answer, promise.why


# Length


@pytest.mark.parametrize(
    ("category", "screened", "length_m", "expected"),
    [
        ("6", False, 37.0, ("yes", "length")),
        ("6", False, 37.01, ("no", "reach")),
        ("6", False, 55.0, ("no", "reach")),
        ("6", False, 55.01, ("no", "length")),
        ("6", True, 55.0, ("yes", "length")),
        ("6", True, 55.01, ("no", "reach")),
        ("6", True, 100.0, ("no", "reach")),
        ("6", True, 100.01, ("no", "length")),
        ("6A", False, 100.0, ("yes", "length")),
        ("6A", False, 100.01, ("no", "length")),
        ("5e", False, 1.0, ("no", "category")),
    ],
)
def test_ten_gigabits_over_category_6_keep_37_m_unscreened_and_55_m_screened(
    category: str, screened: bool, length_m: float, expected: tuple[Answer, str]
) -> None:
    assert answer(run(length_m, category=category, screened=screened)) == expected


@pytest.mark.parametrize(
    ("rate", "category", "expected"),
    [
        (TWO_AND_A_HALF, "5e", "yes"),
        (FIVE, "6", "yes"),
        (FIVE, "5e", "no"),
        (G, "5e", "yes"),
        (G, "5", "no"),
        (100_000_000, "5", "yes"),
        (10_000_000, "3", "yes"),
        (100_000_000, "3", "no"),
        (25 * G, "7A", "no"),
    ],
)
def test_a_hundred_metres_carry_what_the_category_is_published_for(rate: int, category: str, expected: str) -> None:
    """IEEE 802.3bz objectives (DiMinico, July 2015) and IEEE 802.3 for the older rates."""
    assert answer(run(90.0, (10.0, 24), category=category), rate)[0] == expected


def test_the_limits_of_category_6_at_ten_gigabits_are_plain_length_whatever_the_cords() -> None:
    assert answer(run(27.0, (10.0, 28), category="6"), regime="tia") == ("yes", "length")
    assert loss_equivalent_m(run(27.0, (10.0, 28)), "tia") == pytest.approx(46.5)


@pytest.mark.parametrize(
    ("rate", "category", "length_m", "limit_m"),
    [(TEN, "6A", 90.0, 100.0), (TEN, "6", 37.0, 37.0), (TEN, "6", 50.0, 37.0), (FIVE, "5e", 3.0, 0.0)],
)
def test_an_answer_names_what_is_assured(rate: int, category: str, length_m: float, limit_m: float) -> None:
    limit = copper_promise(run(length_m, category=category), rate, "iso").limit
    assert limit == (limit_m, "m")


def test_a_rate_that_no_twisted_pair_carries_is_refused() -> None:
    assert answer(run(10.0, category="8.2"), 1_200_000_000) == ("no", "category")


def test_lengths_that_differ_by_rounding_alone_are_equal() -> None:
    assert 0.1 + 32.2 + 4.7 > 37.0
    assert answer(run(0.1 + 32.2, (4.7, 24), category="6")) == ("yes", "length")


# Connections


@pytest.mark.parametrize(
    ("rate", "category", "connections", "expected"),
    [
        (TEN, "6A", 4, "yes"),
        (TEN, "6A", 5, "no"),
        (40 * G, "8.1", 2, "yes"),
        (40 * G, "8.1", 3, "no"),
        (25 * G, "8.2", 3, "no"),
    ],
)
def test_a_channel_has_at_most_four_connections_and_one_of_category_8_two(
    rate: int, category: str, connections: int, expected: Answer
) -> None:
    """Category 8 Questions Answered, cablinginstall.com (October 2015); ANSI/TIA-568-C.2-1, volume 24 issue 8."""
    promise = copper_promise(run(20.0, category=category, connections=connections), rate, "iso")
    assert promise.answer == expected
    if expected == "no":
        assert promise.why == "connections"
        assert promise.limit is not None
        assert promise.limit.value == connections - 1


@pytest.mark.parametrize("regime", ["iso", "tia"])
@pytest.mark.parametrize("rate", [25 * G, 40 * G])
def test_category_8_reaches_thirty_metres_of_which_six_are_cords(rate: int, regime: Regime) -> None:
    """Inside the specifications of the new Category 8 cabling standard, cablinginstall.com volume 24 issue 8."""
    assert answer(run(24.0, (6.0, 24), category="8.1"), rate, regime) == ("yes", "length")
    assert answer(run(24.01, (6.0, 24), category="8.1"), rate, regime) == ("no", "length")
    assert answer(run(20.0, (10.0, 26), category="8.2"), rate, regime) == ("no", "cords")


def test_a_refused_category_8_run_names_the_budget_of_its_own_rate() -> None:
    refused = copper_promise(run(20.0, (10.0, 26), category="8.1"), 40 * G, "tia")
    assert refused.limit is not None
    assert refused.limit.value == pytest.approx(31.2)
    assert refused.source is not None
    assert "C.2-1" in refused.source.document


# Cords


def longest_cord_m(fixed_m: float, gauge_awg: int, regime: Regime) -> float:
    """The longest cord that is still promised beside so much solid cable, found by halving [m]."""
    good_m, bad_m = 0.0, 200.0
    while bad_m - good_m > 1e-7:
        middle_m = (good_m + bad_m) / 2
        kept = answer(run(fixed_m, (middle_m, gauge_awg)), G, regime)[0] == "yes"
        good_m, bad_m = (middle_m, bad_m) if kept else (good_m, middle_m)
    return good_m


@pytest.mark.parametrize(
    ("fixed_m", "gauge_awg", "cords_m"),
    [(90.0, 24, 10.0), (90.0, 26, 8.0), (82.5, 28, 10.0), (70.0, 26, 32 / 1.5), (60.0, 24, 35.0), (70.0, 24, 32 / 1.2)],
)
def test_tia_allows_as_much_cord_as_its_formula(fixed_m: float, gauge_awg: int, cords_m: float) -> None:
    assert longest_cord_m(fixed_m, gauge_awg, "tia") == pytest.approx(cords_m, abs=1e-5)


@pytest.mark.parametrize("gauge_awg", [22, 23, 24, 26, 28])
def test_iso_counts_cords_of_any_gauge_by_half_as_much_again_up_to_105_m(gauge_awg: int) -> None:
    """Adriaenssens, A closer look at channel insertion loss (IEEE 802.3an task force, March 2004)."""
    assert longest_cord_m(90.0, gauge_awg, "iso") == pytest.approx(10.0, abs=1e-5)
    assert longest_cord_m(75.0, gauge_awg, "iso") == pytest.approx(20.0, abs=1e-5)


def test_the_two_rules_part_over_85_m_with_12_m_of_thin_cord() -> None:
    channel = run(85.0, (7.0, 26), (5.0, 26))
    assert answer(channel, TEN, "tia") == ("no", "cords")
    assert answer(channel, TEN, "iso") == ("yes", "length")
    assert loss_equivalent_m(channel, "iso") == pytest.approx(103.0)


def test_a_lone_ready_made_cord_is_judged_by_the_same_loss() -> None:
    assert answer(run(0.0, (70.0, 26)), TEN, "iso") == ("yes", "length")
    assert answer(run(0.0, (70.1, 26)), TEN, "iso") == ("no", "cords")
    assert answer(run(0.0, (85.0, 24)), TEN, "tia") == ("yes", "length")
    assert answer(run(0.0, (85.1, 24)), TEN, "tia") == ("no", "cords")


def test_cords_of_unknown_gauge_are_judged_by_the_best_and_the_worst() -> None:
    assert answer(run(90.0, (6.0, None)), TEN, "tia") == ("yes", "length")
    assert answer(run(90.0, (8.0, None)), TEN, "tia") == ("undecided", "cords")
    assert answer(run(80.0, (19.0, None)), TEN, "tia") == ("no", "cords")
    assert answer(run(90.0, (8.0, None)), TEN, "iso") == ("yes", "length")
    assert loss_bounds_m(run(90.0, (8.0, None)), "tia") == (pytest.approx(99.6), pytest.approx(105.6))
    assert loss_equivalent_m(run(90.0, (8.0, None)), "tia") is None
    assert loss_equivalent_m(run(90.0, (8.0, None)), "iso") == pytest.approx(102.0)
    assert loss_equivalent_m(run(90.0, (8.0, 26), length_known=False), "iso") is None


def test_cords_of_a_gauge_whose_loss_is_only_remembered_leave_a_refusal_open() -> None:
    doubt = copper_promise(run(80.0, (20.0, 22)), TEN, "tia")
    assert (doubt.answer, doubt.why) == ("undecided", "cords")
    assert doubt.source is not None
    assert not doubt.source.may_fail
    unread = copper_promise(run(90.0, (8.0, None)), TEN, "tia").source
    assert unread is not None
    assert unread.may_fail
    assert answer(run(80.0, (20.0, 24)), TEN, "tia") == ("no", "cords")


def test_a_doubtful_cord_that_takes_what_is_just_kept_without_it_leaves_it_open() -> None:
    """568-B.1 clause 6.4.1.4: 84 + 1.2 x 15 = 102 m."""
    assert answer(run(84.0, (15.0, 24)), TEN, "tia") == ("yes", "length")
    doubt = copper_promise(run(84.0, (15.0, 24), (0.5, 22)), TEN, "tia")
    assert (doubt.answer, doubt.why) == ("undecided", "cords")


def test_a_doubtful_cord_does_not_soften_a_refusal_that_stands_without_it() -> None:
    assert answer(run(85.0, (12.0, 26), (0.5, 22)), TEN, "tia") == ("no", "cords")


# Warmth


@pytest.mark.parametrize(
    ("regime", "screened", "ambient_c", "allowed_m"),
    [
        ("iso", False, 20.0, None),
        ("iso", False, 40.0, 82.8),
        ("iso", False, 60.0, 72.0),
        ("iso", True, 60.0, 82.8),
        ("tia", False, 40.0, 84.0),
        ("tia", False, 50.0, 79.5),
    ],
)
def test_warm_air_shortens_the_solid_cable(
    regime: Regime, screened: bool, ambient_c: float, allowed_m: float | None
) -> None:
    channel = run(allowed_m or 90.0, (2.0, 24), screened=screened, ambient_c=ambient_c)
    assert answer(channel, TEN, regime) == ("yes", "length")
    if allowed_m is not None:
        refused = copper_promise(replace(channel, fixed_m=allowed_m + 0.01), TEN, regime)
        assert (refused.answer, refused.why) == ("no", "warmth")
        assert refused.limit is not None
        assert refused.limit.value == pytest.approx(allowed_m)


def test_84_m_at_40_degrees_are_refused_by_iso_and_kept_by_tia() -> None:
    channel = run(84.0, (3.0, 24), ambient_c=40.0)
    assert answer(channel, TEN, "iso") == ("no", "warmth")
    assert answer(channel, TEN, "tia") == ("yes", "length")


@pytest.mark.parametrize("ambient_c", [-10.0, 0.0, 20.0])
def test_air_up_to_twenty_degrees_takes_nothing_away(ambient_c: float) -> None:
    assert answer(run(95.0, (3.0, 24), ambient_c=ambient_c)) == ("yes", "length")


def test_air_that_no_rule_covers_leaves_it_open() -> None:
    assert answer(run(10.0, ambient_c=60.1)) == ("undecided", "warmth")
    assert answer(run(101.0, ambient_c=60.1)) == ("no", "length")


def test_the_remembered_line_for_screened_cable_refuses_nothing() -> None:
    assert answer(run(89.0, screened=True, ambient_c=60.0), TEN, "tia") == ("undecided", "warmth")


@pytest.mark.parametrize(("regime", "screened", "ambient_c", "allowed_m"), [
    ("iso", False, 40.0, 22.08), ("iso", False, 60.0, 19.2), ("iso", True, 60.0, 22.08),
    ("tia", False, 40.0, 22.4), ("tia", False, 50.0, 21.2),
])  # fmt: skip
@pytest.mark.parametrize("rate", [25 * G, 40 * G])
def test_the_solid_cable_of_a_channel_of_30_m_shrinks_in_proportion(
    rate: int, regime: Regime, screened: bool, ambient_c: float, allowed_m: float
) -> None:
    """24 m of 30 m (ISO/IEC 11801-1, classes I and II) are to 90 m of 100 m as the warm lengths are to each other."""
    channel = run(allowed_m, (2.0, 24), category="8.1", screened=screened, ambient_c=ambient_c)
    assert answer(channel, rate, regime) == ("yes", "length")
    longer = replace(channel, fixed_m=allowed_m + 0.01)
    refused = copper_promise(longer, rate, regime)
    assert (refused.answer, refused.why) == ("no", "warmth")
    assert refused.limit is not None
    assert refused.limit.value == pytest.approx(allowed_m)
    assert answer(longer, TEN, regime) == ("yes", "length")


# Material


@pytest.mark.parametrize("rate", base_t_rates())
def test_clad_aluminium_is_refused_every_rate_whatever_else_is_unknown(rate: int) -> None:
    """ANSI/TIA-568-C.2 section 5.3 asks for solid copper, as given by copper.org (4 March 2011)."""
    for channel in (run(1.0), run(1.0, length_known=False, category=None, category_known=False)):
        refused = copper_promise(replace(channel, clad=True), rate, "iso")
        assert (refused.answer, refused.limit, refused.why) == ("no", None, "material")
        assert refused.source is not None
        assert refused.source.may_fail


# Unknown facts, by example


@pytest.mark.parametrize("ambient_c", [20.0, 60.0])
def test_an_unknown_piece_between_90_m_and_12_m_is_too_long_whatever_it_is(ambient_c: float) -> None:
    channel = run(90.0, (12.0, 24), length_known=False, ambient_c=ambient_c)
    assert answer(channel) == ("no", "length")
    assert answer(replace(channel, category_known=False))[0] == "no"


def test_an_unknown_length_leaves_a_run_open_that_is_good_so_far() -> None:
    assert answer(run(40.0, length_known=False)) == ("undecided", "length")
    assert answer(run(40.0, length_known=False, category="6")) == ("no", "reach")


def test_an_unknown_category_is_judged_over_all_that_it_may_be() -> None:
    unknown = run(20.0, category=None, category_known=False)
    assert answer(unknown) == ("undecided", "category")
    assert answer(unknown, 10_000_000)[0] == "yes"
    assert answer(replace(unknown, fixed_m=101.0))[0] == "no"
    assert answer(run(20.0, category="5e", category_known=False)) == ("no", "category")
    assert answer(run(20.0, category="5e", category_known=False), G) == ("undecided", "category")


def test_an_unknown_category_may_be_any_up_to_the_lowest_known() -> None:
    assert possible_categories(run(category="6")) == ("6",)
    assert possible_categories(run(category="6", category_known=False)) == ("3", "5", "5e", "6")
    assert possible_categories(run(category=None, category_known=False)) == COPPER_CATEGORIES


# Reach


def test_the_rates_of_twisted_pair_run_from_40_gigabits_down_to_10_megabits() -> None:
    """IEEE 802.3 clauses 14, 25, 40, 55, 113 and 126."""
    assert base_t_rates() == (40 * G, 25 * G, TEN, FIVE, TWO_AND_A_HALF, G, 100_000_000, 10_000_000)


def test_a_category_that_is_not_specified_for_a_rate_counts_for_the_next_rate_down() -> None:
    rows = possible_reaches(run(category="5e", category_known=False), [TEN])
    assert [(row.phy, row.category) for row in rows] == [("10BASE-T", "3"), ("1000BASE-T", "5"), ("5GBASE-T", "5e")]
    assert [row.phy for row in possible_reaches(run(), [TEN, G])] == ["10GBASE-T", "1000BASE-T"]
    assert reach(TEN, "5e", screened=False) is None
    assert possible_reaches(run(), []) == ()


@pytest.mark.parametrize(
    ("length_m", "screened", "expected"),
    [(37.0, False, "6"), (37.1, False, "6A"), (55.0, True, "6"), (55.1, True, "6A"), (100.0, False, "6A")],
)
def test_the_category_that_is_enough_is_the_lowest_that_is_promised(
    length_m: float, screened: bool, expected: str
) -> None:
    row = enough_category(run(length_m, category="5e", screened=screened), TEN)
    assert row is not None
    assert row.category == expected


def test_no_category_is_enough_past_a_hundred_metres() -> None:
    assert enough_category(run(100.1), G) is None
    assert enough_category(run(30.1), 40 * G) is None
    assert enough_category(run(1.0), 1_200_000_000) is None


def test_the_length_of_a_run_is_unknown_as_soon_as_that_of_a_part_is() -> None:
    channel = run(30.0, (2.0, 24), (1.0, None))
    assert channel.length_m == pytest.approx(33.0)
    assert replace(channel, length_known=False).length_m is None
    assert replace(channel, length_known=False).least_m == pytest.approx(33.0)


# Properties

LENGTHS_M = st.sampled_from([0.0, 0.5, 3.0, 5.0, 9.0, 10.0, 12.0, 20.0, 24.0, 30.0, 33.0, 37.0, 45.0, 55.0, 72.0]) | (
    st.floats(0, 120, allow_nan=False).map(lambda length_m: round(length_m, 2))
)
SOLID_M = LENGTHS_M | st.sampled_from([80.0, 82.8, 84.0, 85.0, 90.0, 95.0, 100.0])
CORDS = st.builds(Cord, LENGTHS_M, st.sampled_from([22, 24, 26, 28, None]))
RUNS = st.builds(
    CopperRun,
    lowest_category=st.sampled_from(COPPER_CATEGORIES),
    category_known=st.just(True),
    screened=st.booleans(),
    fixed_m=SOLID_M,
    cords=st.lists(CORDS, max_size=3).map(tuple),
    length_known=st.booleans(),
    connections=st.integers(0, 5),
    ambient_c=st.sampled_from([15.0, 20.0, 21.0, 40.0, 50.0, 60.0, 65.0]),
)
RATES = st.sampled_from([40 * G, 25 * G, TEN, FIVE, TWO_AND_A_HALF, G, 100_000_000, 10_000_000])
REGIMES = st.sampled_from(["iso", "tia"])


@settings(max_examples=400, deadline=None)
@given(RUNS, RATES, REGIMES, LENGTHS_M, st.sampled_from([None, 22, 24, 26, 28, "solid"]))
def test_a_longer_run_is_never_promised_more(
    channel: CopperRun, rate: int, regime: Regime, more_m: float, kind: int | str | None
) -> None:
    if kind == "solid":
        longer = replace(channel, fixed_m=channel.fixed_m + more_m)
    else:
        longer = replace(channel, cords=(*channel.cords, Cord(more_m, kind)))  # type: ignore[arg-type]
    before, after = answer(channel, rate, regime)[0], answer(longer, rate, regime)[0]
    assert ORDER[after] <= ORDER[before]


@settings(max_examples=300, deadline=None)
@given(RUNS, RATES, REGIMES, st.sampled_from(COPPER_CATEGORIES))
def test_a_better_category_is_never_promised_less(channel: CopperRun, rate: int, regime: Regime, category: str) -> None:
    assume(COPPER_CATEGORIES.index(category) >= COPPER_CATEGORIES.index(channel.lowest_category or "3"))
    better = replace(channel, lowest_category=category)
    assert ORDER[answer(better, rate, regime)[0]] >= ORDER[answer(channel, rate, regime)[0]]


@settings(max_examples=200, deadline=None)
@given(RUNS, RATES, REGIMES)
def test_more_warmth_connections_or_rate_never_turn_a_no_into_a_yes(
    channel: CopperRun, rate: int, regime: Regime
) -> None:
    before = ORDER[answer(channel, rate, regime)[0]]
    joined = replace(channel, connections=channel.connections + 1)
    assert ORDER[answer(joined, rate, regime)[0]] <= before
    warmer = replace(channel, ambient_c=channel.ambient_c + 15)
    assert not (before == ORDER["no"] and answer(warmer, rate, regime)[0] == "yes")
    slower = [each for each in base_t_rates() if each < rate]
    assert all(ORDER[answer(channel, each, regime)[0]] >= before for each in slower)


def agreed(answers: list[Answer]) -> Answer:
    """The answer that all share, or else undecided."""
    return answers[0] if len(set(answers)) == 1 else "undecided"


@settings(max_examples=300, deadline=None)
@given(RUNS, RATES, REGIMES)
def test_an_unknown_category_is_undecided_exactly_when_its_values_disagree(
    channel: CopperRun, rate: int, regime: Regime
) -> None:
    """The known parts keep the category of the run; the unknown part may be any."""
    lowest = COPPER_CATEGORIES.index(channel.lowest_category or "3")
    every = [replace(channel, lowest_category=COPPER_CATEGORIES[min(lowest, other)]) for other in range(9)]
    expected = agreed([answer(each, rate, regime)[0] for each in every])
    assert answer(replace(channel, category_known=False), rate, regime)[0] == expected


@settings(max_examples=300, deadline=None)
@given(RUNS, RATES, REGIMES)
def test_an_unknown_gauge_is_undecided_exactly_when_the_published_gauges_disagree(
    channel: CopperRun, rate: int, regime: Regime
) -> None:
    assume(channel.cords)
    first, *others = channel.cords
    every = [replace(channel, cords=(Cord(first.length_m, gauge), *others)) for gauge in PUBLISHED_GAUGES]
    expected = agreed([answer(each, rate, regime)[0] for each in every])
    blank = replace(channel, cords=(Cord(first.length_m, None), *others))
    assert answer(blank, rate, regime)[0] == expected


@settings(max_examples=300, deadline=None)
@given(RUNS, RATES, REGIMES, st.sampled_from([None, 24, 26, 28, "solid"]))
def test_an_unknown_length_is_undecided_exactly_when_some_lengths_of_it_disagree(
    channel: CopperRun, rate: int, regime: Regime, kind: int | str | None
) -> None:
    known = replace(channel, length_known=True)

    def with_part(length_m: float) -> CopperRun:
        if kind == "solid":
            return replace(known, fixed_m=known.fixed_m + length_m)
        return replace(known, cords=(*known.cords, Cord(length_m, kind)))  # type: ignore[arg-type]

    expected = agreed([answer(with_part(length_m), rate, regime)[0] for length_m in (0.0, 1.0, 10.0, 50.0, 500.0)])
    assert answer(replace(channel, length_known=False), rate, regime)[0] == expected


# What is left


@pytest.mark.parametrize(
    ("channel", "regime", "factor", "left_m"),
    [
        # By plain length: 100 - 14 and 37 - 14
        (run(10.0, (4.0, 24)), "iso", 1.0, 86.0),
        (run(10.0, (4.0, 24), category="6"), "iso", 1.0, 23.0),
        # By loss: 105 - 70 - 1.5 x 14, over 1 and over 1.5; 102 - 70 - 1.5 x 14, over 1.95
        (run(70.0, (14.0, 26)), "iso", 1.0, 14.0),
        (run(70.0, (14.0, 26)), "iso", 1.5, 14.0 / 1.5),
        (run(70.0, (14.0, 26)), "tia", 1.95, 11.0 / 1.95),
        # By warmth: 82.8 - 70 for solid cable, and nothing of it for a cord
        (run(70.0, (2.0, 26), ambient_c=40.0), "iso", 1.0, 12.8),
        (run(70.0, (2.0, 26), ambient_c=40.0), "iso", 1.5, 32.0 / 1.5),
        # Air that no rule covers takes nothing off what the others leave
        (run(70.0, ambient_c=70.0), "iso", 1.0, 30.0),
        # The worst that a cord of unknown gauge may lose: 102 - 80 - 1.95 x 10
        (run(80.0, (10.0, None)), "tia", 1.0, 2.5),
    ],
)
def test_what_one_more_part_may_measure(channel: CopperRun, regime: Regime, factor: float, left_m: float) -> None:
    (row,) = possible_reaches(channel, [TEN])
    assert room_left_m(channel, row, regime, factor) == pytest.approx(left_m)


def test_nothing_is_left_where_nothing_is_promised_at_any_length() -> None:
    """IEEE 802.3bz objectives: 5G over category 5e only in defined use cases."""
    (row,) = possible_reaches(run(3.0, category="5e"), [FIVE])
    assert room_left_m(run(3.0, category="5e"), row, "iso", 1.0) == pytest.approx(-3.0)


GOOD_RUNS = st.builds(
    lambda fixed_m, cords, category, ambient_c: run(fixed_m, *cords, category=category, ambient_c=ambient_c),
    st.floats(min_value=0, max_value=60),
    st.lists(st.tuples(st.floats(min_value=0, max_value=4), st.sampled_from([24, 26, 28, None])), max_size=3),
    st.sampled_from(["6", "6A"]),
    st.sampled_from([20.0, 35.0, 50.0, 60.0]),
)
"""Runs over which a rate is mostly promised, with something left."""


@settings(max_examples=200, deadline=None)
@given(GOOD_RUNS, REGIMES, st.sampled_from([24, 26, 28, "solid"]))
def test_what_is_left_is_promised_to_the_end_and_not_past_it(
    channel: CopperRun, regime: Regime, kind: int | str
) -> None:
    (row,) = possible_reaches(channel, [TEN])
    left_m = room_left_m(channel, row, regime, 1.0 if kind == "solid" else cord_rule(regime).most_factor(int(kind)))
    assume(left_m >= 0)

    def with_part(length_m: float) -> CopperRun:
        if kind == "solid":
            return replace(channel, fixed_m=channel.fixed_m + length_m)
        return replace(channel, cords=(*channel.cords, Cord(length_m, int(kind))))

    assert answer(with_part(left_m), TEN, regime)[0] == "yes"
    assert answer(with_part(left_m + 0.01), TEN, regime)[0] != "yes"
