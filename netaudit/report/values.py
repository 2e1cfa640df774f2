"""Findings and sources as plain values, which every JSON form shares; unknown is null."""

from __future__ import annotations

from typing import Any

from netaudit.citation import Citation
from netaudit.model.finding import Finding, Measure


def finding_values(finding: Finding) -> dict[str, Any]:
    """One finding."""
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "where": [str(place) for place in finding.where],
        "line": finding.line,
        "message": finding.message,
        "measured": _measure(finding.measured),
        "limit": _measure(finding.limit),
        "source": source_values(finding.source),
        "remedy": finding.remedy,
    }


def source_values(source: Citation) -> dict[str, Any]:
    """One source."""
    return {"document": source.document, "clause": source.clause, "standing": source.standing}


def _measure(measure: Measure | None) -> dict[str, Any] | None:
    """A measure; sums of lengths and losses are rounded to a millionth, where floating point begins to show."""
    return None if measure is None else {"value": round(measure.value, 6), "unit": measure.unit}
