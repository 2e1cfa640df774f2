"""Drafts: from answers to a plan that can be judged, every part of it a usual one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from netaudit.model.place import PortRef
from netaudit.model.plan import Cable, Device, Network, Plan, Port, Rates, Station, Storage, Switch
from netaudit.plan.drafting.answers import Answers, Seat
from netaudit.plan.drafting.lanes import Lane, lanes
from netaudit.plan.scalars.ports import base_t_bit_per_s, rates
from netaudit.plan.scalars.spelling import port_rate

DRAFT = "<draft>"
"""What a drafted plan names as its file."""
STORAGE_HOST, FIRST_SEAT_HOST = 10, 11
"""Last parts of the addresses."""
SEAT_CORD_M, PANEL_CORD_M, STORAGE_CABLE_M = 3.0, 1.0, 1.0
THIN_AWG, STURDY_AWG = 26, 24
"""Gauges of the short cords at a wall, and of those that lie all the way [AWG]."""
PORTS_OF_PANEL, PORTS_OF_SWITCH = 24, 4
"""Panels and switches have a multiple of so many ports; common practice, no source."""
SLOWEST_PORT_BIT_PER_S = 10**9
"""The slowest wired port that desks still have [bit/s]; common practice, no source."""
FASTEST_JACK_BIT_PER_S = 10**10
"""Rate of each jack of the switch [bit/s]."""
_CAGE = Port(connector="sfp+", rates=Rates((10**10,)))
_CAGE_OF_SWITCH = Port(connector="sfp+", rates=Rates((10**10, 10**9)))
_PASSIVE = Port(connector="rj45")


def draft(answers: Answers) -> Plan:
    """The plan that follows from answers.

    Raises ValueError where the office leaves no private subnet free.
    """
    ways = tuple(lanes(answers))
    return Plan(
        file=DRAFT,
        name=answers.name,
        networks={network.name: network for network in _networks(answers, ways)},
        devices={device.name: device for device in _devices(answers, ways)},
        cables={cable.name: cable for cable in _cables(answers, ways)},
    )


def _networks(answers: Answers, ways: Sequence[Lane]) -> Iterator[Network]:
    for name, subnet in dict.fromkeys((lane.network, lane.subnet) for lane in ways):
        yield Network(name=name, subnets=(subnet,), purpose="storage")
    if answers.wifi:
        office = answers.office_subnet
        yield Network(name="office", subnets=() if office is None else (office,))


def _devices(answers: Answers, ways: Sequence[Lane]) -> Iterator[Device]:
    for nth, lane in enumerate(ways):
        yield _station(answers, lane, FIRST_SEAT_HOST + (nth if answers.switched else 0))
    yield from _passive(ways)
    if answers.switched:
        yield _switch(answers, ways[0].far.device, len(ways))
    yield _storage(answers, ways)


def _station(answers: Answers, lane: Lane, host: int) -> Station:
    seat = lane.seat
    wire = _seat_port(answers, seat)._replace(untagged=lane.network, addresses=(lane.subnet[host],))
    air = {"air": Port(connector="radio", untagged="office", leased=True)} if answers.wifi else {}
    return Station(
        name=seat.name,
        role="station",
        system=seat.system,
        room=seat.room,
        wants_bit_per_s=seat.wants_bit_per_s,
        ports={"wire": wire, **air},
    )


def _seat_port(answers: Answers, seat: Seat) -> Port:
    """The slowest usual port that has the rate wanted; a cage where the cable comes from a storage's cage."""
    if not answers.switched and answers.storage_port == "sfp+":
        return _CAGE
    least = max(seat.wants_bit_per_s, SLOWEST_PORT_BIT_PER_S)
    enough = next(rate for rate in base_t_bit_per_s() if rate >= least)
    return _jack(enough)


def _passive(ways: Sequence[Lane]) -> Iterator[Device]:
    """The outlets of each room, and the panel that their cables end in."""
    joints = {lane.joint: lane.seat.room for lane in ways if lane.joint is not None}
    jacks = Counter((joint.plate.device, room) for joint, room in joints.items())
    for (plate, room), count in jacks.items():
        yield Device(name=plate, role="outlet", room=room, ports=_numbered(_PASSIVE, 1, count))
    for panel in dict.fromkeys(joint.panel.device for joint in joints):
        yield Device(name=panel, role="panel", ports=_numbered(_PASSIVE, 1, _multiple(len(joints), PORTS_OF_PANEL)))


def _switch(answers: Answers, name: str, seats: int) -> Switch:
    """A switch that is to be bought, with a port for each seat and one to spare, and two cages for a storage's one."""
    jacks = _jacks_of_switch(answers, seats)
    cages = _numbered(_CAGE_OF_SWITCH, jacks + 1, 2) if answers.storage_port == "sfp+" else {}
    ports = {**_numbered(_jack(FASTEST_JACK_BIT_PER_S), 1, jacks), **cages}
    return Switch(name=name, role="switch", owned=False, ports=ports)


def _jacks_of_switch(answers: Answers, seats: int) -> int:
    return _multiple(seats + (1 if answers.storage_port == "sfp+" else 2), PORTS_OF_SWITCH)


def _storage(answers: Answers, ways: Sequence[Lane]) -> Storage:
    plain = _CAGE if answers.storage_port == "sfp+" else _jack(answers.storage_rate_bit_per_s)
    ends = {"fast": ways[0]} if answers.switched else {lane.far.port: lane for lane in ways}
    ports = {
        name: plain._replace(untagged=lane.network, addresses=(lane.subnet[STORAGE_HOST],))
        for name, lane in ends.items()
    }
    pools = {} if answers.disks is None else {"main": answers.disks}
    return Storage(name=answers.storage, role="storage", ports=ports, pools=pools)


def _cables(answers: Answers, ways: Sequence[Lane]) -> Iterator[Cable]:
    for nth, lane in enumerate(ways, start=1):
        yield from _cables_of_lane(answers, lane, nth)
    if not answers.switched:
        return
    near, far = ways[0].far.device, PortRef(answers.storage, "fast")
    if answers.storage_port == "sfp+":
        cage = PortRef(near, str(_jacks_of_switch(answers, len(ways)) + 1))
        yield _twinax("D01", cage, far, STORAGE_CABLE_M)
    else:
        jack = PortRef(near, str(len(ways) + 1))
        yield _cord("S01", jack, far, STORAGE_CABLE_M, THIN_AWG)


def _cables_of_lane(answers: Answers, lane: Lane, nth: int) -> Iterator[Cable]:
    desk = PortRef(lane.seat.name, "wire")
    if lane.joint is not None:
        yield _cord(f"C{nth:02}", desk, lane.joint.plate, SEAT_CORD_M, THIN_AWG)
        yield Cable(
            name=f"W{nth:02}",
            from_port=lane.joint.plate,
            to_ports=(lane.joint.panel,),
            category=lane.run.wall or "unknown",
            length_m=lane.run.length_m,
            installed=True,
        )
        yield _cord(f"P{nth:02}", lane.joint.panel, lane.far, PANEL_CORD_M, THIN_AWG)
    elif not answers.switched and answers.storage_port == "sfp+":
        yield _twinax(f"D{nth:02}", desk, lane.far, lane.run.length_m)
    else:
        yield _cord(f"C{nth:02}", desk, lane.far, lane.run.length_m, STURDY_AWG)


def _cord(name: str, near: PortRef, far: PortRef, length_m: float | None, gauge_awg: int) -> Cable:
    return Cable(name=name, from_port=near, to_ports=(far,), category="6A", length_m=length_m, cord_awg=gauge_awg)


def _twinax(name: str, near: PortRef, far: PortRef, length_m: float | None) -> Cable:
    return Cable(name=name, from_port=near, to_ports=(far,), category="twinax", length_m=length_m)


def _jack(fastest_bit_per_s: int) -> Port:
    return Port(connector="rj45", rates=rates(f"up to {port_rate(fastest_bit_per_s)}"))


def _numbered(port: Port, first: int, count: int) -> dict[str, Port]:
    return dict.fromkeys(map(str, range(first, first + count)), port)


def _multiple(least: int, of: int) -> int:
    """The smallest multiple of a number that is not below `least`."""
    return -(-least // of) * of
