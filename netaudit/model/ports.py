"""Ports of a plan, and bonds of them."""

from __future__ import annotations

from typing import Literal, NamedTuple

from netaudit.model.vocabulary import Address, BusKind, Category, Connector

LEAST_MTU = 1500
"""Packet that every Ethernet port passes [octets]: IEEE 802.3 clause 3.2.7, basic frames."""


class Rates(NamedTuple):
    """The rates that a port or a made-up cable can run."""

    bit_per_s: tuple[int, ...]
    """Each rate once, the highest first [bit/s]."""
    up_to: bool = False
    """Whether the plan said `up to`, so that the lower ones are presumed."""


class Bus(NamedTuple):
    """The host bus behind a port."""

    kind: BusKind
    generation: int | None = None
    """Generation of PCI Express or Thunderbolt."""
    lanes: int | None = None
    """Lanes of PCI Express."""
    rate_bit_per_s: int | None = None
    """Signalling rate of USB [bit/s]."""
    via: str | None = None
    """Name of the dock or hub whose bus several ports share."""

    def __str__(self) -> str:
        if self.kind == "pcie":
            return f"PCI Express {self.generation} x{self.lanes}"
        if self.kind == "thunderbolt":
            return f"Thunderbolt {self.generation}"
        rate = self.rate_bit_per_s
        return "USB" if rate is None else f"USB {rate / 1e9:g}G" if rate >= 1e9 else f"USB {rate / 1e6:g}M"


class HostCable(NamedTuple):
    """The cable between a computer and its adapter."""

    length_m: float
    """Length [m]."""
    active: bool = False


class Port(NamedTuple):
    """A port without its name: the ports of a range share one value."""

    connector: Connector | None = None
    rates: Rates | None = None
    module: str | None = None
    """Designation of the physical layer in the module, such as 10GBASE-SR."""
    bus: Bus | None = None
    host_cable: HostCable | None = None
    untagged: str | None = None
    """Network whose frames travel without a tag."""
    tagged: tuple[str, ...] = ()
    """Networks whose frames travel tagged."""
    addresses: tuple[Address, ...] = ()
    leased: bool = False
    """Whether the address is handed out by the network."""
    mtu: int | None = None
    """Largest packet it is set to [octets]; None is unknown, not 1500."""
    mac: str | None = None
    """Hardware address, six lower-case pairs joined by colons."""
    interface: str | None = None
    """The system's own name for it."""
    serves: bool = True
    """Whether a storage serves files on it."""
    purpose: Literal["management"] | None = None
    category: Category | None = None
    """Category of a passive port; None matches its cables."""
    screened: bool | None = None
    """Screen of a passive port; None matches its cables."""
    owned: bool | None = None

    @property
    def carries_any(self) -> bool:
        """Whether the plan names no network for it."""
        return self.untagged is None and not self.tagged


class Bond(NamedTuple):
    """Ports that work as one; one conversation uses one member."""

    ports: tuple[str, ...]
    untagged: str | None = None
    addresses: tuple[Address, ...] = ()
    leased: bool = False
    mtu: int | None = None
    """Largest packet it is set to [octets]."""
