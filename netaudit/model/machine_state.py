"""What a machine says of itself: interfaces, routes, sessions, mounts. None is what it does not tell, never zero."""

from __future__ import annotations

from collections.abc import Mapping
from ipaddress import IPv4Interface, IPv6Interface
from typing import Literal, NamedTuple

from netaudit.model.vocabulary import Address, Subnet

Medium = Literal["wired", "radio", "tunnel", "virtual", "unknown"]
Duplex = Literal["full", "half"]
Direction = Literal["in", "out"]
"""Which way something goes, as this machine sees it: received or sent."""
Evidence = Literal["client", "counters", "session", "route"]
"""How a road is known, the surest first: what the file client reports, where counters show that packets leave
against the look-up, where a living session's packets go, what the route look-up predicts for a new connection."""


class Counters(NamedTuple):
    """What an interface has counted since it came up, or within a stretch of time."""

    sent_bytes: int | None = None
    received_bytes: int | None = None
    sent_packets: int | None = None
    received_packets: int | None = None
    errors: Mapping[str, int] = {}
    """Frames received or sent in vain, by the system's own name of the counter: `rx_crc_errors`, `rx_dropped` …"""

    def towards(self, direction: Direction) -> int | None:
        """What went one way [byte]; None where that is not counted."""
        return self.received_bytes if direction == "in" else self.sent_bytes


class AdapterBus(NamedTuple):
    """The bus an adapter hangs on, as it was negotiated."""

    text: str
    """The bus in the words of the plan, so that a table can be asked: `usb 480M`, `pcie 3 x1`, `thunderbolt 3`."""
    rate_bit_per_s: int | None = None
    """What files can count on over it [bit/s]; None where no table knows it."""
    best_text: str | None = None
    """The best the adapter itself could do, where it says so."""


class Interface(NamedTuple):
    """A network interface of this machine."""

    name: str
    """The system's own name: en5, eth1, Ethernet 2."""
    number: int | None = None
    """The system's own number of it."""
    title: str | None = None
    """The name people see, where it differs: the service, the product."""
    medium: Medium = "unknown"
    up: bool | None = None
    """Whether it is switched on."""
    carrier: bool | None = None
    """Whether it hears the other end of its cable."""
    rate_bit_per_s: int | None = None
    """Agreed rate; of a radio the rate of the moment [bit/s]."""
    duplex: Duplex | None = None
    mtu: int | None = None
    """Largest packet it is set to [octets]."""
    mac: str | None = None
    """Hardware address, six lower-case pairs joined by colons."""
    addresses: tuple[IPv4Interface | IPv6Interface, ...] = ()
    """Its addresses with the length of their prefixes."""
    supported: tuple[int, ...] | None = None
    """Rates that the adapter can run, the highest first [bit/s]."""
    offered: tuple[int, ...] | None = None
    """Rates that it offers the other end, the highest first [bit/s]."""
    partner: tuple[int, ...] | None = None
    """Rates that the other end offers, where it tells, the highest first [bit/s]."""
    bus: AdapterBus | None = None
    carrier_changes: int | None = None
    """How often its carrier came or went since it was found."""
    counters: Counters = Counters()
    parent: str | None = None
    """The interface beneath: of a VLAN, a bridge, a tunnel's own road."""
    made_up_rate: bool = False
    """Whether its driver only makes the rate up, as virtual pairs do."""
    ranked_last: bool | None = None
    """Whether macOS ranks it behind all others whatever order was set, as it does with one without a router."""

    @property
    def hosts(self) -> tuple[Address, ...]:
        """Its addresses without their prefixes."""
        return tuple(each.ip for each in self.addresses)


class Route(NamedTuple):
    """Where this machine would send a new connection: a prediction, not yet a proof."""

    interface: str
    source: Address | None = None
    """Its own address that the connection would bear."""
    gateway: Address | None = None
    """The router, None where the destination lies on the link."""
    prefix: Subnet | None = None
    """The route that was matched."""
    metric: int | None = None
    table: str | None = None
    """Name or number of the table, where it is not the main one."""
    mtu: int | None = None
    """Largest packet that the system knows to pass on this route [octets]."""
    local: bool = False
    """Whether the destination is this machine itself."""


class Endpoint(NamedTuple):
    """One end of a connection."""

    address: Address
    port: int

    def __str__(self) -> str:
        host = f"[{self.address}]" if self.address.version == 6 else str(self.address)
        return f"{host}:{self.port}"


class SessionCount(NamedTuple):
    """What TCP knows about both directions of a session."""

    sent_bytes: int | None = None
    received_bytes: int | None = None
    sent_segments: int | None = None
    retransmitted: int | None = None
    """Segments sent again; of what this machine sends, never of what it reads."""
    out_of_order: int | None = None
    """Segments that came in out of order: a hint at loss on the way in, not a count."""
    retransmitted_bytes: int | None = None
    """The same as `retransmitted` where the system counts bytes instead of segments [byte]."""

    def towards(self, direction: Direction) -> int | None:
        """What went one way [byte]; None where that is not counted."""
        return self.received_bytes if direction == "in" else self.sent_bytes


class Session(NamedTuple):
    """A living connection to the storage."""

    local: Endpoint
    remote: Endpoint
    interface: str | None = None
    """Where its packets go now, asked for this very connection."""
    evidence: Evidence = "session"
    tcp: SessionCount = SessionCount()
    """What TCP counted since the connection was made."""
    round_trip_s: float | None = None
    """Smoothed round trip as TCP knows it [s]; stale while this machine only reads."""
    mss: int | None = None
    """Largest segment it sends [octets]."""
    path_mtu: int | None = None
    """Largest packet that TCP knows to pass [octets]."""
    owner: str | None = None
    """Process or user, where the system tells."""

    @property
    def service(self) -> int:
        """The port of the storage's service."""
        return self.remote.port


class Channel(NamedTuple):
    """A connection as the file client itself reports it."""

    share: str
    """The share or mount it belongs to."""
    interface: str | None
    """This machine's interface."""
    local: Address | None = None
    remote: Address | None = None
    rate_bit_per_s: int | None = None
    """The rate the client reckons with [bit/s]."""
    active: bool = True
    """Whether it carries data; others stand by."""
    sent_bytes: int | None = None
    received_bytes: int | None = None


class ClientFacts(NamedTuple):
    """What this machine's file client says about its session with the storage."""

    channels: tuple[Channel, ...] = ()
    dialect: str | None = None
    signing: bool | None = None
    """Whether the session is signed."""
    encryption: bool | None = None
    """Whether the session is encrypted."""


class Mount(NamedTuple):
    """A mounted share."""

    folder: str
    """Where it is mounted."""
    kind: str
    """The system's own word for the file system: cifs, smbfs, nfs4, fuse.sshfs."""
    source: str
    """What is mounted, as the system shows it."""
    host: str | None = None
    """The storage's name or address, None where the source does not tell."""
    share: str | None = None
    remote: Address | None = None
    """The storage's address of the living connection, where the mount tells."""
    local: Address | None = None
    """This machine's address of it."""
    port: int | None = None
    """The service's port, where the kind or the mount tells."""
    process: int | None = None
    """The process that serves it, of file systems in user space."""
    options: tuple[str, ...] = ()
