"""What a plan expects of one station and one storage: the yardstick that an observation is held against."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from netaudit.model.place import Place, PortRef
from netaudit.model.vocabulary import Address, Subnet


class ExpectedPort(NamedTuple):
    """A port of the plan's station or storage, as far as a machine can be held against it."""

    port: PortRef
    radio: bool
    interface: str | None = None
    """The system's own name for it."""
    mac: str | None = None
    addresses: tuple[Address, ...] = ()
    networks: tuple[str, ...] = ()
    subnets: tuple[Subnet, ...] = ()
    """Subnets of its networks."""
    agreed_bit_per_s: int | None = None
    """What it and the port at the other end will agree on [bit/s]."""
    far_port: PortRef | None = None
    """The port at the other end of its cables."""
    mtu: int | None = None
    """What the plan sets, on the port or else for its network [octets]."""
    bus: str | None = None
    """The bus behind it in words."""


class ExpectedRoad(NamedTuple):
    """The planned road from the station to the storage."""

    from_port: PortRef
    to_port: PortRef
    routed: bool
    agreed_bit_per_s: int | None = None
    promised_bit_per_s: int | None = None
    goodput_bit_per_s: int | None = None
    """File data a lone reader can count on [bit/s]."""
    network_bit_per_s: int | None = None
    """The same without the disks: what the links and buses leave [bit/s]."""
    limited_by: Place | None = None
    mtu: int | None = None
    """The least of what the ends are set to [octets]."""


class Expectation(NamedTuple):
    """What a plan expects."""

    plan: str
    """Name or file of the plan."""
    station: str
    storage: str | None
    """None where the plan has no storage of that name or address."""
    ports: Mapping[str, ExpectedPort]
    """Ports of the station by name."""
    storage_ports: Mapping[str, ExpectedPort]
    road: ExpectedRoad | None = None
    """None where the plan has no road between the two."""

    @property
    def planned_addresses(self) -> tuple[Address, ...]:
        """The storage's addresses at the end of the planned road."""
        return () if self.road is None else self.storage_ports[self.road.to_port.port].addresses
