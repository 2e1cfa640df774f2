"""A few runs against every way there is, whatever boxes cost."""

from __future__ import annotations

from decimal import Decimal

from cuttings import cut_all, lowest, never, paid
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.calculations.cutting import BoxSize
from netaudit.calculations.cutting.few import MOST_RUNS, cheapest_of_all
from netaudit.calculations.cutting.problem import Problem, Size, cost_of
from netaudit.calculations.cutting.watch import Watch

MILLIONTH, DEAR = Decimal("0.000001"), Decimal(150_648)
prices = st.one_of(st.sampled_from([MILLIONTH, DEAR]), st.decimals(min_value=0, max_value=10**6, places=6))


def test_the_cheapest_boxes_are_found_run_by_run() -> None:
    """Of 60, 40, 40 and 30 two boxes of 100 hold all but 30, which goes into a small box."""
    asked = Problem((60, 40, 30), (1, 2, 1), (Size(35, 1), Size(100, 10)))
    with Watch(60.0, never) as watch:
        packing = cheapest_of_all(asked, watch)

    assert 20 == cost_of(packing)
    assert [0, 1, 1, 2] == sorted(kind for load in packing for kind in load.pattern)


def test_no_run_needs_no_box() -> None:
    with Watch(60.0, never) as watch:
        assert () == cheapest_of_all(Problem((5,), (0,), (Size(9, 1),)), watch)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.integers(1, 400_000), min_size=2, max_size=8),
    st.lists(st.builds(BoxSize, st.integers(1_000, 400_000), prices), max_size=3),
    prices,
)
def test_prices_of_which_one_is_a_hundred_thousand_million_others_are_still_proved(
    runs: list[int], sizes: list[BoxSize], price: Decimal
) -> None:
    """No tolerance of a solver tells such prices apart; whole numbers do."""
    sizes = [*sizes, BoxSize(400_000, price)]

    def cheapest(used: int) -> Decimal | None:
        return min((size.price for size in sizes if size.length_mm >= used and size.price is not None), default=None)

    cutting = cut_all(runs, sizes)
    assert cutting.proved
    assert lowest(runs, cheapest) == paid(cutting, sizes) == cutting.price_bound


def test_as_many_runs_as_are_few_are_proved_at_such_prices() -> None:
    runs = [100_001 + 7_919 * place % 60_000 for place in range(MOST_RUNS)]
    sizes = [BoxSize(304_800, DEAR), BoxSize(152_400, DEAR - MILLIONTH), BoxSize(500_000, DEAR * 2 - MILLIONTH)]
    cutting = cut_all(runs, sizes)

    assert cutting.proved
    assert cutting.price_bound == paid(cutting, sizes)
