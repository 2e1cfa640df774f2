"""A gap is told in the words of whoever could not ask."""

from __future__ import annotations

from deskwork import situation

from netaudit.model.observation import Skipped
from netaudit.rules.live.desk import SEEN
from netaudit.rules.live.gaps import Gap, gap

NOTE = Skipped("hardware addresses of 10.44.20.10", "this needs raw packets", "run it with sudo", ("two-answers",))


def test_the_note_for_a_rule_comes_before_its_own_words() -> None:
    known = situation(SEEN._replace(skipped=(NOTE._replace(rules=("other",), why="no"), NOTE)))

    assert Gap("Hardware addresses of 10.44.20.10: this needs raw packets", "run it with sudo") == gap(
        "two-answers", known, "Nobody asked", "ask"
    )


def test_without_a_note_the_rule_speaks_itself() -> None:
    known = situation(SEEN._replace(skipped=(NOTE,)))

    assert Gap("Nobody asked", "ask") == gap("another-rule", known, "Nobody asked", "ask")
