"""Every rule holds its place: it is one that was promised, it says why, and its example depends on it."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import get_args

import pytest
from rooms import found, report_of

import netaudit
import netaudit.audit
from netaudit.citation import Standing
from netaudit.rules.catalogue import RULES
from netaudit.rules.examples import FOLDER, example_of
from netaudit.rules.rule import Rule

PROMISED = {
    "paths": {
        "fail": "no-path path-below-target loop-unprotected wrong-network",
        "warn": "narrow-beyond-seat router-in-path route-ambiguous second-road-open planned-road-is-radio fast-link-blocked",
        "note": "shared-beyond-seat",
    },
    "cabling": {
        "fail": "category-too-low channel-too-long cords-too-long too-warm-for-length too-many-connections fibre-too-long "
        "fibre-loss-too-high fibre-type-mismatch optics-differ twinax-too-long host-cable-too-long cable-not-standard",
        "warn": "reach-not-assured fibre-loss-doubtful copper-module-reach copper-module-heat earths-joined",
    },
    "ports": {
        "fail": "no-common-rate connector-mismatch module-does-not-fit port-used-twice",
        "warn": "link-below-both bus-below-link",
        "note": "middle-rate-assumed speed-step-down",
    },
    "addresses": {
        "fail": "two-ports-one-network address-clash address-outside-subnet address-reserved gateway-outside-subnet "
        "subnets-overlap mtu-mixed",
        "warn": "equal-ports-one-network two-networks-one-wire two-gateways address-in-leases storage-on-lease mtu-differs",
    },
    "rack and power": {
        "fail": "units-overlap outside-rack",
        "warn": "too-deep",
    },
}
"""The rules that are promised, by family and severity: typed by hand, a second source beside the rules themselves."""

TOPOLOGIES = sorted((Path(__file__).parents[2] / "topologies").glob("*.yaml"))
EXAMPLES = sorted(FOLDER.glob("*.yaml"))

every_rule = pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)


def test_the_rules_are_those_that_are_promised_each_with_its_severity() -> None:
    promised = {
        (family, severity, name)
        for family, of_severity in PROMISED.items()
        for severity, names in of_severity.items()
        for name in names.split()
    }

    assert sorted(promised) == sorted((rule.family, rule.severity, rule.name) for rule in RULES)


def test_families_stand_together_in_the_order_of_a_report() -> None:
    families = [rule.family for rule in RULES]

    assert list(PROMISED) == [family for place, family in enumerate(families) if family not in families[:place]]
    assert sorted(families, key=families.index) == families


@every_rule
def test_a_rule_that_judges_nothing_is_missed_in_its_example(
    rule: Rule[object], monkeypatch: pytest.MonkeyPatch
) -> None:
    struck = found(report_of(example_of(rule.name).text), rule.name)
    silenced = tuple(replace(each, judge=lambda *_: None) if each is rule else each for each in RULES)
    monkeypatch.setattr(netaudit.audit, "RULES", silenced)

    assert struck
    assert [] == found(report_of(example_of(rule.name).text), rule.name)


@every_rule
def test_what_a_rule_finds_in_its_example_rests_on_a_source_that_it_names(rule: Rule[object]) -> None:
    sources = {finding.source for finding in found(report_of(example_of(rule.name).text), rule.name)}

    assert set() == sources - set(rule.sources())


@pytest.mark.parametrize("plan", [*TOPOLOGIES, *EXAMPLES], ids=lambda plan: plan.stem)
def test_every_finding_on_every_plan_rests_on_a_source_that_its_rule_names(plan: Path) -> None:
    sources = {rule.name: set(rule.sources()) for rule in RULES}
    findings = netaudit.check(netaudit.load(plan)).findings

    assert [] == [finding for finding in findings if finding.source not in sources[finding.rule]]


@every_rule
def test_every_source_names_its_document_and_how_it_is_known(rule: Rule[object]) -> None:
    sources = list(rule.sources())

    assert sources
    assert all(source.document.strip() for source in sources)
    assert {source.standing for source in sources} <= set(get_args(Standing))


@every_rule
def test_a_rule_that_fails_a_plan_has_a_source_that_may(rule: Rule[object]) -> None:
    assert rule.severity != "fail" or any(source.may_fail for source in rule.sources())


@every_rule
def test_the_name_is_lower_case_words_with_hyphens_and_the_words_are_sentences(rule: Rule[object]) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)+", rule.name)
    for text in (rule.what, rule.why, rule.todo):
        assert re.fullmatch(r"[^a-z\s][^\n]{20,}\.", text)


def test_no_two_rules_say_the_same() -> None:
    for texts in zip(*((rule.name, rule.what, rule.why, rule.todo) for rule in RULES), strict=True):
        assert len(set(texts)) == len(texts)
