"""Roads from an edit station to its storage, hop by hop."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.model.place import Place, PortRef, cable_place, device_place, link_place, path_place, port_place


class Hop(NamedTuple):
    """One link of a road, in the direction of the storage."""

    from_port: PortRef
    to_port: PortRef
    cables: tuple[str, ...]
    """Cables of the channel, from the near port to the far one; empty for radio."""
    phy: str | None
    """Physical layer at the agreed rate, `direct attach` or `radio`; None is unknown."""
    agreed_bit_per_s: int | None
    """What the two ports will negotiate [bit/s]; None is unknown."""
    promised_bit_per_s: int | None
    """What the published limits promise over this channel [bit/s]; None is undecided."""
    length_m: float | None
    """Physical length of the channel [m]; None if any cable's is unknown."""
    limit_m: float | None
    """Longest channel that the agreed rate is promised over [m]; None where no one limit applies."""
    loss_equivalent_m: float | None
    """Length of solid cable with the same loss [m]; None for anything but copper, or unknown."""
    connections: int
    """Passive ports in the channel."""
    joints: tuple[PortRef, ...] = ()
    """Those passive ports, from the near end to the far one."""

    @property
    def places(self) -> tuple[Place, ...]:
        """Everything of it that a finding may speak of; the link in either order."""
        ports = (self.from_port, self.to_port, *self.joints)
        return (
            link_place(self.from_port, self.to_port),
            link_place(self.to_port, self.from_port),
            *map(port_place, ports),
            *map(cable_place, self.cables),
            device_place(self.from_port.device),
            device_place(self.to_port.device),
        )


class Path(NamedTuple):
    """A road between a port of a station and a port of its storage, or the lack of any."""

    station: str
    storage: str
    from_port: PortRef | None = None
    to_port: PortRef | None = None
    planned: bool = False
    """Whether this is the road the plan means storage traffic to take."""
    network: str | None = None
    """Network of the road at the station's end."""
    routed: bool = False
    """Whether a router stands in it."""
    agreed_bit_per_s: int | None = None
    """Least agreed rate on the road [bit/s]; None if any is unknown."""
    promised_bit_per_s: int | None = None
    """Least promised rate on the road [bit/s]; None if any is undecided."""
    at_least_bit_per_s: int = 0
    """What the road is promised whatever the unknown is [bit/s]."""
    at_most_bit_per_s: int | None = None
    """What the road cannot exceed whatever the unknown is [bit/s]; None if nothing bounds it."""
    goodput_bit_per_s: int | None = None
    """File data a lone reader can count on [bit/s]; None where undecided, and for radio."""
    share_bit_per_s: int | None = None
    """File data left for this seat when all seats on its road read at once [bit/s]; None where it is open which links a
    spanning tree blocks, and with it who shares what."""
    shared_by: int = 1
    """Seats whose planned roads cross the narrowest thing."""
    limited_by: Place | None = None
    """The narrowest thing; of equal ones the one nearest the storage."""
    hops: tuple[Hop, ...] = ()

    @property
    def place(self) -> Place:
        """Its own place."""
        return path_place(self.station, self.storage)

    @property
    def places(self) -> frozenset[Place]:
        """Its own place and those of everything on it."""
        return frozenset((self.place, *(place for hop in self.hops for place in hop.places)))
