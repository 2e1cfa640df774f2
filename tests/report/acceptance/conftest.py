"""A filled sheet with a cable of every verdict, and with a hostile note."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.model.moving import Acceptance, AcceptanceReport, AcceptedCable, SeenRate, Verdict
from netaudit.model.place import PortRef

TEN = 10_000_000_000
ONE = 1_000_000_000


def cable(
    name: str, verdict: Verdict, seen: int | None = None, expected: int | None = TEN, note: str = ""
) -> AcceptedCable:
    """A cable from a seat to the switch; not on the sheet where nobody has tested it."""
    row = Acceptance(name, PortRef("cut-1", "wire"), (PortRef("core", "1"),), expected, "read at cut-1/wire and core/1")
    if verdict in ("not tested", "no rate to read"):
        return AcceptedCable(row, None, verdict)
    return AcceptedCable(row, SeenRate(name, "cut-1/wire - core/1", seen, "MB", note, 2), verdict)


@pytest.fixture
def report() -> Callable[..., AcceptanceReport]:
    """A report of some cables of the Boathouse."""

    def made(*cables: AcceptedCable, remarks: tuple[str, ...] = ()) -> AcceptanceReport:
        return AcceptanceReport("boathouse.yaml", "Boathouse", "accept.csv", cables, remarks)

    return made


@pytest.fixture
def good() -> Callable[[int], tuple[AcceptedCable, ...]]:
    """So many cables that run as planned."""
    return lambda count: tuple(cable(f"G{number:02}", "as expected", TEN) for number in range(1, count + 1))


@pytest.fixture
def every() -> tuple[AcceptedCable, ...]:
    """A cable of every verdict, and one without a link."""
    return (
        cable("C01", "as expected", TEN),
        cable("C09", "slower", ONE, note="a note\nover\x1b[31m two lines"),
        cable("C10", "slower", 0),
        cable("C11", "faster", TEN, ONE),
        cable("C12", "not tested"),
        cable("C13", "nothing to hold it against", ONE, None),
        cable("C14", "no rate to read", None, None),
    )


@pytest.fixture
def made_cable() -> Callable[..., AcceptedCable]:
    """The maker of a cable."""
    return cable
