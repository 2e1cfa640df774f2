"""The sheets of moving day: tests on arrival, the order of plugs, and what is ticked off at the end."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from netaudit.model.bill import Bill
from netaudit.model.moving import Step
from netaudit.report.bill.sheet import Cell, Sheet
from netaudit.report.bill.sheets.cells import joined, numbers, text
from netaudit.report.bill.words import expected_text

BENCH_COLUMNS = (*text("what"), *numbers("quantity"), *text("how", "done"))
MOVE_COLUMNS = (*text("when"), *numbers("number"), *text("group", "cable", "first", "then", "note", "done"))
ACCEPT_COLUMNS = text("cable", "from", "to", "expected", "where", "seen", "initials", "note")


def bench_sheet(bill: Bill) -> Sheet:
    """A row for each test of what has arrived."""
    rows = tuple((test.what, test.quantity, test.how, None) for test in bill.bench)
    return Sheet("bench", "Tests before anything goes into the room", BENCH_COLUMNS, rows)


def moves_sheet(bill: Bill) -> Sheet:
    """What to do first, then a row for each plug to pull, then for each plug to push, and what to do last."""
    steps = (*_steps("unplug", bill.unplug), *_steps("plug", bill.plug))
    rows = (*_notes("before", bill.before_moving), *steps, *_notes("after", bill.after_moving))
    return Sheet("moves", "What to unplug and what to plug in, in order", MOVE_COLUMNS, rows)


def _notes(when: str, sentences: Iterable[str]) -> Iterator[tuple[Cell, ...]]:
    return ((when, None, None, None, None, None, sentence, None) for sentence in sentences)


def _steps(when: str, steps: Iterable[Step]) -> Iterator[tuple[Cell, ...]]:
    for step in steps:
        yield (when, step.number, step.group, step.cable, str(step.first), joined(step.then), None, None)


def accept_sheet(bill: Bill) -> Sheet:
    """A row for each cable, with empty cells for what somebody sees; filled in, it can be read back."""
    rows = tuple(
        (
            row.cable,
            str(row.from_port),
            joined(row.to_ports),
            expected_text(row),
            row.where or None,
            None,
            None,
            None,
        )
        for row in bill.accept
    )
    return Sheet("accept", "What each link has to show", ACCEPT_COLUMNS, rows)
