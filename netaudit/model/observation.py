"""An observation: all that a probe saw of a storage from one machine. None is not known, never zero."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from netaudit.model.machine_state import Channel, ClientFacts, Counters, Interface, Mount, Route, Session, SessionCount
from netaudit.model.services import SSH
from netaudit.model.vocabulary import Address, System

Origin = Literal["literal", "hosts", "dns", "mdns", "mount", "plan"]
"""Where an address of the storage comes from."""
Outcome = Literal["open", "refused", "silent", "unreachable", "blocked"]
"""How a service answers: a handshake · refused by the host · nothing within the deadline · the system or a router says
that there is no way · this system's own privacy guard forbids it."""
FrameMethod = Literal["icmp", "udp", "system"]


class Knock(NamedTuple):
    """The answers to a row of handshakes with one service at one address."""

    outcome: Outcome
    round_trips_s: tuple[float, ...] = ()
    """Handshake times of those that were answered, a refusal included [s]."""
    lost: int = 0
    """Handshakes that were not answered in time, or only after TCP had to ask again."""
    mss: int | None = None
    """Largest segment that a connection just made may send, as the two ends agreed on it [octets]."""


class FrameTest(NamedTuple):
    """Whether one packet of a size, not to be cut on the way, came back."""

    size_octets: int
    """Size of the whole IP packet [octets]."""
    passed: bool | None
    """None where this machine would not send it or nothing can be said."""
    method: FrameMethod
    told_mtu: int | None = None
    """The size that a router or this system named instead [octets]."""


class Neighbours(NamedTuple):
    """The hardware addresses that answer for one address."""

    macs: tuple[str, ...]
    """In the order in which they answered."""
    asked: bool
    """Whether every one was asked for; else it is the one the system holds."""


class SmbFacts(NamedTuple):
    """What an SMB server says of itself to whoever asks."""

    dialect: str | None = None
    signing_required: bool | None = None
    encryption_required: bool | None = None
    """Known only after signing in."""
    identity: str | None = None
    """The server's own identifier, the same on each of its addresses."""
    signed_in: bool = False


class Offer(NamedTuple):
    """A port that the storage offers for further connections."""

    address: Address
    rate_bit_per_s: int | None = None
    number: int | None = None
    """The storage's own number of the interface: several addresses of one port share it."""


class FarAddress(NamedTuple):
    """An address of the storage, and what was learnt about it from here."""

    address: Address
    origin: Origin
    route: Route | None = None
    no_route: str | None = None
    """Why there is no route, in the system's words."""
    knocks: Mapping[int, Knock] = {}
    """Service port to its answers."""
    neighbours: Neighbours | None = None
    frames: tuple[FrameTest, ...] = ()
    routers: tuple[Address, ...] | None = None
    """Routers on the way, the nearest first; None where nobody asked."""
    smb: SmbFacts | None = None
    smb_silent: bool = False
    """Whether its SMB service took a question and never answered it, though the handshake was answered."""

    @property
    def is_here(self) -> bool:
        """Whether it is this machine's own."""
        return self.route is not None and self.route.local

    @property
    def path_mtu(self) -> int | None:
        """The largest packet that passed unbroken [octets]."""
        return max((test.size_octets for test in self.frames if test.passed), default=None)

    @property
    def answers(self) -> bool | None:
        """Whether anything answers there; None where nobody asked."""
        if not self.knocks:
            return None
        return any(knock.outcome in ("open", "refused") for knock in self.knocks.values())

    @property
    def serves(self) -> bool:
        """Whether a service is known to take connections there."""
        return any(knock.outcome == "open" for knock in self.knocks.values())


def most_likely(addresses: Sequence[FarAddress]) -> Sequence[FarAddress]:
    """The addresses of a name of which a new connection takes the first.

    Clients go on to the next address where one refuses. One that is this machine's own counts only where it serves, or
    where nothing else answers: bridges of containers have the same address on many machines.
    """
    serving = [each for each in addresses if each.serves]
    elsewhere = [each for each in addresses if not each.is_here]
    answering = [each for each in elsewhere if each.answers] or [each for each in addresses if each.answers]
    return serving or answering or elsewhere or addresses


class Growth(NamedTuple):
    """What an interface did within the interval."""

    counters: Counters
    carrier_changes: int | None = None


class Moved(NamedTuple):
    """What moved within an interval."""

    seconds: float
    """Its length [s]."""
    interfaces: Mapping[str, Growth]
    sessions: Mapping[tuple[str, str], SessionCount] = {}
    """Local and remote end of a session that lived through it, as text, to what it did."""
    handshakes: Mapping[Address, int] = {}
    """Handshakes that each address of the storage accepted within it: each brings one packet back at least."""

    def of_session(self, session: Session) -> SessionCount | None:
        """What a session did; None where it did not live through the interval."""
        return self.sessions.get((str(session.local), str(session.remote)))


class Timing(NamedTuple):
    """A file, or part of one, that was read or written in bounded steps."""

    path: str
    direction: Literal["read", "write"]
    bytes: int
    """What was moved [byte]."""
    seconds: float
    """How long that took [s]."""
    steps_s: tuple[float, ...]
    """Time of each step [s]."""
    step_bytes: int
    cold: bool | None
    """Whether it came from the storage's disks for the first time; None where that is open."""
    received_bytes: int | None = None
    """What the busiest interface received meanwhile: less than the file means that this machine had it in memory."""
    sent_bytes: int | None = None
    interface: str | None = None
    """That interface."""
    handshakes_s: tuple[float, ...] = ()
    """Handshake times with the storage meanwhile [s]."""
    cpu_share: float | None = None
    """Share of one processor core that reading took here [0 to 1]."""
    sessions: Mapping[tuple[str, str], SessionCount] = {}
    """Local and remote end of a session that lived through it, as text, to what it did meanwhile."""

    @property
    def rate_bit_per_s(self) -> float | None:
        """What it ran at [bit/s]."""
        return self.bytes * 8 / self.seconds if self.seconds > 0 and self.bytes else None


class SwitchPort(NamedTuple):
    """The switch port that this machine is plugged into, as the switch announces it."""

    interface: str
    switch: str | None
    """Name of the switch; its address where it has no name."""
    port: str | None
    """The port's name or number."""
    description: str | None = None
    mtu: int | None = None
    """Largest frame it takes [octets]."""
    vlan: int | None = None


class Skipped(NamedTuple):
    """A question that was not answered."""

    what: str
    """The question as a noun phrase: `hardware addresses of 10.44.20.10`."""
    why: str
    """Why not, as a sentence without its full stop."""
    remedy: str
    """What would answer it: the privilege, the option, the tool."""
    rules: tuple[str, ...] = ()
    """The rules that wanted it."""


class Observation(NamedTuple):
    """All that a probe saw."""

    target: str
    """What was asked about, as typed."""
    system: System
    host: str
    """The storage's name or address."""
    ports: tuple[int, ...]
    """Service ports that were asked about, the likeliest first."""
    mount: Mount | None = None
    addresses: tuple[FarAddress, ...] = ()
    """In the order in which this system would try them."""
    interfaces: Mapping[str, Interface] = {}
    sessions: tuple[Session, ...] = ()
    client: ClientFacts = ClientFacts()
    offers: tuple[Offer, ...] | None = None
    """Ports that the storage offers; None where it did not tell."""
    moved: Moved | None = None
    timings: tuple[Timing, ...] = ()
    switch_port: SwitchPort | None = None
    skipped: tuple[Skipped, ...] = ()
    manager: str | None = None
    """What manages the network, where this system has a choice: networkmanager, networkd."""
    service_order: tuple[str, ...] = ()
    """Interfaces in the order that macOS prefers them."""
    took_s: float = 0.0
    bound_s: float | None = None
    """The longest that it might have taken [s]."""
    complete: bool = False
    """Whether every step was made; a first look only has the road."""

    @property
    def channels(self) -> tuple[Channel, ...]:
        """The client's channels that carry data."""
        return tuple(channel for channel in self.client.channels if channel.active)

    @property
    def file_sessions(self) -> tuple[Session, ...]:
        """The sessions that carry files: one of the secure shell is a mere terminal unless that was asked about."""
        return tuple(each for each in self.sessions if each.service != SSH or SSH in self.ports)
