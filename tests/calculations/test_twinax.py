"""Made-up cables: what their published lengths promise."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netaudit.calculations.twinax import twinax_limit, twinax_promise
from netaudit.model.finding import Measure
from netaudit.standards.twinax import twinax_reach

GIGA = 1_000_000_000
ORDER = {"no": 0, "undecided": 1, "yes": 2}
rates = st.sampled_from([1, 10, 25, 40, 50, 100]).map(lambda giga: giga * GIGA)
kinds = st.sampled_from(["twinax", "active-twinax", "active-optical"])
lengths = st.floats(min_value=0, max_value=100)


@pytest.mark.parametrize(
    ("rate_g", "kind", "longest_m"),
    [
        # SFP+ direct attach as sold: passive to 7 m, active to 15 m
        (10, "twinax", 7),
        (10, "active-twinax", 15),
        # tiafotc.org and the description of IEEE 802.3by: up to 5 m of twinaxial cable
        (25, "twinax", 5),
        # fowiki.com, FAQ about 40G: 40GBASE-CR4 to 7 m
        (40, "twinax", 7),
        # definitions of 802.3cd and 802.3bj: at least 3 m and 5 m
        (50, "twinax", 3),
        (100, "twinax", 5),
    ],
)
def test_a_cable_is_promised_to_its_longest_and_refused_beyond(rate_g: int, kind: str, longest_m: float) -> None:
    within = twinax_promise(rate_g * GIGA, kind, least_m=longest_m, length_m=longest_m)
    beyond = twinax_promise(rate_g * GIGA, kind, least_m=longest_m + 0.1, length_m=longest_m + 0.1)
    assert (within.answer, within.limit) == ("yes", Measure(longest_m, "m"))
    assert (beyond.answer, beyond.limit, beyond.why) == ("no", Measure(longest_m, "m"), "length")
    assert within.source == beyond.source
    assert within.source is not None
    assert within.source.may_fail


def test_an_unknown_length_is_undecided() -> None:
    promise = twinax_promise(10 * GIGA, "twinax", least_m=0, length_m=None)
    assert (promise.answer, promise.limit, promise.why) == ("undecided", None, "length")


def test_a_known_part_that_is_too_long_decides_whatever_the_rest_is() -> None:
    assert twinax_promise(10 * GIGA, "twinax", least_m=8, length_m=None).answer == "no"


@pytest.mark.parametrize("length_m", [3.0, 100.0, None])
def test_the_maker_answers_for_an_active_optical_cable_of_any_length(length_m: float | None) -> None:
    promise = twinax_promise(10 * GIGA, "active-optical", least_m=length_m or 0, length_m=length_m)
    assert (promise.answer, promise.limit, promise.why) == ("yes", None, "maker")
    assert promise.source is not None
    assert promise.source.standing == "common practice"


@pytest.mark.parametrize(("rate_g", "kind"), [(1, "twinax"), (25, "active-twinax"), (10, "ribbon")])
def test_a_rate_or_kind_without_a_published_length_is_undecided(rate_g: int, kind: str) -> None:
    promise = twinax_promise(rate_g * GIGA, kind, least_m=1, length_m=1)
    assert (promise.answer, promise.source, promise.why) == ("undecided", None, "rate")


@given(rates, kinds, lengths, lengths)
def test_a_longer_cable_is_never_promised_more(rate_bit_per_s: int, kind: str, one_m: float, other_m: float) -> None:
    short_m, long_m = sorted((one_m, other_m))
    short = twinax_promise(rate_bit_per_s, kind, least_m=short_m, length_m=short_m)
    long = twinax_promise(rate_bit_per_s, kind, least_m=long_m, length_m=long_m)
    assert ORDER[long.answer] <= ORDER[short.answer]


FIRM = [(*at, row.reach_m) for at, row in twinax_reach().items() if row.reach_m and row.source.may_fail]


@given(st.sampled_from(FIRM), st.floats(min_value=0.01, max_value=100), lengths)
def test_learning_the_rest_of_a_length_never_overturns_a_refusal(
    limited: tuple[int, str, float], beyond_m: float, rest_m: float
) -> None:
    rate_bit_per_s, kind, reach_m = limited
    known_m = reach_m + beyond_m
    whole_m = known_m + rest_m
    assert "no" == twinax_promise(rate_bit_per_s, kind, least_m=known_m, length_m=None).answer
    assert "no" == twinax_promise(rate_bit_per_s, kind, least_m=whole_m, length_m=whole_m).answer


CR, CR_S = "25GBASE-CR", "25GBASE-CR-S"


@pytest.mark.parametrize(
    ("modules", "reach_m"),
    [
        # IEEE 802.3by as described at informant158.rssing.com: CR-S has no RS-FEC, which the 5 m of CR need at both ends
        ((None, None), 5),
        ((CR, CR), 5),
        ((CR, CR_S), 3),
        ((CR_S, CR), 3),
        ((CR_S, None), 3),
        ((CR_S, CR_S), 3),
        # of another rate or another medium, so that it says nothing here
        (("100GBASE-CR4", "100GBASE-CR2"), 5),
        (("25GBASE-SR", None), 5),
    ],
)
def test_an_end_that_cannot_correct_errors_shortens_the_cable(
    modules: tuple[str | None, str | None], reach_m: float
) -> None:
    row = twinax_limit(25 * GIGA, "twinax", modules)
    assert row is not None
    assert reach_m == row.reach_m
    at = twinax_promise(25 * GIGA, "twinax", least_m=reach_m, length_m=reach_m, modules=modules)
    past = twinax_promise(25 * GIGA, "twinax", least_m=reach_m + 0.01, length_m=reach_m + 0.01, modules=modules)
    assert ("yes", "no") == (at.answer, past.answer)


def test_a_remembered_length_of_a_named_layer_doubts() -> None:
    promise = twinax_promise(100 * GIGA, "twinax", least_m=4, length_m=4, modules=("100GBASE-CR2", None))
    assert (promise.answer, promise.limit) == ("undecided", Measure(3, "m"))


def test_what_a_named_layer_does_not_limit_goes_by_the_rate() -> None:
    assert twinax_limit(25 * GIGA, "active-twinax", (CR_S, CR)) is None
    optical = twinax_limit(25 * GIGA, "active-optical", (CR_S, CR))
    assert optical is not None
    assert optical.reach_m is None
