"""Runs of twisted pair for tests: a seat and a switch, and between them whatever cables a test names, end to end."""

from __future__ import annotations

from typing import Any

from wiring import cable, device, jack, ref, seat, switch, wired

import netaudit
from netaudit.model.finding import Finding, NotChecked
from netaudit.model.plan import Cable, Plan, Port
from netaudit.model.report import Report


def solid(name: str, length_m: float | None, category: str = "6A", **fields: Any) -> Cable:
    """An installed cable."""
    return _part(name, length_m, category, installed=True, **fields)


def cord(name: str, length_m: float | None, gauge_awg: int | None = 26, category: str = "6A", **fields: Any) -> Cable:
    """A stranded cord; without a gauge it is one only beside an active port."""
    return _part(name, length_m, category, cord_awg=gauge_awg, **fields)


def _part(name: str, length_m: float | None, category: str, **fields: Any) -> Cable:
    return cable(name, "a/1", "b/1", category, length_m, **fields)  # type: ignore[arg-type]


def run_plan(
    *parts: Cable, gbit: float | None = 10, far: Port | None = None, joint: Port | None = None, **plan: Any
) -> Plan:
    """The plan of a seat and a switch with those cables between them, a passive port wherever two meet.

    `gbit` is the one rate of both ends [Gb/s]; None leaves the seat's rates unknown and lets the switch run up to 10.
    `far` is the switch's port and `joint` each passive one, where they are not plain.
    """
    stops = [f"panel/{number}" for number in range(1, len(parts))]
    nodes = ["cut-1/wire", *stops, "core/1"]
    laid = [
        part._replace(from_port=ref(near), to_ports=(ref(far),))
        for part, near, far in zip(parts, nodes, nodes[1:], strict=False)
    ]
    wire = jack(gbit) if gbit else Port(connector="rj45")
    ports = {str(number): joint or Port(connector="rj45") for number in range(1, len(parts))}
    core = switch("core", {"1": far or (jack(gbit) if gbit else jack())})
    return wired(seat("cut-1", {"wire": wire}), core, device("panel", "panel", ports), *laid, **plan)


def run_report(*parts: Cable, **fields: Any) -> Report:
    """The verdict on such a plan."""
    return netaudit.check(run_plan(*parts, **fields))


def only(report: Report, rule: str) -> Finding:
    """The one finding of a rule, which left nothing open."""
    assert not [gap for gap in report.not_checked if gap.rule == rule]
    (finding,) = [finding for finding in report.findings if finding.rule == rule]
    return finding


def silent(report: Report, rule: str) -> bool:
    """Whether a rule neither found anything nor left anything open."""
    return rule not in {judgement.rule for judgement in (*report.findings, *report.not_checked)}


def only_gap(report: Report, rule: str) -> NotChecked:
    """What one rule left open, which found nothing."""
    assert not [finding for finding in report.findings if finding.rule == rule]
    (gap,) = [gap for gap in report.not_checked if gap.rule == rule]
    return gap
