"""Every live rule holds its place: it is one that was promised, it says why, and its example depends on it."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any, get_args

import pytest
from deskwork import situation

import netaudit.diagnosis
from netaudit.citation import Standing
from netaudit.diagnosis import diagnose
from netaudit.model.situation import Situation
from netaudit.rules.catalogue import RULES as PLAN_RULES
from netaudit.rules.live import RULES
from netaudit.rules.live.examples import example_of, healthy
from netaudit.rules.rule import Rule

PROMISED = {
    "fail": "traffic-on-wireless traffic-on-other-port session-on-other-port replies-on-other-port carrier-lost "
    "link-below-plan two-answers-for-address large-frames-lost address-not-planned tunnel-takes-route no-answer "
    "service-refused no-route",
    "warn": "link-below-capability one-hardware-address-twice name-gives-many-addresses router-between "
    "frame-sizes-differ link-flapping link-full receive-errors retransmits-high storage-offers-slower-port "
    "adapter-bus-below-link storage-stalls",
    "note": "signing-or-encryption not-the-network",
}
"""The live rules that are promised, by severity and in order: typed by hand, a second source beside the rules."""

every_rule = pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)


def test_the_rules_are_those_that_are_promised_each_with_its_severity_in_that_order() -> None:
    promised = [(severity, name) for severity, names in PROMISED.items() for name in names.split()]

    assert promised == [(rule.severity, rule.name) for rule in RULES]
    assert {"live"} == {rule.family for rule in RULES}


def test_nothing_is_raised_at_the_desk_in_order() -> None:
    diagnosis = diagnose(*healthy())

    assert () == diagnosis.findings
    assert () == diagnosis.not_checked
    assert () == diagnosis.causes


def test_nothing_fails_at_the_desk_in_order_without_a_plan() -> None:
    assert () == diagnose(healthy()[0]).findings


@every_rule
def test_a_rule_strikes_in_its_example_with_its_own_severity_and_its_cause_stands_alone(
    rule: Rule[Any, Situation],
) -> None:
    example = example_of(rule.name)
    diagnosis = diagnose(example.seen, example.expected)

    assert {rule.severity} == {finding.severity for finding in diagnosis.findings if finding.rule == rule.name}
    assert [rule.name] == [cause.cause for cause in diagnosis.causes]


@every_rule
def test_a_rule_that_judges_nothing_is_missed_in_its_example(
    rule: Rule[Any, Situation], monkeypatch: pytest.MonkeyPatch
) -> None:
    silenced = tuple(replace(each, judge=lambda *_: None) if each is rule else each for each in RULES)
    monkeypatch.setattr(netaudit.diagnosis, "RULES", silenced)
    example = example_of(rule.name)

    assert rule.name not in {finding.rule for finding in diagnose(example.seen, example.expected).findings}


@every_rule
def test_what_a_rule_finds_in_its_example_rests_on_a_source_that_it_names(rule: Rule[Any, Situation]) -> None:
    example = example_of(rule.name)
    known = situation(example.seen, example.expected)
    judgements = [rule.judge(subject, known) for subject in rule.subjects(known)]
    sources = {judgement.source for judgement in judgements if judgement is not None and hasattr(judgement, "source")}

    assert sources
    assert set() == sources - set(rule.sources())


@every_rule
def test_every_source_names_its_document_and_how_it_is_known(rule: Rule[Any, Situation]) -> None:
    sources = list(rule.sources())

    assert all(source.document.strip() for source in sources)
    assert {source.standing for source in sources} <= set(get_args(Standing))
    assert rule.severity != "fail" or any(source.may_fail for source in sources)


@every_rule
def test_the_name_is_lower_case_words_with_hyphens_and_the_words_are_sentences(rule: Rule[Any, Situation]) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)+", rule.name)
    for text in (rule.what, rule.why, rule.todo):
        assert re.fullmatch(r"[^a-z\s][^\n]{20,}\.", text)


@every_rule
def test_every_measure_has_its_unit_and_is_held_against_a_limit_in_the_same(rule: Rule[Any, Situation]) -> None:
    example = example_of(rule.name)
    for finding in diagnose(example.seen, example.expected).findings:
        units = [None if each is None else each.unit for each in (finding.measured, finding.limit)]
        assert "" not in units
        assert 1 == len(set(units))


@every_rule
def test_a_message_is_one_line_without_its_full_stop_and_a_remedy_ends_with_one(rule: Rule[Any, Situation]) -> None:
    example = example_of(rule.name)
    for finding in diagnose(example.seen, example.expected).findings:
        assert re.fullmatch(r"[^\n]*[^\n. ]", finding.message)
        assert re.fullmatch(r"[A-Z][^\n]*[^ ]\.", finding.remedy)
        assert "  " not in finding.message + finding.remedy


@every_rule
def test_an_example_tells_its_story_in_a_sentence(rule: Rule[Any, Situation]) -> None:
    assert re.fullmatch(r"[A-Z][^\n]{20,}\.", example_of(rule.name).story)


def test_no_two_rules_say_the_same_nor_bear_the_name_of_a_rule_on_plans() -> None:
    for texts in zip(*((rule.name, rule.what, rule.why, rule.todo) for rule in RULES), strict=True):
        assert len(set(texts)) == len(texts)
    assert set() == {rule.name for rule in RULES} & {rule.name for rule in PLAN_RULES if rule.family != "live"}
