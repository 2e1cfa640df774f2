"""macOS, asked: every question of a machine, handed to the room that knows the answer."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from netaudit.machine.macos import far, links, roads, shares
from netaudit.machine.macos.asking import NETWORKSETUP, SCUTIL, beside, text
from netaudit.machine.parse.macos.network_setup import parse_service_order
from netaudit.machine.parse.macos.scutil import parse_nwi
from netaudit.machine.questions import RouteAnswer
from netaudit.model.machine_state import ClientFacts, Endpoint, Interface, Mount, Route, Session
from netaudit.model.observation import FrameTest, Growth, SwitchPort
from netaudit.model.vocabulary import Address, System


class MacOS:
    """A machine that runs macOS; answers and raises as `netaudit.machine.questions.Machine` says."""

    system: System = "macos"

    def interfaces(self) -> Mapping[str, Interface]:
        """Every interface by name, with its agreed rate."""
        return links.interfaces()

    def detailed(self, interface: Interface) -> Interface:
        """The same interface with its bus, the rates it can run, and the rate of a radio."""
        return links.detailed(interface)

    def counts(self) -> Mapping[str, Growth]:
        """The counters of every interface since it came up; macOS does not count how often carrier came and went."""
        return links.counts()

    def route(self, remote: Endpoint) -> RouteAnswer:
        """Where a new TCP connection to `remote` would go now."""
        return roads.route(remote)

    def sessions(self, remotes: Collection[Address], ports: Collection[int]) -> tuple[Session, ...]:
        """Established TCP connections to some addresses and ports."""
        return roads.sessions(remotes, ports)

    def mount_of(self, folder: str) -> Mount | None:
        """The network file system that holds a folder."""
        return shares.mount_of(folder)

    def client(self, mount: Mount | None, host: str, remotes: Collection[Address]) -> ClientFacts:
        """What the file client reports about its session with a storage."""
        return shares.client(mount, host, remotes)

    def neighbours(self, address: Address) -> tuple[str, ...]:
        """Hardware addresses that the kernel holds for an address on the link."""
        return far.neighbours(address)

    def frame(self, address: Address, size_octets: int, route: Route, timeout_s: float) -> FrameTest:
        """Send one packet of a size that may not be cut, and wait for its answer."""
        return far.frame(address, size_octets, route, timeout_s)

    def routers(self, address: Address, most: int, timeout_s: float) -> tuple[Address, ...]:
        """Routers on the way to an address, the nearest first."""
        return far.routers(address, most, timeout_s)

    def listen(self, interface: Interface, seconds: float) -> SwitchPort | None:
        """Wait for the switch to announce its port; raises PrivilegeError for whoever is not root."""
        from netaudit.machine.lldp import listen  # noqa: PLC0415 - only who listens pays for it

        return listen(interface, seconds)

    def manager(self) -> None:
        """A Mac has no choice of managers."""

    def service_order(self) -> tuple[str, ...]:
        """Interfaces in the order that the user gave their services, joined by device; else in the system's own."""
        said = beside(lambda: text(NETWORKSETUP, "-listnetworkserviceorder")) or ""
        chosen = [each.device for each in parse_service_order(said) if each.enabled and each.device is not None]
        if not chosen:
            ranked = beside(lambda: parse_nwi(text(SCUTIL, "--nwi"))) or ()
            chosen = [each.interface for each in ranked]
        return tuple(dict.fromkeys(chosen))
