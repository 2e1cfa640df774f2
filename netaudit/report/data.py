"""A report as JSON in the formats netaudit.report/1 and netaudit.reports/1; unknown is null."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from netaudit.model.finding import NotChecked
from netaudit.model.path import Hop
from netaudit.model.report import JudgedPath, Report
from netaudit.report.values import finding_values
from netaudit.report.words import sentence

FORMAT = "netaudit.report/1"
FORMAT_OF_SEVERAL = "netaudit.reports/1"


def as_json(report: Report) -> str:
    """One report; ends with a line feed."""
    return _text_of(document(report))


def all_as_json(reports: Sequence[Report]) -> str:
    """A list of reports, where several plans were asked about; ends with a line feed."""
    return _text_of({"format": FORMAT_OF_SEVERAL, "reports": [document(report) for report in reports]})


def _text_of(values: dict[str, Any]) -> str:
    return json.dumps(values, ensure_ascii=False, indent=2) + "\n"


def document(report: Report) -> dict[str, Any]:
    """One report as plain values."""
    summary = report.summary
    return {
        "format": FORMAT,
        "plan": {"file": report.file, "name": report.name},
        "sentence": sentence(report),
        "assumed": list(report.assumed),
        "summary": {
            "verdict": summary.verdict,
            "fail": summary.fail,
            "warn": summary.warn,
            "note": summary.note,
            "not_checked": summary.not_checked,
            "checked": summary.checked,
        },
        "paths": [_path(judged) for judged in report.paths],
        "findings": [finding_values(finding) for finding in report.findings],
        "not_checked": [_gap(gap) for gap in report.not_checked],
    }


def _path(judged: JudgedPath) -> dict[str, Any]:
    path = judged.path
    return {
        "station": path.station,
        "storage": path.storage,
        "from": _written(path.from_port),
        "to": _written(path.to_port),
        "planned": path.planned,
        "network": path.network,
        "verdict": judged.verdict,
        "rate_bit_per_s": path.agreed_bit_per_s,
        "promised_bit_per_s": path.promised_bit_per_s,
        "goodput_bit_per_s": path.goodput_bit_per_s,
        "shared_by": path.shared_by,
        "limited_by": _written(path.limited_by),
        "hops": [_hop(hop) for hop in path.hops],
    }


def _hop(hop: Hop) -> dict[str, Any]:
    return {
        "from": str(hop.from_port),
        "to": str(hop.to_port),
        "cables": list(hop.cables),
        "phy": hop.phy,
        "rate_bit_per_s": hop.agreed_bit_per_s,
        "promised_bit_per_s": hop.promised_bit_per_s,
        "length_m": hop.length_m,
        "limit_m": hop.limit_m,
        "loss_equivalent_m": hop.loss_equivalent_m,
        "connections": hop.connections,
    }


def _gap(gap: NotChecked) -> dict[str, Any]:
    return {
        "rule": gap.rule,
        "where": [str(place) for place in gap.where],
        "reason": gap.reason,
        "decides": gap.decides,
    }


def _written(value: object) -> str | None:
    return None if value is None else str(value)
