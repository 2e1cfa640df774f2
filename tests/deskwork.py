"""What single live rules say of a desk: for tests that change one thing about it."""

from __future__ import annotations

from typing import Any

from netaudit.model.expectation import Expectation
from netaudit.model.finding import Finding, Judgement, NotChecked
from netaudit.model.observation import Observation
from netaudit.model.situation import Situation
from netaudit.rules.live.desk import EXPECTED, SEEN
from netaudit.rules.rule import Rule
from netaudit.rules.situation import situate

PLAN = EXPECTED


def situation(seen: Observation = SEEN, expected: Expectation | None = EXPECTED) -> Situation:
    """A desk beside its plan."""
    return situate(seen, expected)


def judged(rule: Rule[Any, Situation], seen: Observation, expected: Expectation | None = EXPECTED) -> list[Judgement]:
    """What a rule says of each of its subjects."""
    known = situate(seen, expected)
    return [rule.judge(subject, known) for subject in rule.subjects(known)]


def found(rule: Rule[Any, Situation], seen: Observation, expected: Expectation | None = EXPECTED) -> list[Finding]:
    """What a rule finds."""
    return [each for each in judged(rule, seen, expected) if isinstance(each, Finding)]


def only(rule: Rule[Any, Situation], seen: Observation, expected: Expectation | None = EXPECTED) -> Finding:
    """The one thing that a rule finds."""
    (finding,) = found(rule, seen, expected)
    return finding


def gaps(rule: Rule[Any, Situation], seen: Observation, expected: Expectation | None = EXPECTED) -> list[NotChecked]:
    """What a rule could not check."""
    return [each for each in judged(rule, seen, expected) if isinstance(each, NotChecked)]


def passes(rule: Rule[Any, Situation], seen: Observation, expected: Expectation | None = EXPECTED) -> bool:
    """Whether a rule has subjects and is content with all of them."""
    return set(judged(rule, seen, expected)) == {None}


def silent(rule: Rule[Any, Situation], seen: Observation, expected: Expectation | None = EXPECTED) -> bool:
    """Whether a rule has nothing to judge."""
    return judged(rule, seen, expected) == []


def places(finding: Finding | NotChecked) -> list[str]:
    """Where, in words."""
    return [str(place) for place in finding.where]


def planned(**fields: Any) -> Expectation:
    """The plan with another road."""
    assert EXPECTED.road is not None
    return EXPECTED._replace(road=EXPECTED.road._replace(**fields))


def planned_port(name: str, **fields: Any) -> Expectation:
    """The plan with another port of the station."""
    return EXPECTED._replace(ports={**EXPECTED.ports, name: EXPECTED.ports[name]._replace(**fields)})
