"""What a plan declares and where, for checking what it refers to."""

from __future__ import annotations

from netaudit.model.plan import Device, Plan
from netaudit.plan.reading.problems import Complaint, Problems
from netaudit.plan.reading.raw import Document, Location, Mapping
from netaudit.plan.scalars.ranges import joined_ranges, port_range
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

    def no_port(self, device: Device, port: str, *, bonds: bool = True) -> Complaint | None:
        """The complaint that a device has no such port, or bond where one will do; None where it has."""
        if port in device.ports or (bonds and port in device.bonds):
            return None
        if port in device.bonds:
            members = " ".join(device.bonds[port].ports)
            return Complaint(f"{quoted(port)} of {quoted(device.name)} is a bond: name one of its ports, {members}")
        return Complaint(
            f"device {quoted(device.name)} has no port {quoted(port)}: {_listed(list(joined_ranges(device.ports)))}",
            port,
            [*device.ports, *(device.bonds if bonds else ())],
        )

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
        ports = self._top.at(("devices", device, "ports")).raw
        keys = ports if isinstance(ports, Mapping) and port not in ports else ()
        written = next((key for key in keys if port in map(str, port_range(key) or ())), port)
        return ("devices", device, "ports", written)

    def network_location(self, device: str, port: str, network: str) -> Location:
        """Where a port names a network."""
        location = self.port_location(device, port)
        tagged = self._top.at((*location, "networks", "tagged")).raw
        if isinstance(tagged, list) and network in tagged:
            return (*location, "networks", "tagged", tagged.index(network))
        untagged = ("network",) if self._top.at(location).get("network") else ("networks", "untagged")
        return (*location, *untagged)


def _listed(names: list[str]) -> str:
    if not names:
        return "it has no ports"
    more = f" and {len(names) - _LISTED} more" if len(names) > _LISTED else ""
    return f"its ports are {' '.join(printable(name) for name in names[:_LISTED])}{more}"
