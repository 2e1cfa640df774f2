"""A probe's answer as JSON in the format netaudit.probe/1; unknown is null, rates and amounts are integers."""

from __future__ import annotations

import json
from typing import Any

from netaudit.model.diagnosis import Cause, Diagnosis
from netaudit.model.expectation import Expectation
from netaudit.model.finding import NotChecked
from netaudit.model.observation import Skipped
from netaudit.model.situation import Use
from netaudit.report.probe.data_far import address_values, storage_values
from netaudit.report.probe.data_near import (
    client_values,
    link_values,
    mount_values,
    moved_values,
    read_values,
    session_values,
    switch_port_values,
)
from netaudit.report.probe.tables import interfaces_that_matter
from netaudit.report.probe.words import sentence
from netaudit.report.values import finding_values

FORMAT = "netaudit.probe/1"


def as_json(diagnosis: Diagnosis) -> str:
    """One answer; ends with a line feed. What a terminal would obey is written as JSON's own escapes."""
    text = json.dumps(document(diagnosis), ensure_ascii=False, indent=2)
    return "".join(char if char.isprintable() or char == "\n" else json.dumps(char)[1:-1] for char in text) + "\n"


def document(diagnosis: Diagnosis) -> dict[str, Any]:
    """One answer as plain values."""
    situation = diagnosis.situation
    seen = situation.seen
    return {
        "format": FORMAT,
        "target": seen.target,
        "sentence": sentence(situation),
        "took_s": round(seen.took_s, 3),
        "mount": mount_values(seen.mount),
        "addresses": [address_values(far) for far in seen.addresses],
        "links": [link_values(situation, state) for state in interfaces_that_matter(situation)],
        "sessions": [session_values(session) for session in seen.sessions],
        "storage": storage_values(seen),
        "switch_port": switch_port_values(seen.switch_port),
        "moved": moved_values(seen.moved),
        "findings": [finding_values(finding) for finding in diagnosis.findings],
        "not_checked": [_gap(gap) for gap in diagnosis.not_checked],
        "causes": [_cause(cause) for cause in diagnosis.causes],
        "uses": [_use(use) for use in situation.uses],
        "plan": _plan(situation.expected),
        "expected_bit_per_s": diagnosis.expected_bit_per_s,
        "expected_by": diagnosis.expected_by,
        "reads": [read_values(timing) for timing in seen.timings],
        "client": client_values(seen.client),
        "skipped": [_skipped(skipped) for skipped in seen.skipped],
        "system": seen.system,
        "manager": seen.manager,
        "service_order": list(seen.service_order),
        "bound_s": seen.bound_s,
        "complete": seen.complete,
        "checked": diagnosis.checked,
    }


def _plan(expected: Expectation | None) -> dict[str, Any] | None:
    """What the plan expects, where one was given."""
    if expected is None:
        return None
    road = expected.road
    return {
        "plan": expected.plan,
        "station": expected.station,
        "storage": expected.storage,
        "from": None if road is None else str(road.from_port),
        "to": None if road is None else str(road.to_port),
    }


def _use(use: Use) -> dict[str, Any]:
    return {
        "interface": use.interface,
        "evidence": use.evidence,
        "remote": None if use.remote is None else str(use.remote),
        "local": None if use.local is None else str(use.local),
    }


def _cause(cause: Cause) -> dict[str, Any]:
    return {"cause": cause.cause, "because": list(cause.because)}


def _gap(gap: NotChecked) -> dict[str, Any]:
    return {
        "rule": gap.rule,
        "where": [str(place) for place in gap.where],
        "reason": gap.reason,
        "decides": gap.decides,
    }


def _skipped(skipped: Skipped) -> dict[str, Any]:
    return {
        "what": skipped.what,
        "why": skipped.why,
        "remedy": skipped.remedy,
        "rules": list(skipped.rules),
    }
