"""The questions that each operating system answers in its own way: what `linux`, `macos` and `windows` have in common.

Every answer is a value of the model. A question raises PrivilegeError where the system answers it only to somebody
more privileged, AnswerError where the answer is late or cannot be read, and MachineError where this machine has no way
to be asked at all. None, or an empty row, is an answer: the system knows of nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import NamedTuple, Protocol

from netaudit.model.machine_state import ClientFacts, Endpoint, Interface, Mount, Route, Session
from netaudit.model.observation import FrameTest, Growth, SwitchPort
from netaudit.model.vocabulary import Address, System


class RouteAnswer(NamedTuple):
    """What a route look-up came to: a route, or why there is none."""

    route: Route | None
    why_not: str | None = None
    """The system's words where there is none: `Network is unreachable`."""


class Machine(Protocol):
    """A machine that can be asked."""

    system: System

    def interfaces(self) -> Mapping[str, Interface]:
        """Every interface by name, with all that is known at once; bus and offered rates may be missing."""

    def detailed(self, interface: Interface) -> Interface:
        """The same interface with what takes longer to find out: bus, offered and partner's rates, radio rate."""

    def counts(self) -> Mapping[str, Growth]:
        """The counters of every interface since it came up; subtracting two answers gives growth."""

    def route(self, remote: Endpoint) -> RouteAnswer:
        """Where a new TCP connection of this user to `remote` would go now."""

    def sessions(self, remotes: Collection[Address], ports: Collection[int]) -> tuple[Session, ...]:
        """Established TCP connections to some ports of some addresses, or of any where none is given.

        Those of the kernel itself are among them.
        `interface` is where packets of the very connection go now; None where the system does not tell.
        """

    def mount_of(self, folder: str) -> Mount | None:
        """The network file system that holds a folder; None where it lies on a local disk.

        A dead share must not hang it: the folder itself is never touched. Raises InputError where there is no such
        folder on a local disk.
        """

    def client(self, mount: Mount | None, host: str, remotes: Collection[Address]) -> ClientFacts:
        """What the file client reports about its session with a storage."""

    def neighbours(self, address: Address) -> tuple[str, ...]:
        """Hardware addresses that the system holds for an address on the link."""

    def frame(self, address: Address, size_octets: int, route: Route, timeout_s: float) -> FrameTest:
        """Send one packet of a size that may not be cut, and wait for its answer."""

    def routers(self, address: Address, most: int, timeout_s: float) -> tuple[Address, ...]:
        """Routers on the way to an address, the nearest first, at most so many."""

    def listen(self, interface: Interface, seconds: float) -> SwitchPort | None:
        """Wait for the switch to announce its port; None where it is silent."""

    def manager(self) -> str | None:
        """What manages the network where the system has a choice."""

    def service_order(self) -> tuple[str, ...]:
        """Interfaces in the system's own order of preference; empty where it has none."""
