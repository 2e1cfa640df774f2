"""A first plan from what a machine tells of itself: its ports as they are, all beyond them guessed and told so."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from ipaddress import IPv4Interface, IPv6Interface
from itertools import chain, count

from netaudit.model.machine_state import Interface
from netaudit.model.place import PortRef
from netaudit.model.plan import Bus, Cable, Device, Network, Plan, Port, Rates, Station, Storage, Switch
from netaudit.model.survey import Survey
from netaudit.model.vocabulary import Address, Subnet
from netaudit.plan.draft import DRAFT
from netaudit.plan.scalars.ports import bus as bus_of
from netaudit.plan.scalars.text import LONGEST_NAME, device_name
from netaudit.plan.writing.yaml_text import Comments

HEAD = (
    "A first plan, written from what this machine tells of itself. Its own ports are as they are now; the switch, the\n"
    "cables and the storage's ports are guesses: change what is not so, then judge it: netaudit check, and this file."
)
NETWORKS = "The networks that this machine lies in. Give the one for storage traffic: purpose: storage."
SWITCH = "Guessed: one switch between this seat and the storage, without rates. Write what it is, or take it out."
STORAGE = (
    "Guessed: one port for each address. Write its connector, rates and pools; give a port that serves no files "
    "serves: false."
)
STATION = "This machine. The rates are those it runs, or can run, now. Write what the seat wants, such as wants: 10G."
CABLES = "Guessed: one cable from each port to the switch. Read each jacket, and measure its length."
SWITCH_NAME = "switch"


def draft_of(survey: Survey) -> Plan:
    """The plan of one seat, its networks, and the storages it is in touch with."""
    networks = {network.name: network for network in _networks(survey)}
    station = _station(survey, networks)
    storages = [_storage(name, addresses, networks) for name, addresses in survey.storages.items()]
    devices: list[Device] = list(_apart([station, *storages]))
    wired = list(_wired(devices, {port.untagged for port in station.ports.values() if port.connector != "radio"}))
    cables: list[Cable] = []
    if storages and wired:
        name = _free(SWITCH_NAME, {device.name for device in devices})
        devices.append(Switch(name=name, role="switch", ports={str(nth): Port() for nth in range(1, len(wired) + 1)}))
        cables = [
            Cable(name=f"C{nth:02}", from_port=ref, to_ports=(PortRef(name, str(nth)),))
            for nth, ref in enumerate(wired, 1)
        ]
    return Plan(
        file=DRAFT,
        name=f"{station.name} and what it reaches",
        networks=networks,
        devices={device.name: device for device in devices},
        cables={cable.name: cable for cable in cables},
    )


def remarks_on(plan: Plan) -> Comments:
    """What to say above the parts of such a plan, for its writer."""
    said: dict[tuple[str, ...], str] = {(): HEAD}
    if plan.networks:
        said["networks",] = NETWORKS
    for device in plan.devices.values():
        words = STATION if isinstance(device, Station) else SWITCH if isinstance(device, Switch) else STORAGE
        said["devices", device.name] = words
    if plan.cables:
        said["cables",] = CABLES
    return said


def _networks(survey: Survey) -> Iterator[Network]:
    """A network for each group of subnets; the one that a storage lies in comes first and is called media."""
    stored = {address for addresses in survey.storages.values() for address in addresses}
    groups = _groups(survey.interfaces.values())
    storage = [group for group in groups if any(_in(address, subnet) for address in stored for subnet in group)]
    for nth, group in enumerate(storage, 1):
        yield _network("media" if len(storage) == 1 else f"media-{nth}", group, survey.gateways)
    others = [group for group in groups if group not in storage]
    for nth, group in enumerate(others, 1):
        yield _network("office" if len(others) == 1 else f"office-{nth}", group, survey.gateways)


def _groups(interfaces: Iterable[Interface]) -> list[tuple[Subnet, ...]]:
    """Subnets that lie on one wire: an IPv6 one goes with the IPv4 one of the same interface, others stand alone."""
    groups: dict[Subnet, dict[Subnet, None]] = {}
    for interface in interfaces:
        own = [each.network for each in _lasting(interface)]
        first = next((subnet for subnet in own if subnet.version == 4), None)
        for subnet in own:
            head = first if subnet.version == 6 and first is not None else subnet
            if not any(subnet in group for group in groups.values()):
                groups.setdefault(head, {head: None})[subnet] = None
    return [tuple(group) for group in groups.values()]


def _network(name: str, subnets: tuple[Subnet, ...], gateways: Iterable[Address]) -> Network:
    gateway = next((each for subnet in subnets for each in gateways if _in(each, subnet)), None)
    return Network(name=name, subnets=subnets, gateway=gateway)


def _in(address: Address, subnet: Subnet) -> bool:
    return address.version == subnet.version and address in subnet


def _lasting(interface: Interface) -> list[IPv4Interface | IPv6Interface]:
    """The addresses of an interface that others reach it by: none that it only gave itself."""
    return [each for each in interface.addresses if not (each.is_link_local or each.is_loopback)]


def _station(survey: Survey, networks: Mapping[str, Network]) -> Station:
    names: dict[str, str] = {}
    for name in survey.interfaces:
        names[name] = _free(_named(name, "port"), names.values())
    ports = {names[name]: _port(interface, networks) for name, interface in survey.interfaces.items()}
    order = tuple(names[name] for name in survey.service_order if name in names)
    return Station(
        name=_device_name(survey.host, "this-machine"),
        role="station",
        system=survey.system,
        manager=survey.manager,
        service_order=order,
        ports=ports,
    )


def _wired(devices: Iterable[Device], networks: Collection[str | None]) -> Iterator[PortRef]:
    """The ports that a cable may join: those without a radio in some networks."""
    for device in devices:
        for name, port in device.ports.items():
            if port.connector != "radio" and port.untagged in networks:
                yield PortRef(device.name, name)


def _port(interface: Interface, networks: Mapping[str, Network]) -> Port:
    hosts = tuple(each.ip for each in _lasting(interface))
    radio = interface.medium == "radio"
    rates = interface.supported or ((interface.rate_bit_per_s,) if interface.rate_bit_per_s else ())
    return Port(
        connector="radio" if radio else None,
        rates=Rates(tuple(rates)) if rates and not interface.made_up_rate else None,
        bus=None if interface.bus is None else _bus(interface.bus.text),
        untagged=next((name for ip in hosts if (name := _network_of(ip, networks)) is not None), None),
        addresses=hosts,
        mtu=interface.mtu,
        mac=interface.mac,
        interface=interface.name if _named(interface.name, "") == interface.name else None,
    )


def _storage(name: str, addresses: Iterable[Address], networks: Mapping[str, Network]) -> Storage:
    ports = {
        f"port-{nth}": Port(addresses=(address,), untagged=_network_of(address, networks))
        for nth, address in enumerate(addresses, 1)
    }
    return Storage(name=_device_name(name, "storage"), role="storage", ports=ports)


def _network_of(address: Address, networks: Mapping[str, Network]) -> str | None:
    return next((name for name, one in networks.items() if any(_in(address, each) for each in one.subnets)), None)


def _bus(text: str) -> Bus | None:
    """A bus as the system names it; None where the plan's format has no words for it."""
    try:
        return bus_of(text)
    except ValueError:
        return None


def _device_name(text: str, otherwise: str) -> str:
    """A device's name: the first label of a host name, unless it may not stand in a plan."""
    label = text if _is_address(text) else text.partition(".")[0]
    return _named(label.replace("/", "-").replace(":", "-"), otherwise)


def _is_address(text: str) -> bool:
    return text.replace(".", "").isdigit() or ":" in text


def _named(text: str, otherwise: str) -> str:
    """A text as a name, short enough for a number behind it; another where it may not be one."""
    try:
        return device_name(text[: LONGEST_NAME - len("-1000")].strip())
    except ValueError:
        return otherwise


def _apart(devices: Iterable[Device]) -> Iterator[Device]:
    """The devices, none of them under a name that another has."""
    taken: set[str] = set()
    for device in devices:
        name = _free(device.name, taken)
        taken.add(name)
        yield replace(device, name=name)


def _free(wanted: str, taken: Collection[str]) -> str:
    """The name wanted, or the first of `name-2`, `name-3` and so on that is free."""
    others = (f"{wanted}-{nth}" for nth in count(2))
    return next(name for name in chain([wanted], others) if name not in taken)
