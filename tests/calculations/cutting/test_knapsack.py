"""The most valuable runs against every choice there is."""

from __future__ import annotations

from itertools import product

from cuttings import never
from hypothesis import given, settings
from hypothesis import strategies as st

from netaudit.calculations.cutting.knapsack import cut_into_pieces, knapsack
from netaudit.calculations.cutting.watch import Watch

kinds = st.lists(st.tuples(st.integers(1, 12), st.integers(0, 9), st.integers(0, 4)), max_size=4)


@settings(max_examples=100, deadline=None)
@given(kinds, st.integers(0, 30))
def test_no_choice_is_worth_more(asked: list[tuple[int, int, int]], room: int) -> None:
    lengths, worth, counts = ([kind[place] for kind in asked] for place in range(3))
    with Watch(60.0, never) as watch:
        table = knapsack(lengths, worth, counts, room, watch)
    every = [
        sum(n * w for n, w in zip(times, worth, strict=True))
        for times in product(*(range(count + 1) for count in counts))
        if sum(n * length for n, length in zip(times, lengths, strict=True)) <= room
    ]
    pattern = table.pattern(room)
    assert max(every) == table.values[room] == sum(worth[kind] for kind in pattern)
    assert sum(lengths[kind] for kind in pattern) <= room
    assert all(pattern.count(kind) <= count for kind, count in enumerate(counts))


def test_pieces_make_every_count_up_to_the_whole() -> None:
    assert [(0, 1, 3), (0, 2, 6), (0, 4, 12), (0, 3, 9)] == cut_into_pieces([3], [1], [10], 100)
