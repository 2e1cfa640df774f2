"""The examples of the live rules: one for each, all on one desk."""

from __future__ import annotations

import pytest

from netaudit.rules.live import RULES
from netaudit.rules.live.desk import EXPECTED, SEEN
from netaudit.rules.live.examples import example_of, healthy
from netaudit.rules.live.examples_links import LINKS
from netaudit.rules.live.examples_roads import ROADS
from netaudit.rules.live.examples_storage import STORAGE


def test_the_desk_in_order_is_looked_at_wholly() -> None:
    assert (SEEN, EXPECTED) == healthy()
    assert SEEN.complete


@pytest.mark.parametrize("name", [rule.name for rule in RULES])
def test_an_example_changes_the_desk_and_not_the_plan(name: str) -> None:
    example = example_of(name)

    assert EXPECTED == example.expected
    assert SEEN != example.seen


def test_every_rule_has_one_example_in_one_theme() -> None:
    assert sorted(rule.name for rule in RULES) == sorted([*ROADS, *LINKS, *STORAGE])


def test_a_name_without_a_rule_has_no_example() -> None:
    with pytest.raises(KeyError):
        example_of("no-such-rule")
