"""The diagnosis: every live rule on what a probe saw, counted, ranked and gathered."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from netaudit.model.diagnosis import Diagnosis
from netaudit.model.expectation import Expectation
from netaudit.model.finding import GRAVITY, Finding, NotChecked
from netaudit.model.observation import Observation
from netaudit.model.place import Place, device_place
from netaudit.model.situation import Situation
from netaudit.rules.live import RULES
from netaudit.rules.live.causes import rank
from netaudit.rules.live.chain import chain_of
from netaudit.rules.live.gaps import gap_of
from netaudit.rules.situation import address_place, interface_place, situate


def diagnose(seen: Observation, expected: Expectation | None = None) -> Diagnosis:
    """Judge an observation by the live rules, beside a plan where there is one."""
    situation = situate(seen, expected)
    findings: list[Finding] = []
    not_checked: list[NotChecked] = []
    spoken: set[str] = set()
    checked = 0
    for rule in RULES:
        for subject in rule.subjects(situation):
            spoken.add(rule.name)
            judgement = rule.judge(subject, situation)
            if isinstance(judgement, NotChecked):
                not_checked.append(judgement)
                continue
            checked += 1
            if judgement is not None:
                findings.append(judgement)
    findings.sort(key=lambda finding: GRAVITY[finding.severity])
    chain = chain_of(situation)
    return Diagnosis(
        situation,
        findings=tuple(findings),
        not_checked=(*not_checked, *_unasked(situation, spoken)),
        causes=rank(findings, situation),
        checked=checked,
        expected_bit_per_s=None if chain is None else chain.rate_bit_per_s,
        expected_by=None if chain is None else chain.by,
    )


def _unasked(situation: Situation, spoken: Collection[str]) -> Iterator[NotChecked]:
    """The rules that wanted an answer which the probe did not get, and so had nothing to speak of."""
    for skipped in situation.seen.skipped:
        for rule in skipped.rules:
            if rule not in spoken:
                yield NotChecked(rule, (_somewhere(situation),), *gap_of(skipped))


def _somewhere(situation: Situation) -> Place:
    """What a question that was not answered was about: the interface in use, else the storage."""
    if situation.uses:
        return interface_place(situation.uses[0].interface)
    addresses = situation.seen.addresses
    return address_place(addresses[0].address) if addresses else device_place(situation.seen.host)
