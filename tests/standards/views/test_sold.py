"""Tables of what is sold as they are shown."""

from __future__ import annotations

from netaudit.model.limits import Column
from netaudit.standards.find import find
from netaudit.standards.published import published


def test_lengths_are_shown_in_metres_and_in_feet() -> None:
    """A foot is 0.3048 m exactly (NIST SP 811, appendix B.8), so 10 ft are 3.048 m."""
    (shown,) = published(find(["sold", "lengths"])[0])

    assert ("cord", "imperial", 3.048, 10) in [row.cells for row in shown.rows]
    assert ("twinax", "any", 2.5, None) in [row.cells for row in shown.rows]
    assert (Column("length", "m"), Column("length", "ft")) == shown.columns[2:]


def test_a_box_is_shown_with_what_is_printed_on_it_and_what_is_in_it() -> None:
    (shown,) = published(find(["boxes"])[0])

    assert ("box", 305, 304.8, 1000) == shown.rows[0].cells
    assert {"common practice"} == {row.source.standing for row in shown.rows}
