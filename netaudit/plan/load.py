"""Loading a plan: from a file or a text to a Plan, or to every problem in it."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

from netaudit.model.plan import Plan
from netaudit.plan.build import build
from netaudit.plan.lines import lines_of
from netaudit.plan.reading.files import decoded, read_bytes
from netaudit.plan.reading.problems import Problems, StoppedError
from netaudit.plan.reading.read import read
from netaudit.plan.references.sections import check_references


def load(path: str | os.PathLike[str]) -> Plan:
    """The plan in a file.

    Raises InputError with every problem of the file, in file order, where there is any.
    """
    file = os.fspath(path)
    return loads(read_bytes(file), file)


def loads(text: str | bytes, file: str = "<text>") -> Plan:
    """The plan in a text; `file` is what its problems and the plan itself name as their file.

    Raises InputError with every problem of the text, in its order, where there is any.
    """
    problems = Problems(file)
    try:
        with _no_collecting():
            return _plan(decoded(text, file), problems)
    except StoppedError:
        raise problems.error() from None


def _plan(text: str, problems: Problems) -> Plan:
    document = read(text, problems)
    plan = build(document, problems)
    check_references(plan, document, problems)
    if problems:
        raise problems.error()
    return replace(plan, lines=lines_of(plan, document, problems.positions))


@contextmanager
def _no_collecting() -> Iterator[None]:
    """Keep the cycle collector from walking the growing tree, which holds no cycles, again and again."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()
