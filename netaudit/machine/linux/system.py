"""Linux, asked: every question of a machine, handed to the room that knows the answer."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from netaudit.machine.linux import links, routes
from netaudit.machine.questions import RouteAnswer
from netaudit.model.machine_state import ClientFacts, Endpoint, Interface, Mount, Route, Session
from netaudit.model.observation import FrameTest, Growth, SwitchPort
from netaudit.model.vocabulary import Address, System

# ruff: noqa: PLC0415 - each question loads only what it needs: the first answer must not wait for the last


class Linux:
    """A machine that runs Linux; answers and raises as `netaudit.machine.questions.Machine` says."""

    system: System = "linux"

    def interfaces(self) -> Mapping[str, Interface]:
        """Every interface by name, with its agreed rate."""
        return links.interfaces()

    def detailed(self, interface: Interface) -> Interface:
        """The same interface with its bus, the rates of both ends, and the rate of a radio."""
        from netaudit.machine.linux.details import detailed

        return detailed(interface)

    def counts(self) -> Mapping[str, Growth]:
        """The counters of every interface since it came up."""
        return links.counts()

    def route(self, remote: Endpoint) -> RouteAnswer:
        """Where a new TCP connection of this user to `remote` would go now."""
        return routes.route(remote)

    def sessions(self, remotes: Collection[Address], ports: Collection[int]) -> tuple[Session, ...]:
        """Established TCP connections to some addresses and ports."""
        from netaudit.machine.linux.sockets import sessions

        return sessions(remotes, ports)

    def mount_of(self, folder: str) -> Mount | None:
        """The network file system that holds a folder."""
        from netaudit.machine.linux.mounts import mount_of

        return mount_of(folder)

    def client(self, mount: Mount | None, host: str, remotes: Collection[Address]) -> ClientFacts:
        """What the kernel's file client reports about its session with a storage."""
        from netaudit.machine.linux.client import client_facts

        return client_facts(mount, host, remotes)

    def neighbours(self, address: Address) -> tuple[str, ...]:
        """Hardware addresses that the kernel holds for an address on the link."""
        from netaudit.machine.linux.neighbours import neighbours

        return neighbours(address)

    def frame(self, address: Address, size_octets: int, route: Route, timeout_s: float) -> FrameTest:
        """Send one packet of a size that may not be cut, and wait for its answer."""
        from netaudit.machine.linux.frames import frame

        return frame(address, size_octets, route, timeout_s)

    def routers(self, address: Address, most: int, timeout_s: float) -> tuple[Address, ...]:
        """Routers on the way to an address, the nearest first."""
        from netaudit.machine.linux.routers import routers

        return routers(address, most, timeout_s)

    def listen(self, interface: Interface, seconds: float) -> SwitchPort | None:
        """Wait for the switch to announce its port."""
        from netaudit.machine.lldp import listen

        return listen(interface, seconds)

    def manager(self) -> str | None:
        """NetworkManager or systemd-networkd, whichever manages an interface."""
        from netaudit.machine.linux.managers import manager

        return manager()

    def service_order(self) -> tuple[str, ...]:
        """Linux has none: it goes by metrics."""
        return ()
