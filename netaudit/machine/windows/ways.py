"""Two ways to the same answers: direct calls first, PowerShell where they are barred."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, Protocol, TypeVar

from netaudit.errors import MachineError
from netaudit.machine.parse.windows.facts import (
    AdapterFacts,
    AddressFacts,
    Connection,
    IpInterface,
    NeighbourFacts,
    RouteFound,
)
from netaudit.machine.windows.asked import Ask
from netaudit.machine.windows.native import Native
from netaudit.model.vocabulary import Address

Answer = TypeVar("Answer")


class Way(Protocol):
    """What both ways answer."""

    def adapters(self) -> tuple[AdapterFacts, ...]:
        """Every interface and layer."""

    def addresses(self) -> tuple[AddressFacts, ...]:
        """This machine's own addresses."""

    def connections(self) -> tuple[Connection, ...]:
        """Living TCP connections of all processes."""

    def neighbours(self) -> tuple[NeighbourFacts, ...]:
        """The neighbours that are known by hardware address."""

    def best_route(self, remote: Address) -> RouteFound:
        """The route that a new connection would take."""

    def ip_interface(self, number: int, version: int) -> IpInterface | None:
        """How a version of IP, 4 or 6, uses an interface."""


class Ways(NamedTuple):
    """The ways to ask this Windows."""

    native: Native
    asked: Way
    ask: Ask

    def either(self, question: Callable[[Way], Answer]) -> Answer:
        """The answer by direct calls, or else by PowerShell, whose failure then counts."""
        try:
            return question(self.native)
        except MachineError:
            return question(self.asked)
