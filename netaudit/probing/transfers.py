"""Reading and writing one file, bounded, while handshakes tell how the network fares meanwhile."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from netaudit.errors import MachineError
from netaudit.machine.clock import Deadline, now_s
from netaudit.machine.files import Step, Transfer, pick
from netaudit.machine.knocking import knocks
from netaudit.machine.questions import Machine
from netaudit.model.machine_state import Counters, Direction, Endpoint, Session
from netaudit.model.observation import Timing
from netaudit.probing.asking import Notebook
from netaudit.probing.interval import grown, sessions_grown
from netaudit.probing.request import TRANSFER_BYTES, TRANSFER_S, Request

STEP_BYTES = 4 << 20
"""What is read or written in one step [byte]."""
WARM_BYTES = 256 << 20
"""Size of the part that is read once more, which the storage can keep in its memory [byte]."""
LEAST_BYTES = 64 << 20
"""The least file that says anything about a rate of 10 Gb/s [byte]."""
PICK_S = 2.0
"""Wait for a file worth reading to be found [s]."""
LISTEN_S = 0.2
"""How often handshakes are made while a file is on its way [s]."""
WANT_RATES = ("storage-stalls", "signing-or-encryption", "not-the-network", "link-full")


class Job(NamedTuple):
    """A file that is to be read or written."""

    path: str
    direction: Literal["read", "write"]
    cold: bool | None
    most_bytes: int


def transfers(machine: Machine, request: Request, end: Endpoint | None, notes: Notebook) -> tuple[Timing, ...]:
    """The timings that were asked for: one file cold, the same part once more, one file written."""
    found: list[Timing] = []
    if request.read:
        picked = notes.ask("a file to read", WANT_RATES, lambda: [pick(request.target, LEAST_BYTES, PICK_S)])
        path = picked[0] if picked else None
        if picked and path is None:
            remedy = f"give a folder or a file of at least {LEAST_BYTES >> 20} MiB"
            notes.note("how fast the storage reads", WANT_RATES, "no file large enough lies there", remedy)
        if path is not None:
            found += _twice(machine, path, end, notes)
    if request.write:
        job = Job(request.target, "write", cold=None, most_bytes=TRANSFER_BYTES)
        found += _timed(machine, job, end, notes)
    return tuple(found)


def _twice(machine: Machine, path: str, end: Endpoint | None, notes: Notebook) -> Iterator[Timing]:
    cold = list(_timed(machine, Job(path, "read", cold=True, most_bytes=WARM_BYTES), end, notes))
    yield from cold
    if cold and cold[0].bytes:
        yield from _timed(machine, Job(path, "read", cold=False, most_bytes=cold[0].bytes), end, notes)


def _timed(machine: Machine, job: Job, end: Endpoint | None, notes: Notebook) -> Iterator[Timing]:
    """One transfer with what the interfaces and sessions did meanwhile; nothing where it could not be made."""
    before = machine.counts()
    then = _sessions(machine, end)
    went = _carried(job, end, notes)
    moved = sum(step.bytes for step in went.steps)
    if went.failed is not None and not moved:
        what = f"how fast a file can be {'read' if job.direction == 'read' else 'written'}"
        notes.note(what, WANT_RATES, went.failed, "look at the folder's rights, or at the storage")
        return
    growth = grown(before, machine.counts())
    way: Direction = "in" if job.direction == "read" else "out"
    busiest = max(growth, key=lambda name: growth[name].counters.towards(way) or 0, default=None)
    counters = Counters() if busiest is None else growth[busiest].counters
    yield Timing(
        path=job.path,
        direction=job.direction,
        bytes=moved,
        seconds=went.seconds,
        steps_s=went.steps_s,
        step_bytes=STEP_BYTES,
        cold=job.cold,
        received_bytes=counters.received_bytes,
        sent_bytes=counters.sent_bytes,
        interface=busiest,
        handshakes_s=went.handshakes_s,
        cpu_share=went.cpu_share,
        sessions=sessions_grown(then, _sessions(machine, end)),
    )


class _Went(NamedTuple):
    """How a transfer went."""

    steps: Sequence[Step]
    seconds: float
    done: bool
    handshakes_s: tuple[float, ...]
    failed: str | None
    cpu_share: float | None

    @property
    def steps_s(self) -> tuple[float, ...]:
        """The time of each step [s]; the last may be one that was waited for in vain."""
        known = tuple(step.seconds for step in self.steps if step.bytes)
        waiting_s = self.seconds - sum(step.seconds for step in self.steps)
        return known if self.done or waiting_s <= 0 else (*known, waiting_s)


def _carried(job: Job, end: Endpoint | None, notes: Notebook) -> _Went:
    """Move the file, shaking hands with the storage all the while."""
    deadline = Deadline(notes.deadline.at_most(TRANSFER_S))
    handshakes_s: list[float] = []
    steps: list[Step] = []
    with Transfer(job.path, job.direction, job.most_bytes, STEP_BYTES) as transfer:
        started_s = now_s()
        while not transfer.done and not deadline.over:
            steps += transfer.steps(deadline.at_most(LISTEN_S))
            if end is not None and not transfer.done:
                knocked = knocks([end], deadline.at_most(LISTEN_S))
                handshakes_s += [one.seconds for one in knocked if one.seconds is not None]
        seconds = now_s() - started_s
        went = _Went(steps, seconds, transfer.done, tuple(handshakes_s), transfer.failed, transfer.cpu_share)
    if transfer.left is not None:
        notes.note("removing the test file", (), f"{transfer.left} is still there", f"remove {transfer.left} by hand")
    return went


def _sessions(machine: Machine, end: Endpoint | None) -> Sequence[Session]:
    """The living sessions with the storage; none where they cannot be told."""
    try:
        return () if end is None else machine.sessions((end.address,), (end.port,))
    except MachineError:
        return ()
