"""Words of solid cable: what it is cut from, and how good that is."""

from __future__ import annotations

import pytest
from bills import SCREENED_WALLS, UNMEASURED_WALLS, WALLS, euros

from netaudit.model.bill import Box, Bulk
from netaudit.report.bill.bulk_words import kind, open_text, proof, source, uncounted, vessel, vessel_text

LONE_REEL = SCREENED_WALLS._replace(boxes=(Box(1, 1000.0, 10.0),))
MIXED = WALLS._replace(boxes=(Box(1, 304.8, 9.0), Box(2, 500.0, 9.0), Box(3, 304.8, 9.0)), objective="fewest boxes")


def test_cable_comes_on_a_reel_from_half_a_kilometre() -> None:
    """Common practice, no source."""
    assert ["box", "box", "reel", "reel"] == [vessel(Box(1, size_m, 0.0)) for size_m in (304.8, 499.0, 500.0, 1000.0)]


@pytest.mark.parametrize(
    ("bulk", "one", "expected"),
    [
        (WALLS, "box", "boxes of 304.8 m (1000 ft) and 100 m"),
        (LONE_REEL, "reel", "reels of 1 km"),
        (MIXED, "box or reel", "boxes and reels of 304.8 m (1000 ft) and 500 m"),
        (UNMEASURED_WALLS, "box", "boxes"),
    ],
)
def test_what_is_cut_from_is_told_by_its_sort_and_its_sizes(bulk: Bulk, one: str, expected: str) -> None:
    assert (one, expected) == (vessel_text(bulk), source(bulk))


def test_runs_that_no_box_counts_are_told_by_their_kind() -> None:
    assert "cable 7A, screened, for runs that no box counts" == open_text(SCREENED_WALLS)


def test_the_kind_of_solid_cable_names_its_screen() -> None:
    assert ["6A", "7A, screened"] == [kind(WALLS), kind(SCREENED_WALLS)]


FEWEST = WALLS._replace(objective="fewest boxes")


@pytest.mark.parametrize(
    ("bulk", "expected"),
    [
        (WALLS, "No other choice of boxes costs less: proved."),
        (
            WALLS._replace(proved_optimal=False, price_bound=euros("300")),
            "Whether another choice of boxes costs less is not proved; none can cost less than 300.00 EUR.",
        ),
        (
            WALLS._replace(proved_optimal=False, price_bound=None),
            "Whether another choice of boxes costs less is not proved.",
        ),
        (SCREENED_WALLS._replace(proved_optimal=True), "One box holds them all."),
        (FEWEST._replace(lower_bound=3), "Fewer boxes cannot do: proved."),
        (
            FEWEST._replace(lower_bound=2, proved_optimal=False),
            "Not proved to be the fewest: 3 boxes, and at least 2 are needed.",
        ),
        (SCREENED_WALLS, "Not proved to be the fewest: 1 box, and at least 1 is needed."),
        (LONE_REEL, "Not proved to be the fewest: 1 reel, and at least 1 is needed."),
        (LONE_REEL._replace(proved_optimal=True), "One reel holds them all."),
        (
            LONE_REEL._replace(proved_optimal=True, objective="lowest price"),
            "No other choice of reels costs less: proved.",
        ),
        (MIXED, "Fewer boxes and reels cannot do: proved."),
    ],
)
def test_the_proof_says_how_good_the_choice_is(bulk: Bulk, expected: str) -> None:
    assert [expected] == list(proof(bulk))


def test_far_more_cable_over_than_used_is_told_with_the_option_that_offers_a_shorter_box() -> None:
    lone = SCREENED_WALLS._replace(boxes=(Box(1, 304.8, 278.0),), proved_optimal=True)

    assert [
        "One box holds them all.",
        "278 m stay over: if the shop has shorter boxes, name all its sizes, such as --box '304.8 m' --box '50 m'.",
    ] == list(proof(lone))


def test_where_there_is_no_box_there_is_nothing_to_prove() -> None:
    assert [] == list(proof(UNMEASURED_WALLS))


def test_runs_that_no_box_counts_are_named_with_the_reason() -> None:
    expected = [
        ("Not counted, because not measured yet", ("W09",)),
        ("Longer than any box that is sold, and cable in a wall is never joined", ("W10",)),
    ]

    assert expected == list(uncounted(WALLS))
    assert [] == list(uncounted(SCREENED_WALLS))
