"""Lanes: for each seat of a room the ports, names and subnet between its desk and the storage."""

from __future__ import annotations

from collections.abc import Iterator
from ipaddress import IPv4Network
from typing import NamedTuple

from netaudit.model.place import PortRef
from netaudit.model.plan import Subnet
from netaudit.plan.drafting.answers import Answers, Run, Seat
from netaudit.plan.scalars.text import device_name

STORAGE_RANGES = (IPv4Network("10.44.20.0/24"), IPv4Network("172.20.44.0/24"), IPv4Network("192.168.244.0/24"))
"""Where subnets for storage begin, one in each block that is kept for private use (IETF RFC 1918, section 3)."""


class Joint(NamedTuple):
    """The jacks at both ends of a cable in a wall."""

    plate: PortRef
    panel: PortRef


class Lane(NamedTuple):
    """What one seat has of its own between desk and storage."""

    seat: Seat
    run: Run
    network: str
    subnet: IPv4Network
    far: PortRef
    """The port at its end: the switch's, or the storage's."""
    joint: Joint | None
    """None where nothing is in the wall."""


class _Names:
    """Names for what nobody was asked to name, none of them given twice."""

    def __init__(self, answers: Answers) -> None:
        self._taken = {answers.storage, *(seat.name for seat in answers.seats)}
        self.switch = self._free("core")
        self.panel = self._free("panel")
        walled = [room for room, run in answers.runs.items() if run.wall is not None]
        self.plates = {room: self._plate(room) for room in walled}

    def _plate(self, room: str) -> str:
        own = f"{room}-plate"
        return self._free(own if _names_a_device(own) and own not in self._taken else "plate")

    def _free(self, wanted: str) -> str:
        """The name wanted, or the first of `name-2`, `name-3` and so on that is free; it is taken from now on."""
        name, number = wanted, 1
        while name in self._taken:
            number += 1
            name = f"{wanted}-{number}"
        self._taken.add(name)
        return name


def lanes(answers: Answers) -> Iterator[Lane]:
    """The lane of each seat in their order.

    Raises ValueError where the office leaves no private subnet free.
    """
    names = _Names(answers)
    count = 1 if answers.switched else len(answers.seats)
    subnets = storage_subnets(count, answers.office_subnet)
    in_room = dict.fromkeys(names.plates, 0)
    for nth, seat in enumerate(answers.seats):
        own = 0 if answers.switched else nth
        joint = None
        if seat.room in names.plates:
            joint = Joint(
                PortRef(names.plates[seat.room], str(in_room[seat.room] + 1)),
                PortRef(names.panel, str(sum(in_room.values()) + 1)),
            )
            in_room[seat.room] += 1
        yield Lane(
            seat=seat,
            run=answers.runs[seat.room],
            network=_numbered("media", own, count),
            subnet=subnets[own],
            far=PortRef(names.switch, str(nth + 1))
            if answers.switched
            else PortRef(answers.storage, _numbered("fast", own, count)),
            joint=joint,
        )


def storage_subnets(count: int, office: Subnet | None) -> tuple[IPv4Network, ...]:
    """So many private subnets side by side, none of which overlaps the office's.

    Raises ValueError where there are none.
    """
    for first in STORAGE_RANGES:
        start = int(first.network_address)
        found = tuple(IPv4Network((start + nth * first.num_addresses, first.prefixlen)) for nth in range(count))
        if not any(office is not None and office.overlaps(subnet) for subnet in found):
            return found
    raise ValueError(f"'{office}' leaves no private addresses for the storage: name the subnet of this house alone")


def _numbered(name: str, nth: int, count: int) -> str:
    """The name, with a number where there are several."""
    return name if count == 1 else f"{name}-{nth + 1}"


def _names_a_device(text: str) -> bool:
    try:
        device_name(text)
    except ValueError:
        return False
    return True
