"""Every example plan says in its header what is wrong with it, and the audit says the same."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

import netaudit
from netaudit.model.finding import Finding, NotChecked
from netaudit.model.report import Report

TOPOLOGIES = Path(__file__).parents[1] / "topologies"
SEVERITIES = ("fail", "warn", "note")
PLANS = sorted(TOPOLOGIES.glob("*.yaml"))


@dataclass(frozen=True)
class Expected:
    """What the header of an example plan promises."""

    verdict: str
    findings: list[str]
    """`fail …`, `warn …` and `note …`, each of them."""
    not_checked: list[str]


def expected_of(plan: Path) -> Expected:
    """The lines `# expect: verdict …`, `fail …`, `warn …`, `note …` and `not-checked …` of a plan."""
    marked: dict[str, list[str]] = {word: [] for word in ("verdict", *SEVERITIES, "not-checked")}
    for line in plan.read_text(encoding="utf-8").splitlines():
        if line.startswith("# expect: "):
            word, _, rest = line.removeprefix("# expect: ").partition(" ")
            marked[word].append(rest)
    (verdict,) = marked["verdict"]
    findings = [f"{severity} {finding}" for severity in SEVERITIES for finding in marked[severity]]
    return Expected(verdict, sorted(findings), sorted(marked["not-checked"]))


def line_of(judgement: Finding | NotChecked) -> str:
    """A judgement as a header writes it: `category-too-low at cable W01`."""
    return f"{judgement.rule} at {judgement.where[0]}"


def report_of(plan: Path) -> Report:
    """The report on an example plan."""
    return netaudit.check(netaudit.load(plan))


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.stem)
def test_a_plan_gets_the_verdict_of_its_header(plan: Path) -> None:
    assert expected_of(plan).verdict == report_of(plan).summary.verdict


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.stem)
def test_a_plan_has_the_findings_of_its_header_and_no_others(plan: Path) -> None:
    findings = [f"{finding.severity} {line_of(finding)}" for finding in report_of(plan).findings]

    assert expected_of(plan).findings == sorted(findings)


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.stem)
def test_what_a_header_calls_not_checked_is_not_checked(plan: Path) -> None:
    not_checked = {line_of(judgement) for judgement in report_of(plan).not_checked}

    assert not set(expected_of(plan).not_checked) - not_checked


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.stem)
def test_a_plan_opens_with_what_it_teaches(plan: Path) -> None:
    first = plan.read_text(encoding="utf-8").splitlines()[0]

    assert first.startswith("# ")
    assert not first.startswith("# expect: ")


def test_the_boathouse_has_five_good_seats_one_bad_and_one_unproven() -> None:
    expected = {
        "cut-1": ("pass", 10_000_000_000),
        "cut-2": ("pass", 10_000_000_000),
        "cut-3": ("pass", 10_000_000_000),
        "cut-4": ("fail", 2_500_000_000),
        "grade": ("pass", 10_000_000_000),
        "sound": ("incomplete", None),
        "ingest": ("pass", 10_000_000_000),
    }
    planned = [judged for judged in report_of(TOPOLOGIES / "boathouse.yaml").paths if judged.path.planned]

    assert expected == {judged.path.station: (judged.verdict, judged.path.promised_bit_per_s) for judged in planned}
    assert {"vault"} == {judged.path.storage for judged in planned}
