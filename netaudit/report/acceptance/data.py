"""A filled acceptance sheet held against its plan, as JSON in the format netaudit.acceptance/1; unknown is null."""

from __future__ import annotations

import json
from typing import Any

from netaudit.model.moving import AcceptanceReport, AcceptedCable
from netaudit.report.acceptance.words import counted, sentence

FORMAT = "netaudit.acceptance/1"


def as_json(report: AcceptanceReport) -> str:
    """The whole report; ends with a line feed."""
    return json.dumps(document(report), ensure_ascii=False, indent=2) + "\n"


def document(report: AcceptanceReport) -> dict[str, Any]:
    """The whole report as plain values."""
    counts = counted(report)
    return {
        "format": FORMAT,
        "plan": {"file": report.file, "name": report.plan},
        "sheet": report.sheet,
        "sentence": sentence(report),
        "summary": {
            "cables": len(report.cables),
            "as_expected": counts["as expected"],
            "slower": counts["slower"],
            "faster": counts["faster"],
            "not_tested": counts["not tested"],
            "nothing_to_hold_against": counts["nothing to hold it against"],
            "no_rate_to_read": counts["no rate to read"],
        },
        "cables": [_cable(cable) for cable in report.cables],
        "remarks": list(report.remarks),
    }


def _cable(cable: AcceptedCable) -> dict[str, Any]:
    row = cable.row
    return {
        "cable": row.cable,
        "from": str(row.from_port),
        "to": [str(port) for port in row.to_ports],
        "expected_bit_per_s": row.expected_bit_per_s,
        "where": row.where,
        "verdict": cable.verdict,
        "seen": _seen(cable),
    }


def _seen(cable: AcceptedCable) -> dict[str, Any] | None:
    """The row of the sheet; None where the sheet does not have the cable."""
    seen = cable.seen
    if seen is None:
        return None
    return {
        "bit_per_s": seen.seen_bit_per_s,
        "ends": seen.ends,
        "initials": seen.initials,
        "note": seen.note,
        "line": seen.line,
    }
