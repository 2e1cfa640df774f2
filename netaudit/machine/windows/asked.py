"""The same questions that direct calls answer, put to PowerShell: the second way where the first is barred."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from netaudit.machine.parse.windows import adapters, addresses, find_route, neighbours, sessions
from netaudit.machine.parse.windows.facts import (
    AdapterFacts,
    AddressFacts,
    Connection,
    IpInterface,
    NeighbourFacts,
    RouteFound,
)
from netaudit.machine.parse.windows.rows import VERSION_4, VERSION_6
from netaudit.machine.parse.windows.script import answered, answered_or_empty
from netaudit.machine.windows import queries
from netaudit.model.vocabulary import Address

Ask = Callable[..., Mapping[str, object]]
"""Asks PowerShell some queries: the answers by their names."""


class Asked:
    """The questions; `ask` puts them to PowerShell."""

    def __init__(self, ask: Ask) -> None:
        self._ask = ask

    def adapters(self) -> tuple[AdapterFacts, ...]:
        """Every interface and layer; an adapter whose driver counts nothing has no counters."""
        answers = self._ask(queries.ADAPTERS, queries.STATISTICS)
        return adapters.adapters(answered(answers, "adapters"), answered_or_empty(answers, "statistics"))

    def addresses(self) -> tuple[AddressFacts, ...]:
        """This machine's own addresses."""
        return addresses.addresses(answered(self._ask(queries.ADDRESSES), "addresses"))

    def connections(self) -> tuple[Connection, ...]:
        """Living TCP connections of all processes."""
        return sessions.connections(answered(self._ask(queries.CONNECTIONS), "connections"))

    def neighbours(self) -> tuple[NeighbourFacts, ...]:
        """The neighbours that are known by hardware address."""
        return neighbours.neighbours(answered(self._ask(queries.NEIGHBOURS), "neighbours"))

    def best_route(self, remote: Address) -> RouteFound:
        """The route that a new connection would take."""
        return find_route.found_route(self._ask(queries.route_to(remote)), "route")

    def ip_interface(self, number: int, version: int) -> IpInterface | None:
        """How a version of IP, 4 or 6, uses an interface; None where it does not."""
        found = answered(self._ask(queries.IP_INTERFACES), "ipInterfaces")
        return addresses.ip_interface(found, number, VERSION_4 if version == 4 else VERSION_6)
