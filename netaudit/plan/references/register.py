"""What a plan declares and where, for checking what it refers to."""

from __future__ import annotations

from collections.abc import Collection

from netaudit.model.plan import Device, Plan
from netaudit.plan.reading.problems import Complaint, Problems
from netaudit.plan.reading.raw import Document, Location, Mapping
from netaudit.plan.scalars.ranges import first_of_range, joined_ranges, port_range
from netaudit.plan.scalars.text import path_part, printable, quoted

_SINGULAR = {"networks": "network", "racks": "rack", "rooms": "room", "devices": "device", "routes": "route"}
_LISTED = 8
"""Names that a message lists of those that would be right."""


class Register:
    """The names that a document declares, those of items with problems included."""

    def __init__(self, plan: Plan, document: Document, problems: Problems) -> None:
        self.devices = plan.devices
        """The devices without problems."""
        self._top = document.spot
        self._root = document.root
        self._problems = problems
        self._listed: dict[str, str] = {}
        self._named: dict[str, Collection[str]] = {}
        self._range_of: dict[str, dict[str, str]] = {}

    def declares(self, section: str) -> bool:
        """Whether the plan has a section."""
        return section in self._root

    def unknown(self, section: str, word: str) -> Complaint | None:
        """The complaint that a section has no such name; None where it has, or where it cannot be read."""
        names = self._root.get(section, Mapping())
        if not isinstance(names, Mapping) or word in names:
            return None
        declared = "" if names else f": the plan has no `{section}`"
        return Complaint(f"there is no {_SINGULAR[section]} {quoted(word)}{declared}", word, names)

    def no_port(self, device: Device, port: str) -> Complaint | None:
        """The complaint that a device has no such port; None where it has."""
        if port in device.ports:
            return None
        if port in device.bonds:
            members = " ".join(device.bonds[port].ports)
            return Complaint(f"{quoted(port)} of {quoted(device.name)} is a bond: name one of its ports, {members}")
        return self._missing_port(device, port, device.ports)

    def no_port_or_bond(self, device: Device, port: str) -> Complaint | None:
        """The complaint that a device has no port and no bond of that name; None where it has."""
        if port in device.ports or port in device.bonds:
            return None
        if device.name not in self._named:
            self._named[device.name] = (*device.ports, *device.bonds)
        return self._missing_port(device, port, self._named[device.name])

    def _missing_port(self, device: Device, port: str, known: Collection[str]) -> Complaint:
        first = first_of_range(port)
        if first is not None and first in device.ports:
            return Complaint(
                f"{quoted(port)} of {quoted(device.name)} is a range: name one of its ports, such as {first}"
            )
        if device.name not in self._listed:
            self._listed[device.name] = _listed(list(joined_ranges(device.ports)))
        message = f"device {quoted(device.name)} has no port {quoted(port)}: {self._listed[device.name]}"
        return Complaint(message, port, known)

    def tell(self, location: Location, complaint: Complaint | None) -> None:
        """Note a complaint, if there is one, at the value in a location."""
        if complaint is not None:
            spot = self._top.at(location)
            self._problems.add(spot.index, spot.path, *complaint)

    def tell_key(self, location: Location, complaint: Complaint | None) -> None:
        """Note a complaint, if there is one, at the key that a location ends in."""
        if complaint is not None:
            holder, key = self._top.at(location[:-1]), str(location[-1])
            self._problems.add(holder.key_index(key), (*holder.path, path_part(key)), *complaint)

    def port_location(self, device: str, port: str) -> Location:
        """Where a port is written, which may be under a range."""
        if device not in self._range_of:
            keys = [key for key, _, _ in self._top.at(("devices", device, "ports")).entries()]
            self._range_of[device] = {str(number): key for key in keys for number in port_range(key) or ()}
        return ("devices", device, "ports", self._range_of[device].get(port, port))

    def untagged_location(self, device: str, port: str) -> Location:
        """Where a port names the network that it carries untagged."""
        location = self.port_location(device, port)
        short = self._top.at(location).get("network") is not None
        return (*location, "network") if short else (*location, "networks", "untagged")


def _listed(names: list[str]) -> str:
    if not names:
        return "it has no ports"
    more = f" and {len(names) - _LISTED} more" if len(names) > _LISTED else ""
    return f"its ports are {' '.join(printable(name) for name in names[:_LISTED])}{more}"
