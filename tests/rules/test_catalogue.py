"""The list of rules."""

from __future__ import annotations

import re

import pytest

from netaudit.rules.catalogue import RULES
from netaudit.rules.rule import Rule


def test_no_two_rules_have_one_name() -> None:
    names = [rule.name for rule in RULES]

    assert sorted(set(names)) == sorted(names)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_says_what_it_looks_for_why_and_what_to_do(rule: Rule[object]) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)+", rule.name)
    assert all(text.endswith(".") and len(text) > 20 for text in (rule.what, rule.why, rule.todo))
