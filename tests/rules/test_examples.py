"""Every rule has an example in which it strikes, and the noted change cures it."""

from __future__ import annotations

import pytest
from rooms import found, report_of

from netaudit.rules.catalogue import RULES
from netaudit.rules.examples import FOLDER, example_of

NAMES = sorted(path.stem for path in FOLDER.glob("*.yaml"))
OF_NAME = {rule.name: rule for rule in RULES}


def test_every_rule_has_an_example_and_every_example_a_rule() -> None:
    assert sorted(OF_NAME) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_a_rule_strikes_in_its_example_with_its_own_severity(name: str) -> None:
    assert {OF_NAME[name].severity} == {finding.severity for finding in found(report_of(example_of(name).text), name)}


@pytest.mark.parametrize("name", NAMES)
def test_the_noted_change_cures_it(name: str) -> None:
    report = report_of(example_of(name).cured)

    assert [] == found(report, name)
    assert 0 == report.summary.fail


@pytest.mark.parametrize("name", NAMES)
def test_an_example_is_short_enough_to_be_read_at_a_glance(name: str) -> None:
    lines = example_of(name).text.splitlines()

    assert 30 >= len(lines)
    assert 120 >= max(map(len, lines))
