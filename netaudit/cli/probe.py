"""`netaudit probe`: ask this machine which port really carries traffic to a storage."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Literal, NamedTuple

import click

from netaudit.cli.output import OUTPUT, refuse_overwriting, write_text
from netaudit.cli.together import require_only
from netaudit.errors import InputError, Problem
from netaudit.machine.this import this_machine
from netaudit.probing.request import Request

if TYPE_CHECKING:
    from netaudit.cli.seat import Seat
    from netaudit.machine.questions import Machine
    from netaudit.model.diagnosis import Diagnosis
    from netaudit.model.observation import Observation
    from netaudit.probing.probe import Probe

PASSWORD = "NETAUDIT_PASSWORD"  # noqa: S105 - the variable's name, no password
"""The environment variable that holds the password of --user."""


class Form(NamedTuple):
    """How the answer is written."""

    form: Literal["text", "json"]
    output: str | None

    @property
    def spoken(self) -> bool:
        """Whether the first sentence appears as soon as it is known."""
        return self.form == "text" and self.output in (None, "-")


@click.command(short_help="Ask which port carries the storage's traffic.")
@click.argument("target", required=False)
@click.option("--plan", "plan_file", metavar="PLAN", type=click.Path(readable=False), help="Hold it against a plan.")
@click.option("--station", metavar="NAME", help="The seat of the plan that this machine is.")
@click.option(
    "--port",
    "ports",
    metavar="N",
    type=click.IntRange(1, 65535),
    multiple=True,
    help="Ask for this service instead of SMB and NFS; repeatable.",
)
@click.option(
    "--seconds",
    type=click.FloatRange(0.2, 60),
    default=2.0,
    show_default=True,
    help="How long to watch the counters.",
)
@click.option("--read", is_flag=True, help="Read a file of the folder, at most 256 MiB, twice.")
@click.option("--write", is_flag=True, help="Write a new file into the folder, at most 1 GiB or 5 s, and remove it.")
@click.option(
    "--listen",
    "listen_s",
    metavar="SECONDS",
    type=click.FloatRange(0, 120),
    default=0,
    help="Wait for the switch to name its port (as root).",
)
@click.option(
    "--watch",
    "watch_s",
    metavar="SECONDS",
    type=click.FloatRange(1, 3600),
    help="Probe again and again; tell only what changes, until Ctrl-C.",
)
@click.option("--self", "itself", is_flag=True, help="Write a first plan from this machine instead.")
@click.option(
    "--user", metavar="NAME", help=f"Sign in to the storage; {PASSWORD} holds the password, or it is asked for."
)
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@OUTPUT
def probe(  # noqa: PLR0913 - one for each option
    *,
    target: str | None,
    plan_file: str | None,
    station: str | None,
    ports: tuple[int, ...],
    seconds: float,
    read: bool,
    write: bool,
    listen_s: float,
    watch_s: float | None,
    itself: bool,
    user: str | None,
    form: Literal["text", "json"],
    output: str | None,
) -> int:
    """Tell which port carries the traffic to TARGET right now, at what speed, and whether it is the planned one.

    TARGET is the storage's name or address, or a folder on the mounted share. Nothing on this machine or its network is
    changed, and nobody but the storage is talked to. Exit code 1 means that something fails, 2 that the name is
    unknown, 3 that this machine could not be asked.
    """
    if itself:
        require_only("--self", {"target", "itself", "output"})
    elif watch_s is not None:
        require_only("--watch", {"target", "watch_s", "plan_file", "station", "ports", "seconds", "user"})
    machine = this_machine()
    if itself:
        return _draft(machine, target, output)
    if not target:
        raise click.UsageError("Missing argument 'TARGET': the storage's name or address, or a folder on the share.")
    request = Request(target, ports, seconds, read, write, listen_s, user, None if user is None else _password(user))
    _require_folder(request)
    refuse_overwriting(output, [] if plan_file is None else [plan_file])
    seat = None if plan_file is None else _seat(plan_file, station, machine)
    if station is not None and seat is None:
        raise click.UsageError("--station names a seat of a plan: give --plan PLAN too.")
    if watch_s is not None:
        return _watch(machine, request, seat, watch_s)
    return _answer(machine, request, seat, Form(form, output))


def _answer(machine: Machine, request: Request, seat: Seat | None, form: Form) -> int:
    """Probe once; the first sentence is said before the talk with the storage begins."""
    probing = _probing(machine, request, seat)
    seen = probing.first_look()
    if form.spoken:
        _say_first(seen, seat, request)
    diagnosis = _diagnosed(probing, seen, seat)
    if form.spoken:
        say_otherwise(diagnosis)
    if form.form == "json":
        from netaudit.report.probe.data import as_json  # noqa: PLC0415 - text never pays for it

        write_text(as_json(diagnosis), form.output)
    elif not form.spoken:
        from netaudit.report.probe.plain import whole  # noqa: PLC0415 - as above

        write_text(whole(diagnosis), form.output)
    elif sys.stdout.isatty():
        from netaudit.report.probe.console import show_rest  # noqa: PLC0415 - pipes never pay for it

        show_rest(diagnosis, sys.stdout)
    else:
        from netaudit.report.probe.plain import rest  # noqa: PLC0415 - as above

        write_text(rest(diagnosis), form.output)
    return diagnosis.exit_code


def _say_first(seen: Observation, seat: Seat | None, request: Request) -> None:
    """The answer as far as this machine's own tables give it, and how long the rest may take."""
    from netaudit.report.probe.words import sentence  # noqa: PLC0415 - JSON never pays for it
    from netaudit.rules.situation import situate  # noqa: PLC0415 - as above

    click.echo(sentence(situate(seen, None if seat is None else seat.expects_of(seen))))
    sys.stdout.flush()
    if sys.stderr.isatty():
        click.echo(f"talking with {seen.host}, at most {request.bound_s:.0f} s …", err=True)


def say_otherwise(diagnosis: Diagnosis) -> None:
    """The answer anew where the counters have proven the first one, a prediction, to be wrong."""
    from netaudit.report.probe.words import sentence  # noqa: PLC0415 - as above

    if any(use.evidence == "counters" for use in diagnosis.situation.uses):
        click.echo(f"The counters say otherwise: {sentence(diagnosis.situation)}")


def _probing(machine: Machine, request: Request, seat: Seat | None) -> Probe:
    from netaudit.probing.probe import Probe  # noqa: PLC0415 - --help never pays for it

    return Probe(machine, request if seat is None else seat.refined(request))


def _diagnosed(probing: Probe, first: Observation, seat: Seat | None) -> Diagnosis:
    """The closer look after a first one, judged."""
    from netaudit.diagnosis import diagnose  # noqa: PLC0415 - the first sentence never waits for it

    if seat is None:
        return diagnose(probing.closer_look(first))
    seen = probing.closer_look(first, seat.planned_interfaces(first))
    return diagnose(seen, seat.expects_of(seen))


def _watch(machine: Machine, request: Request, seat: Seat | None, watch_s: float) -> int:
    """Probe again and again; a line with its time for whatever changes. Ends with Ctrl-C only."""
    from netaudit.machine.clock import now_s, pause, time_of_day  # noqa: PLC0415 - --help never pays for it
    from netaudit.report.probe.changes import changes  # noqa: PLC0415 - as above
    from netaudit.report.probe.words import sentence  # noqa: PLC0415 - as above

    before: Diagnosis | None = None
    while True:
        started_s = now_s()
        probing = _probing(machine, request, seat)
        diagnosis = _diagnosed(probing, probing.first_look(), seat)
        for line in (sentence(diagnosis.situation),) if before is None else changes(before, diagnosis):
            click.echo(f"{time_of_day()}  {line}")
        sys.stdout.flush()
        before = diagnosis
        pause(watch_s - (now_s() - started_s))


def _draft(machine: Machine, target: str | None, output: str | None) -> int:
    """Write a first plan from what this machine tells of itself."""
    from netaudit.plan.drafting.observed import draft_of, remarks_on  # noqa: PLC0415 - a probe never pays for it
    from netaudit.plan.writing.write import write  # noqa: PLC0415 - as above
    from netaudit.probing.survey import survey  # noqa: PLC0415 - as above

    plan = draft_of(survey(machine, target))
    write_text(write(plan, remarks_on(plan)), output)
    return 0


def _require_folder(request: Request) -> None:
    """Raise InputError where a file is to be read or written and the target is no folder."""
    options = [name for name, asked in (("--read", request.read), ("--write", request.write)) if asked]
    if options and not request.is_folder:
        verb = "needs" if len(options) == 1 else "need"
        text = f"{' and '.join(options)} {verb} a folder on the mounted share as the target, such as /mnt/media"
        raise InputError([Problem(request.target, text)])


def _password(user: str) -> str:
    """The password of a user: from the environment, else asked for where there is somebody to ask."""
    found = os.environ.get(PASSWORD)
    if found is not None:
        return found
    if not sys.stdin.isatty():
        raise InputError([Problem("--user", f"the password of {user!r} must stand in the environment as {PASSWORD}")])
    return str(click.prompt(f"Password of {user}", hide_input=True, err=True))


def _seat(plan_file: str, station: str | None, machine: Machine) -> Seat:
    from netaudit.cli.seat import find_seat  # noqa: PLC0415 - only plans pay for it

    return find_seat(plan_file, station, machine)
