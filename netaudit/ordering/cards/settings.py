"""What is typed in at each port of a machine: address and prefix, largest packet, and at one of them the router."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from ipaddress import ip_interface
from typing import NamedTuple

from netaudit.listing import listed
from netaudit.model.moving import Setting
from netaudit.model.place import PortRef
from netaudit.model.plan import Address, Bond, Device, Network, Plan, Port
from netaudit.model.ports import LEAST_MTU
from netaudit.network.forwarding import bond_of

LEASE = "lease"
"""What stands for an address that the network hands out."""
IPV4 = 4
"""Version of addresses that have a netmask."""


class CardPort(NamedTuple):
    """A port or bond of a machine in one network, with what is typed in there and what decides about its cautions."""

    setting: Setting
    place: str
    """The port in words, and its VLAN where packets of this network travel tagged there."""
    network: Network | None
    members: tuple[str, ...]
    """Ports of a bond; empty for a port."""
    radio: bool
    serves: bool
    way_out: str | None
    """Where the machine has its router, if not here although this network has one too."""

    @property
    def typed(self) -> bool:
        """Whether an address is typed in."""
        return bool(self.setting.addresses) and self.setting.addresses != (LEASE,)


class _End(NamedTuple):
    """A port, or a bond in place of its members, in one network."""

    ref: PortRef
    port: Port
    """The port itself, or the first member."""
    bond: Bond | None
    network: Network | None
    addresses: tuple[Address, ...]
    """Those in this network."""

    @property
    def leased(self) -> bool:
        """Whether its address is handed out; at a port with an untagged network that is the one which does it."""
        asks = self.port.leased or (self.bond is not None and self.bond.leased)
        return asks and not (self.tagged and _untagged(self.port, self.bond) is not None)

    @property
    def mtu(self) -> int | None:
        """Largest packet of the bond, or else of the port [octets]."""
        return self.port.mtu if self.bond is None or self.bond.mtu is None else self.bond.mtu

    @property
    def tagged(self) -> bool:
        """Whether packets of this network travel tagged here."""
        return self.network is not None and self.network.name in self.port.tagged

    @property
    def place(self) -> str:
        """The port in words, and its VLAN where packets of this network travel tagged there."""
        if self.network is None or not self.tagged:
            return str(self.ref)
        return f"{self.ref} in VLAN {self.network.name if self.network.vlan is None else self.network.vlan}"


class Subnets:
    """Finds the subnet that holds an address, the narrowest first, however many subnets a plan has."""

    def __init__(self, plan: Plan) -> None:
        self._tables: dict[tuple[str | None, int], dict[int, dict[int, str]]] = {}
        for network in plan.networks.values():
            for subnet in network.subnets:
                first = int(subnet.network_address) >> (subnet.max_prefixlen - subnet.prefixlen)
                for owner in (network.name, None):
                    table = self._tables.setdefault((owner, subnet.version), {})
                    table.setdefault(subnet.prefixlen, {}).setdefault(first, network.name)
        for key, table in self._tables.items():
            self._tables[key] = dict(sorted(table.items(), reverse=True))

    def holding(self, address: Address, network: str | None) -> tuple[str, int] | None:
        """The network whose subnet holds an address, and the length of its prefix [bits]; None where none does.

        Only one network's subnets are looked at, or those of all where none is given.
        """
        number = int(address)
        for length, firsts in self._tables.get((network, address.version), {}).items():
            name = firsts.get(number >> (address.max_prefixlen - length))
            if name is not None:
                return name, length
        return None


def card_ports(plan: Plan, subnets: Subnets, device: Device) -> tuple[CardPort, ...]:
    """Each port of a machine with a network or an address, in file order; a bond stands for its members.

    A port with addresses in several networks is there once for each of them, one without any address once for each
    network that it names. Of the networks with a router one is the
    way out: the first that is not meant for storage. A port for the machine's care answers for itself, so that it has
    its own.
    """
    ends = [end for end in _ends(plan, subnets, device) if end.network is not None or end.addresses or end.leased]
    outward = [end for end in ends if _router(end) is not None and end.port.purpose != "management"]
    way_out = min(outward, key=_is_for_storage, default=None)
    return tuple(_card_port(end, way_out, subnets) for end in ends)


def places(ports: Sequence[CardPort]) -> str:
    """Some ports in words, each once."""
    return listed(dict.fromkeys(port.place for port in ports))


def _ends(plan: Plan, subnets: Subnets, device: Device) -> Iterator[_End]:
    bonds = bond_of(device)
    told: set[str] = set()
    for name, port in device.ports.items():
        bond_name = bonds.get(name)
        if bond_name is None:
            yield from _in_networks(plan, subnets, PortRef(device.name, name), port, None)
        elif bond_name not in told:
            told.add(bond_name)
            yield from _in_networks(plan, subnets, PortRef(device.name, bond_name), port, device.bonds[bond_name])


def _in_networks(plan: Plan, subnets: Subnets, ref: PortRef, port: Port, bond: Bond | None) -> Iterator[_End]:
    """A port or bond in each network of its addresses, or in each that it names where it has none."""
    named = [name for name in (_untagged(port, bond), *port.tagged) if name is not None]
    inside: dict[str | None, list[Address]] = {}
    for address in (*port.addresses, *(() if bond is None else bond.addresses)):
        inside.setdefault(_network_of(subnets, named, address), []).append(address)
    for name, addresses in (inside or {name: [] for name in named or (None,)}).items():
        yield _End(ref, port, bond, None if name is None else plan.networks.get(name), tuple(addresses))


def _untagged(port: Port, bond: Bond | None) -> str | None:
    """The network whose packets travel without a tag at a port, or else at the bond that it is in."""
    return port.untagged or (None if bond is None else bond.untagged)


def _network_of(subnets: Subnets, named: Sequence[str], address: Address) -> str | None:
    """The network of an address: of several that a port names, or of all where it names none, the one that holds it."""
    if len(named) == 1:
        return named[0]
    held = (subnets.holding(address, name) for name in named or (None,))
    return next((found[0] for found in held if found is not None), named[0] if named else None)


def _router(end: _End) -> Address | None:
    """The router of a port's network; None where the network has none, or none of the port's kind of address."""
    router = None if end.network is None else end.network.gateway
    reached = router is not None and (end.leased or any(each.version == router.version for each in end.addresses))
    return router if reached else None


def _open_mtu(end: _End) -> int | None:
    """The size of packets that a network plans, where it is not the usual one and a wired port of it gives none."""
    if end.network is None or end.mtu is not None or end.port.connector == "radio":
        return None
    return None if end.network.mtu == LEAST_MTU else end.network.mtu


def _is_for_storage(end: _End) -> bool:
    return end.network is not None and end.network.purpose == "storage"


def _card_port(end: _End, way_out: _End | None, subnets: Subnets) -> CardPort:
    port, bond, network = end.port, end.bond, end.network
    router = _router(end)
    is_exit = way_out is None or end is way_out or port.purpose == "management"
    written = [_written(address, network, subnets) for address in end.addresses]
    setting = Setting(
        port=end.ref,
        interface=port.interface if bond is None else None,
        network=None if network is None else network.name,
        addresses=(LEASE,) if end.leased and not written else tuple(text for text, _ in written),
        mtu=end.mtu,
        gateway=router if is_exit and written else None,
        vlan=network.vlan if network is not None and end.tagged else None,
        tagged=end.tagged,
        netmasks=(None,) if end.leased and not written else tuple(mask for _, mask in written),
        open_mtu=_open_mtu(end),
    )
    return CardPort(
        setting=setting,
        place=end.place,
        network=network,
        members=() if bond is None else bond.ports,
        radio=port.connector == "radio",
        serves=port.serves,
        way_out=None if is_exit or router is None or way_out is None else way_out.place,
    )


def _written(address: Address, network: Network | None, subnets: Subnets) -> tuple[str, str | None]:
    """An address with the length of its prefix, and its netmask, where a subnet of the plan holds it."""
    held = subnets.holding(address, None if network is None else network.name) or subnets.holding(address, None)
    if held is None:
        return str(address), None
    mask = None if address.version != IPV4 else str(ip_interface(f"{address}/{held[1]}").netmask)
    return f"{address}/{held[1]}", mask
