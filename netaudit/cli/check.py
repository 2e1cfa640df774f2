"""`netaudit check`: judge plans."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from netaudit.cli.output import OUTPUT, announce, refuse_overwriting, write_text
from netaudit.errors import InputError, Problem, nearest

if TYPE_CHECKING:
    from netaudit.model.plan import Plan
    from netaudit.model.report import Report


@click.command(short_help="Judge a plan.")
@click.argument("plans", metavar="PLAN...", nargs=-1, required=True, type=click.Path(readable=False))
@click.option("--station", "stations", metavar="NAME", multiple=True, help="Keep what touches this seat; repeatable.")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@OUTPUT
def check(plans: Sequence[str], stations: Sequence[str], form: str, output: str | None) -> int:
    """Judge each PLAN: every path from every edit station to its storage.

    The answer comes first, in one sentence. Exit code 1 means that something fails, 2 that a plan could not be read;
    the other plans are judged all the same.
    """
    refuse_overwriting(output, plans)
    reports, problems = _judge(plans, stations)
    if reports:
        if form == "text" and output in (None, "-") and sys.stdout.isatty():
            _show(reports)
        else:
            write_text(_rendered(reports, form, len(plans)), output)
    if problems:
        raise InputError(problems)
    return max((report.exit_code for report in reports), default=0)


def _judge(plans: Sequence[str], stations: Sequence[str]) -> tuple[list[Report], list[Problem]]:
    """The reports of the plans that can be read, and all that is wrong with the others."""
    from netaudit.audit import audit, narrowed  # noqa: PLC0415 - --help never pays for it
    from netaudit.plan.load import load  # noqa: PLC0415 - as above

    reports: list[Report] = []
    problems: list[Problem] = []
    for file in plans:
        try:
            announce(file, "reading")
            plan = load(file)
            _require_stations(plan, stations)
            announce(file, "judging")
            report = audit(plan)
            reports.append(narrowed(report, stations) if stations else report)
        except InputError as error:
            problems.extend(error.problems)
    return reports, problems


def _require_stations(plan: Plan, stations: Sequence[str]) -> None:
    known = [device.name for device in plan.devices.values() if device.role == "station"]
    problems = []
    for name in stations:
        if name in known:
            continue
        device = plan.devices.get(name)
        like = nearest(name, known)
        hint = f"; {like!r} is" if like else f"; the stations are {', '.join(known)}" if known else ""
        what = f"is a device of role {device.role}, not a station" if device else "is not in the plan"
        problems.append(Problem(plan.file, f"--station: {name!r} {what}{hint}"))
    if problems:
        raise InputError(problems)


def _rendered(reports: Sequence[Report], form: str, asked: int) -> str:
    if form == "json":
        from netaudit.report.data import all_as_json, as_json  # noqa: PLC0415 - text never pays for it

        return as_json(reports[0]) if asked == 1 else all_as_json(reports)
    from netaudit.report.plain import plain  # noqa: PLC0415 - as above

    return "\n".join(plain(report) for report in reports)


def _show(reports: Sequence[Report]) -> None:
    from netaudit.report.console import show  # noqa: PLC0415 - pipes never pay for it

    for place, report in enumerate(reports):
        if place:
            click.echo()
        show(report, sys.stdout)
