"""The cut list of the page: bars drawn to scale, and what each box holds after each cut."""

from __future__ import annotations

import pytest
from bills import WALLS, bills
from hypothesis import given, settings

from netaudit.model.bill import Bill, Box, Bulk
from netaudit.model.place import PortRef
from netaudit.report.bill.page.cuts import bulk_parts
from netaudit.report.bill.page.ends import Ends


def test_bars_are_drawn_to_the_scale_of_the_largest_box() -> None:
    (walls,) = bulk_parts([WALLS], {})
    expected = [100.0, 100.0, pytest.approx(100 * 100 / 304.8, abs=1e-3)]

    assert expected == [box.per_cent for box in walls.boxes]
    assert "304.8 m (1000 ft)" == walls.largest


def test_a_cut_takes_the_share_of_the_bar_that_it_takes_of_the_box() -> None:
    (walls,) = bulk_parts([WALLS], {})
    box = walls.boxes[2]

    assert [90.3] == [piece.per_cent for piece in box.segments]
    assert 9.7 == box.rest.per_cent


@given(bills())
@settings(max_examples=50, deadline=None)
def test_cuts_and_what_is_left_fill_the_bar(bill: Bill) -> None:
    for bulk in bulk_parts(bill.bulk, {}):
        for box in bulk.boxes:
            assert pytest.approx(100, abs=0.01) == sum(piece.per_cent for piece in (*box.segments, box.rest))


def test_a_piece_too_short_for_its_name_goes_without() -> None:
    thin = WALLS._replace(boxes=(Box(1, 304.8, 302.8),), cuts=(WALLS.cuts[0]._replace(length_m=2.0),))
    (walls,) = bulk_parts([thin], {})

    assert [""] == [piece.name for piece in walls.boxes[0].segments]
    assert "302.8 m left" == walls.boxes[0].rest.name


def test_a_long_name_needs_a_long_piece() -> None:
    named = WALLS._replace(cuts=tuple(cut._replace(cable="W" * 20) for cut in (WALLS.cuts[0], WALLS.cuts[3])))
    (walls,) = bulk_parts([named], {})

    assert [[""], [], ["W" * 20]] == [[piece.name for piece in box.segments] for box in walls.boxes]


def test_every_cut_tells_what_is_left_after_it() -> None:
    (walls,) = bulk_parts([WALLS], {})
    first = walls.boxes[0]

    assert [("41 m", "40 m", "263.8 m"), ("41 m", "40 m", "222.8 m")] == [
        (row.cut, row.run, row.left) for row in first.rows
    ]
    assert first.rows[-1].left == first.left


def test_a_cut_tells_where_its_cable_goes_where_the_bill_knows() -> None:
    ends = Ends(PortRef("cut-1", "wire"), (PortRef("loft-plate", "1"),))
    (walls,) = bulk_parts([WALLS], {"W02": ends})
    known, unknown = walls.boxes[0].rows

    assert (ends, Ends(None, ())) == (known.ends, unknown.ends)


def test_without_a_measured_run_there_is_no_box_and_no_scale() -> None:
    bare = Bulk("6A", False, (), (), "fewest boxes", None, None, None, unmeasured=("W11",))
    (part,) = bulk_parts([bare], {})

    assert "Cable 6A, solid copper" == part.title
    assert ("", (), ["W11"]) == (part.largest, part.boxes, [name for _, names in part.uncounted for name in names])


def test_boxes_and_reels_of_one_kind_of_cable_are_told_apart() -> None:
    reels = WALLS._replace(boxes=(Box(1, 1000.0, 959.0),), cuts=WALLS.cuts[:1])
    boxes, reel = bulk_parts([WALLS, reels], {})

    assert ["Box 1", "Box 2", "Box 3"] == [box.name for box in boxes.boxes]
    assert ["Reel 1"] == [box.name for box in reel.boxes]
    assert "Cable 6A, solid copper, from boxes of 304.8 m (1000 ft) and 100 m" == boxes.title
    assert "Cable 6A, solid copper, from reels of 1 km" == reel.title
