"""Windows, asked: every question of a machine, handed to the room that knows the answer."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from netaudit.errors import PrivilegeError
from netaudit.machine.questions import RouteAnswer
from netaudit.machine.windows import client, folders, frames, links, roads, shell
from netaudit.machine.windows.asked import Ask, Asked
from netaudit.machine.windows.native import Native
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import ClientFacts, Endpoint, Interface, Mount, Route, Session
from netaudit.model.observation import FrameTest, Growth, SwitchPort
from netaudit.model.vocabulary import Address, System


class Windows:
    """A machine that runs Windows; answers and raises as `netaudit.machine.questions.Machine` says."""

    system: System = "windows"

    def __init__(self, native: Native | None = None, ask: Ask = shell.ask) -> None:
        """`native` makes the direct calls, `ask` puts questions to PowerShell."""
        self._ways = Ways(native or Native(), Asked(ask), ask)

    def interfaces(self) -> Mapping[str, Interface]:
        """Every interface that counts by the name that people see, with its agreed rate."""
        return links.by_name(self._ways)

    def detailed(self, interface: Interface) -> Interface:
        """The same interface with its bus, its duplex and a forced rate."""
        return links.detailed(self._ways.ask, interface)

    def counts(self) -> Mapping[str, Growth]:
        """The counters of every interface since it came up."""
        return links.counts(self._ways)

    def route(self, remote: Endpoint) -> RouteAnswer:
        """Where a connection to `remote` would go: a prediction."""
        return roads.route(self._ways, remote)

    def sessions(self, remotes: Collection[Address], ports: Collection[int]) -> tuple[Session, ...]:
        """Established TCP connections to some addresses and ports; Windows counts nothing of them without elevation."""
        return roads.sessions(self._ways, remotes, ports)

    def mount_of(self, folder: str) -> Mount | None:
        """The share that holds a folder."""
        return folders.mount_of(self._ways, folder)

    def client(self, mount: Mount | None, host: str, remotes: Collection[Address]) -> ClientFacts:
        """What the SMB client reports about its session with a storage."""
        return client.client_facts(self._ways, mount, host, remotes)

    def neighbours(self, address: Address) -> tuple[str, ...]:
        """Hardware addresses that Windows holds for an address on the link."""
        return roads.neighbours(self._ways, address)

    def frame(self, address: Address, size_octets: int, route: Route, timeout_s: float) -> FrameTest:
        """Send one packet of a size that may not be cut, and wait for its answer."""
        return frames.frame(self._ways, address, size_octets, route, timeout_s)

    def routers(self, address: Address, most: int, timeout_s: float) -> tuple[Address, ...]:
        """Routers on the way to an address, the nearest first."""
        return frames.routers(self._ways, address, most, timeout_s)

    def listen(self, interface: Interface, seconds: float) -> SwitchPort | None:  # noqa: ARG002 - nobody may listen
        """Windows hands the switch's announcements to no program: PrivilegeError."""
        raise PrivilegeError("a packet capture driver, which Windows does not bring")

    def manager(self) -> str | None:
        """Nothing but Windows itself."""
        return None

    def service_order(self) -> tuple[str, ...]:
        """Windows goes by metric."""
        return ()
