"""A machine for tests that answers from what it is given, and values to give it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from ipaddress import ip_address, ip_interface

from netaudit.machine.questions import RouteAnswer
from netaudit.model.machine_state import ClientFacts, Counters, Endpoint, Interface, Mount, Route, Session, SessionCount
from netaudit.model.observation import FrameTest, Growth, SwitchPort
from netaudit.model.vocabulary import Address, System

VAULT = ip_address("10.44.20.10")
SLOW_VAULT = ip_address("192.168.44.10")
CUT_1 = ip_address("10.44.20.11")
WIRE = Interface(
    name="en5",
    number=5,
    medium="wired",
    up=True,
    carrier=True,
    rate_bit_per_s=10**10,
    duplex="full",
    mtu=9000,
    mac="02:44:20:00:00:11",
    addresses=(ip_interface("10.44.20.11/24"),),
)
AIR = Interface(
    name="wlan0",
    number=3,
    medium="radio",
    up=True,
    carrier=True,
    rate_bit_per_s=300 * 10**6,
    mtu=1500,
    mac="02:44:20:00:00:12",
    addresses=(ip_interface("192.168.44.21/24"),),
)
BY_WIRE = Route("en5", CUT_1)


def session(port: int = 445, **counts: int) -> Session:
    """A living session with the vault by the wire."""
    return Session(Endpoint(CUT_1, 50_001), Endpoint(VAULT, port), "en5", tcp=SessionCount(**counts))


def growth(sent: int | None, received: int | None, changes: int | None = 0, **errors: int) -> Growth:
    """Counters of an interface."""
    return Growth(Counters(sent, received, sent, received, errors), changes)


@dataclass
class FakeMachine:
    """Each question is answered from a field; an exception in it is raised."""

    system: System = "linux"
    known_interfaces: Mapping[str, Interface] = field(default_factory=lambda: {"en5": WIRE, "wlan0": AIR})
    routes: Mapping[Address, Route | str] = field(default_factory=lambda: {VAULT: BY_WIRE})
    living: tuple[Session, ...] | Exception = ()
    mount: Mount | None = None
    client_facts: ClientFacts = field(default_factory=ClientFacts)
    held: tuple[str, ...] | Exception = ("02:44:20:00:00:10",)
    passes: int | None = 9000
    way: tuple[Address, ...] = ()
    announced: SwitchPort | Exception | None = None
    counters: list[Mapping[str, Growth]] = field(default_factory=lambda: [{"en5": growth(0, 0)}, {"en5": growth(9, 9)}])
    asked: list[str] = field(default_factory=list)
    """The questions that were asked, in order."""

    def interfaces(self) -> Mapping[str, Interface]:
        """Those that are known."""
        self.asked.append("interfaces")
        return self.known_interfaces

    def detailed(self, interface: Interface) -> Interface:
        """The same with rates offered."""
        self.asked.append(f"detailed {interface.name}")
        return interface._replace(offered=(10**10, 10**9))

    def counts(self) -> Mapping[str, Growth]:
        """The counters given, the last ones for ever."""
        self.asked.append("counts")
        return self.counters.pop(0) if len(self.counters) > 1 else self.counters[0]

    def route(self, remote: Endpoint) -> RouteAnswer:
        """The route given for an address; words are a refusal."""
        self.asked.append(f"route {remote}")
        found = self.routes.get(remote.address, "Network is unreachable")
        return RouteAnswer(None, found) if isinstance(found, str) else RouteAnswer(found)

    def sessions(self, remotes: Collection[Address], ports: Collection[int]) -> tuple[Session, ...]:
        """The sessions given."""
        self.asked.append("sessions")
        return _given(self.living)

    def mount_of(self, folder: str) -> Mount | None:
        """The mount given."""
        self.asked.append(f"mount of {folder}")
        return self.mount

    def client(self, mount: Mount | None, host: str, remotes: Collection[Address]) -> ClientFacts:
        """The facts given."""
        return self.client_facts

    def neighbours(self, address: Address) -> tuple[str, ...]:
        """The hardware addresses given."""
        self.asked.append(f"neighbours {address}")
        return _given(self.held)

    def frame(self, address: Address, size_octets: int, route: Route, timeout_s: float) -> FrameTest:
        """Whether the size passes."""
        self.asked.append(f"frame {size_octets}")
        return FrameTest(size_octets, None if self.passes is None else size_octets <= self.passes, "icmp")

    def routers(self, address: Address, most: int, timeout_s: float) -> tuple[Address, ...]:
        """The routers given."""
        self.asked.append(f"routers {address}")
        return self.way

    def listen(self, interface: Interface, seconds: float) -> SwitchPort | None:
        """The announcement given."""
        self.asked.append(f"listen {interface.name}")
        return _given(self.announced)

    def manager(self) -> str | None:
        """Nothing manages it."""
        return None

    def service_order(self) -> tuple[str, ...]:
        """It has no order."""
        return ()


def _given(value):
    if isinstance(value, Exception):
        raise value
    return value
