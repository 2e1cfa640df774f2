"""The day of the move: labels, the port map, the order of plugs, what to tick off, and what each machine is told."""

from __future__ import annotations

from typing import Literal, NamedTuple

from netaudit.model.place import PortRef
from netaudit.model.vocabulary import Address

Verdict = Literal["as expected", "slower", "faster", "not tested", "nothing to hold it against", "no rate to read"]


class Label(NamedTuple):
    """What is printed for one end of a cable."""

    cable: str
    end: Literal["from", "to"]
    port: PortRef
    """The port at this end."""
    far: tuple[PortRef, ...]
    """The port at the other end; several at the trunk of a breakout."""
    text: str


class PortRow(NamedTuple):
    """A port of the port map."""

    port: PortRef
    connector: str | None
    module: str | None
    cable: str | None
    """None where nothing is plugged in."""
    far: PortRef | None
    """What the cable's other end is plugged into."""
    peer: PortRef | None
    """The active port at the end of the whole channel; None where there is none."""
    network: str | None
    """Network that travels untagged; None where the plan names none."""
    addresses: tuple[Address, ...]
    rate_bit_per_s: int | None
    """Rate that the link should show [bit/s]; None is unknown or no link."""


class Step(NamedTuple):
    """A plug to pull or to push, in order."""

    number: int
    """Counted from 1."""
    group: str
    """What is done together, in words: `seats`, `between switches`, `storage`."""
    cable: str
    first: PortRef
    """The end to go to first."""
    then: tuple[PortRef, ...]
    """The other end."""


class BenchTest(NamedTuple):
    """A test of what has arrived, before it goes into the room."""

    what: str
    """What is tested, as the bill calls it."""
    quantity: int
    how: str
    """What to do and what to see, in sentences."""


class Acceptance(NamedTuple):
    """A row of the sheet that is ticked off when the room stands."""

    cable: str
    from_port: PortRef
    to_ports: tuple[PortRef, ...]
    expected_bit_per_s: int | None
    """Rate that the link over this cable should show [bit/s]; None where it is unknown or where no link runs."""
    where: str
    """Where to read the rate, the end that the cable begins at first, and whether it may not hold; without a rate, what
    to try instead."""
    shown: bool = True
    """Whether some port shows a rate: no link runs over a spare run, and a host cable has no rate of its own."""


class SeenRate(NamedTuple):
    """A row of a filled acceptance sheet."""

    cable: str
    ends: str
    """Both ends as the sheet has them."""
    seen_bit_per_s: int | None
    """Rate that somebody read off [bit/s]; 0 is no link at all, None is not tested."""
    initials: str
    note: str
    line: int
    """Line in the sheet, counted from 1."""


class AcceptedCable(NamedTuple):
    """A cable, and what the sheet says of it."""

    row: Acceptance
    seen: SeenRate | None
    """None where the sheet does not have it."""
    verdict: Verdict


class AcceptanceReport(NamedTuple):
    """A filled sheet held against the plan."""

    file: str
    """The plan's file."""
    plan: str | None
    sheet: str
    """The sheet's file."""
    cables: tuple[AcceptedCable, ...]
    """Every cable of the plan, in plan order."""
    remarks: tuple[str, ...]
    """What else does not agree: ends that differ, missing initials, a sentence each."""


class Mount(NamedTuple):
    """A storage that a seat mounts."""

    storage: str
    addresses: tuple[Address, ...]
    """Addresses to mount, those of the planned road; empty where the plan gives none."""
    through: PortRef | None
    """The seat's own port; None where no road leads there."""
    network: str | None
    never: tuple[Address, ...]
    """Other addresses of the same storage, by which traffic would take another road."""


class Setting(NamedTuple):
    """What is typed in at one port for one network."""

    port: PortRef
    interface: str | None
    """The system's own name for it; None where the plan does not say."""
    network: str | None
    addresses: tuple[str, ...]
    """Address with the length of its prefix: `10.44.20.11/24`, `lease`, or nothing where the plan gives none."""
    mtu: int | None
    """Largest packet to set [octets]; None where the plan gives none at this port."""
    gateway: Address | None
    """Router to type in; None: leave it empty."""
    vlan: int | None = None
    """VLAN to type in; None where packets travel untagged, and where the plan numbers none."""
    tagged: bool = False
    """Whether packets of this network travel tagged here."""
    netmasks: tuple[str | None, ...] = ()
    """Netmask of each address, for whoever is asked for one: `255.255.255.0`; None of IPv6, and without a prefix."""
    open_mtu: int | None = None
    """Largest packet that the network plans and this port does not, for somebody to decide [octets]; None elsewhere."""


class AddressCard(NamedTuple):
    """What to set on one machine, and what to leave alone."""

    device: str
    role: Literal["station", "storage"]
    settings: tuple[Setting, ...]
    mounts: tuple[Mount, ...]
    """What a seat mounts; empty for a storage."""
    mounted_by: tuple[tuple[str, Address | None], ...]
    """Seats with a road to a storage, each with the address that it mounts; empty for a seat."""
    leave: tuple[str, ...]
    """What not to set, a sentence each."""
    mind: tuple[str, ...] = ()
    """What to set with care, or to decide first, a sentence each."""
