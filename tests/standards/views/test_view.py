"""A view: what holds where a table says nothing of its own."""

from __future__ import annotations

from netaudit.standards.views.view import View


def test_a_view_takes_its_sources_from_the_column_of_that_name_and_answers_to_no_topic_by_itself() -> None:
    plain = View("Things", "things.csv", ("thing",), ("things",))

    assert ("source", {}, (), ()) == (plain.source, plain.by, plain.whole_for, plain.notes)
