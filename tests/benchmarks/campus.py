"""A campus plan of any size, in format 1 of the plan, written as a stream; the same text for the same size.

A building has four floors of 25 seats, a media network, an office network and a storage of its own. Every floor has
one switch and one panel, every room of five seats one outlet, every fifth seat a second wired port for the office.
Fibre joins the floors to the building's hub and the hubs to the core. There are no loops. A few walls are too old,
too long or unknown, as in life.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from ipaddress import IPv4Address
from typing import TextIO

SEATS_PER_ROOM = 5
SEATS_PER_FLOOR = 25
FLOORS_PER_BUILDING = 4
SEATS_PER_BUILDING = SEATS_PER_FLOOR * FLOORS_PER_BUILDING
MOST_STATIONS = 100_000

OLD_WALL_EVERY = 37
LONG_WALL_EVERY = 53
UNKNOWN_WALL_EVERY = 71

HEAD = """\
netaudit: 1
name: Campus of {stations} stations
headroom: 30%
ambient: 24 °C
"""


@dataclass(frozen=True)
class Building:
    """One building with its names and its addresses."""

    number: int
    """Counted from 1."""
    seats: int
    """Seats in it, 1 to 100."""

    @property
    def name(self) -> str:
        """Its name, which opens the names of everything in it."""
        return f"b{self.number:03}"

    @property
    def floors(self) -> range:
        """Numbers of its floors."""
        return range(1, -(-self.seats // SEATS_PER_FLOOR) + 1)

    def media_address(self, host: int) -> IPv4Address:
        """An address in its media network, a /24."""
        return IPv4Address("10.0.0.0") + (self.number - 1) * 512 + host

    def office_address(self, host: int) -> IPv4Address:
        """An address in its office network, the /24 above."""
        return self.media_address(host) + 256


@dataclass(frozen=True)
class Seat:
    """One station and the ports that its cables use."""

    building: Building
    index: int
    """Within the building, from 0."""

    @property
    def number(self) -> int:
        """Counted from 1 over the whole campus."""
        return (self.building.number - 1) * SEATS_PER_BUILDING + self.index + 1

    @property
    def name(self) -> str:
        """Name of the station."""
        return f"{self.building.name}-s{self.index + 1:03}"

    @property
    def floor(self) -> str:
        """Name of its floor."""
        return f"{self.building.name}-f{self.index // SEATS_PER_FLOOR + 1}"

    @property
    def outlet(self) -> str:
        """Name of the outlet of its room."""
        return f"{self.floor}-r{self.place // SEATS_PER_ROOM + 1}"

    @property
    def place(self) -> int:
        """Within the floor, from 0."""
        return self.index % SEATS_PER_FLOOR

    @property
    def has_house_port(self) -> bool:
        """Whether a second wired port goes to the office network."""
        return self.place % SEATS_PER_ROOM == SEATS_PER_ROOM - 1


def write_campus(file: TextIO, stations: int) -> None:
    """Write a plan with a number of stations, 1 to 100,000, to an open text file.

    Raises:
        ValueError: the number is outside that range.
    """
    if not 1 <= stations <= MOST_STATIONS:
        message = f"{stations} stations: give 1 to {MOST_STATIONS}"
        raise ValueError(message)
    for line in campus_lines(stations):
        file.write(line)
        file.write("\n")


def campus_lines(stations: int) -> Iterator[str]:
    """The lines of the plan, section by section."""
    yield HEAD.format(stations=stations)
    for title, lines_of in (
        ("networks", network_lines),
        ("rooms", room_lines),
        ("devices", device_lines),
        ("cables", cable_lines),
    ):
        yield f"{title}:"
        for building in buildings(stations):
            yield from lines_of(building)
        yield from campus_wide_lines(title, -(-stations // SEATS_PER_BUILDING))
        yield ""


def buildings(stations: int) -> Iterator[Building]:
    """The buildings of a campus; the last one takes what is left."""
    for first in range(0, stations, SEATS_PER_BUILDING):
        yield Building(first // SEATS_PER_BUILDING + 1, min(SEATS_PER_BUILDING, stations - first))


def seats(building: Building) -> Iterator[Seat]:
    """The seats of a building."""
    return (Seat(building, index) for index in range(building.seats))


def network_lines(building: Building) -> Iterator[str]:
    """The two networks of a building."""
    media, office = building.media_address(0), building.office_address(0)
    yield f"  {building.name}-media: {{subnet: {media}/24, mtu: 9000, purpose: storage}}"
    yield f"  {building.name}-office: {{subnet: {office}/24}}"


def room_lines(building: Building) -> Iterator[str]:
    """The floors of a building, each one room as far as earths are concerned."""
    for floor in building.floors:
        yield f"  {building.name}-f{floor}: {{building: {building.name}}}"


def device_lines(building: Building) -> Iterator[str]:
    """Everything with ports in a building."""
    yield from hub_lines(building)
    for floor in building.floors:
        yield from floor_lines(building, f"{building.name}-f{floor}")
    for seat in seats(building):
        if seat.place % SEATS_PER_ROOM == 0:
            yield f"  {seat.outlet}: {{role: outlet, room: {seat.floor}, ports: {{1-6: {{connector: rj45}}}}}}"
        yield from station_lines(seat)


def trunk(building: Building) -> str:
    """What both ends of a link between switches carry."""
    return f"networks: {{untagged: {building.name}-office, tagged: [{building.name}-media]}}, mtu: 9216"


def hub_lines(building: Building) -> Iterator[str]:
    """The building's switch and its storage."""
    name = building.name
    yield f"  {name}-hub:"
    yield "    role: switch"
    yield f"    room: {name}-f1"
    yield "    ports:"
    yield f"      1-8: {{connector: sfp+, rates: [10G], module: 10GBASE-SR, {trunk(building)}}}"
    yield f"      9: {{connector: sfp28, rates: [25G, 10G], network: {name}-media, mtu: 9216}}"
    yield "      10: {connector: sfp+, rates: [10G], module: 10GBASE-LR, network: campus, mtu: 9216}"
    yield f"  {name}-vault:"
    yield "    role: storage"
    yield f"    room: {name}-f1"
    yield "    ports:"
    yield (
        f"      fast: {{connector: sfp28, rates: [25G, 10G], bus: pcie 4 x8, network: {name}-media, "
        f"address: {building.media_address(10)}, mtu: 9000}}"
    )
    yield "    pools:"
    yield "      main: {drives: 12, size: 16 TB, read: 220 MB/s, write: 200 MB/s, layout: double-parity}"


def floor_lines(building: Building, floor: str) -> Iterator[str]:
    """The panel and the switch of a floor."""
    yield f"  {floor}-panel: {{role: panel, room: {floor}, ports: {{1-48: {{connector: rj45, category: 6A}}}}}}"
    yield f"  {floor}-edge:"
    yield "    role: switch"
    yield f"    room: {floor}"
    yield "    ports:"
    yield f"      1-36: {{connector: rj45, rates: up to 10G, network: {building.name}-media, mtu: 9216}}"
    yield f"      37-48: {{connector: rj45, rates: up to 1G, network: {building.name}-office}}"
    yield f"      up: {{connector: sfp+, rates: [10G], module: 10GBASE-SR, {trunk(building)}}}"


def station_lines(seat: Seat) -> Iterator[str]:
    """One station."""
    building = seat.building
    yield f"  {seat.name}:"
    yield "    role: station"
    if seat.number % 2:
        yield "    wants: 10G"
    yield f"    edits_from: [{building.name}-vault]"
    media = f"network: {building.name}-media, address: {building.media_address(11 + seat.index)}, mtu: 9000"
    wire = f"wire: {{connector: rj45, rates: up to 10G, bus: thunderbolt 3, {media}}}"
    if seat.has_house_port:
        office = f"network: {building.name}-office, address: {building.office_address(11 + seat.index)}"
        yield f"    ports: {{{wire},"
        yield f"            house: {{connector: rj45, rates: up to 1G, {office}}}}}"
    else:
        yield f"    ports: {{{wire}}}"
    if seat.number % 3 == 0:
        yield "    plays: [{what: interview, streams: 2, rate: 183.5 Mb/s}]"


def cable_lines(building: Building) -> Iterator[str]:
    """Every cable of a building."""
    name = building.name
    yield f"  {name}-D1: {{from: {name}-hub/9, to: {name}-vault/fast, category: twinax, length: 2 m}}"
    yield f"  {name}-F0: {{from: {name}-hub/10, to: campus-core/{building.number}, category: OS2, length: 300 m}}"
    for floor in building.floors:
        yield (
            f"  {name}-F{floor}: {{from: {name}-hub/{floor}, to: {name}-f{floor}-edge/up, "
            f"category: OM4, length: {20 + 4 * floor} m}}"
        )
    for seat in seats(building):
        yield from channel_lines(seat, "wire", seat.place % SEATS_PER_ROOM + 1, seat.place + 1, seat.place + 1)
        if seat.has_house_port:
            room = seat.place // SEATS_PER_ROOM
            yield from channel_lines(seat, "house", SEATS_PER_ROOM + 1, SEATS_PER_FLOOR + 1 + room, 37 + room)


def channel_lines(seat: Seat, port: str, outlet_port: int, panel_port: int, switch_port: int) -> Iterator[str]:
    """The cord at the desk, the cable in the wall and the cord at the switch."""
    name = f"{seat.name}-{port}"
    outlet, panel = f"{seat.outlet}/{outlet_port}", f"{seat.floor}-panel/{panel_port}"
    wall = wall_of(seat.number) if port == "wire" else "category: 6A, length: 30 m"
    yield f"  {name}-C: {{from: {seat.name}/{port}, to: {outlet}, category: 6A, length: 3 m, cord: 26 AWG}}"
    yield f"  {name}-W: {{from: {outlet}, to: {panel}, {wall}, installed: true}}"
    yield f"  {name}-P: {{from: {panel}, to: {seat.floor}-edge/{switch_port}, category: 6A, length: 1 m, cord: 26 AWG}}"


def wall_of(number: int) -> str:
    """Category and length of a seat's wall cable: most are good."""
    if number % OLD_WALL_EVERY == 0:
        return "category: 5e, length: 25 m"
    if number % LONG_WALL_EVERY == 0:
        return "category: 6, length: 70 m"
    if number % UNKNOWN_WALL_EVERY == 0:
        return "category: unknown, length: 25 m"
    return f"category: 6A, length: {12 + number * 7 % 50} m"


def campus_wide_lines(title: str, count: int) -> Iterator[str]:
    """What joins the buildings: one network, one switch, one archive."""
    if title == "networks":
        yield "  campus: {subnet: 172.16.0.0/16, mtu: 9000}"
    elif title == "devices":
        ports = "1" if count == 1 else f"1-{count}"
        yield "  campus-core:"
        yield "    role: switch"
        yield "    ports:"
        yield f"      {ports}: {{connector: sfp+, rates: [10G], module: 10GBASE-LR, network: campus, mtu: 9216}}"
        yield "      store: {connector: sfp+, rates: [10G], network: campus, mtu: 9216}"
        yield "  archive:"
        yield "    role: storage"
        yield "    purpose: archive"
        yield "    ports:"
        yield "      fast: {connector: sfp+, rates: [10G], network: campus, address: 172.16.0.10, mtu: 9000}"
    elif title == "cables":
        yield "  D0: {from: campus-core/store, to: archive/fast, category: twinax, length: 2 m}"
