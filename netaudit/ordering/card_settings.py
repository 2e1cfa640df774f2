"""What is typed in at each port of a machine: address and prefix, largest packet, and at one of them the router."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from netaudit.model.moving import Setting
from netaudit.model.place import PortRef
from netaudit.model.plan import Address, Bond, Device, Network, Plan, Port
from netaudit.network.forwarding import bond_of

LEASE = "lease"
"""What stands for an address that the network hands out."""


class CardPort(NamedTuple):
    """A port or bond of a machine, with what is typed in there and what decides about its cautions."""

    setting: Setting
    network: Network | None
    members: tuple[str, ...]
    """Ports of a bond; empty for a port."""
    radio: bool
    tagged: bool
    """Whether its network travels tagged."""
    serves: bool
    way_out: PortRef | None
    """Where the machine has its router, if not here although this network has one too."""

    @property
    def typed(self) -> bool:
        """Whether an address is typed in."""
        return bool(self.setting.addresses) and self.setting.addresses != (LEASE,)


class _End(NamedTuple):
    """A port, or a bond in place of its members."""

    ref: PortRef
    port: Port
    """The port itself, or the first member."""
    bond: Bond | None
    network: Network | None

    @property
    def addresses(self) -> tuple[Address, ...]:
        """Addresses of the port and of its bond."""
        return (*self.port.addresses, *(() if self.bond is None else self.bond.addresses))

    @property
    def leased(self) -> bool:
        """Whether its address is handed out."""
        return self.port.leased or (self.bond is not None and self.bond.leased)


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

    Of the networks with a router one is the way out: the first that is not meant for storage. A port for the machine's
    care answers for itself, so that it has its own.
    """
    ends = [end for end in _ends(plan, subnets, device) if end.network is not None or end.addresses or end.leased]
    outward = [end for end in ends if _router(end) is not None and end.port.purpose != "management"]
    way_out = min(outward, key=_is_for_storage, default=None)
    return tuple(_card_port(end, way_out, subnets) for end in ends)


def _ends(plan: Plan, subnets: Subnets, device: Device) -> Iterator[_End]:
    bonds = bond_of(device)
    told: set[str] = set()
    for name, port in device.ports.items():
        bond_name = bonds.get(name)
        if bond_name is None:
            yield _End(PortRef(device.name, name), port, None, _network(plan, subnets, port, None))
        elif bond_name not in told:
            told.add(bond_name)
            bond = device.bonds[bond_name]
            yield _End(PortRef(device.name, bond_name), port, bond, _network(plan, subnets, port, bond))


def _network(plan: Plan, subnets: Subnets, port: Port, bond: Bond | None) -> Network | None:
    """The network in which a port is addressed: that of its first address, else the untagged one, else a tagged one."""
    untagged = port.untagged or (None if bond is None else bond.untagged)
    named = [name for name in (untagged, *port.tagged) if name is not None]
    addresses = (*port.addresses, *(() if bond is None else bond.addresses))
    if len(named) != 1 and addresses:
        found = [subnets.holding(addresses[0], name) for name in named or (None,)]
        named = [each[0] for each in found if each is not None] or named
    return plan.networks.get(named[0]) if named else None


def _router(end: _End) -> Address | None:
    """The router of a port's network; None where the network has none, or none of the port's kind of address."""
    router = None if end.network is None else end.network.gateway
    reached = router is not None and (end.leased or any(each.version == router.version for each in end.addresses))
    return router if reached else None


def _is_for_storage(end: _End) -> bool:
    return end.network is not None and end.network.purpose == "storage"


def _card_port(end: _End, way_out: _End | None, subnets: Subnets) -> CardPort:
    ref, port, bond, network = end
    router = _router(end)
    is_exit = way_out is None or end is way_out or port.purpose == "management"
    mtu = port.mtu if bond is None or bond.mtu is None else bond.mtu
    setting = Setting(
        port=ref,
        interface=port.interface if bond is None else None,
        network=None if network is None else network.name,
        addresses=(LEASE,) if end.leased and not end.addresses else tuple(_written(end, subnets)),
        mtu=mtu,
        gateway=router if is_exit and end.addresses else None,
    )
    return CardPort(
        setting=setting,
        network=network,
        members=() if bond is None else bond.ports,
        radio=port.connector == "radio",
        tagged=network is not None and network.name in port.tagged,
        serves=port.serves,
        way_out=None if is_exit or router is None or way_out is None else way_out.ref,
    )


def _written(end: _End, subnets: Subnets) -> Iterator[str]:
    """Each address with the length of its prefix, where a subnet of the plan holds it."""
    for address in end.addresses:
        held = subnets.holding(address, None if end.network is None else end.network.name)
        held = held or subnets.holding(address, None)
        yield str(address) if held is None else f"{address}/{held[1]}"
