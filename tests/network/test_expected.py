"""What a plan expects of a machine."""

from __future__ import annotations

from ipaddress import ip_address, ip_interface, ip_network

import pytest

import netaudit
from netaudit.model.machine_state import Interface
from netaudit.model.place import PortRef
from netaudit.model.plan import Plan, Station, Storage
from netaudit.network.expected import expectation, planned_addresses, stations_like, storage_named
from netaudit.network.topology import build_topology

ROOM = """
netaudit: 1
name: Boathouse
networks:
  media: {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}
  office: {subnet: 192.168.44.0/24}
devices:
  cut-1:
    role: station
    system: linux
    edits_from: [vault]
    ports:
      wire: {connector: rj45, rates: up to 10G, bus: usb 5G, network: media, address: 10.44.20.11, mtu: 9000, interface: en5}
      air: {connector: radio, rates: 1200M, network: office, mac: "02:44:20:00:00:12"}
  core: {role: switch, ports: {1-3: {connector: rj45, rates: up to 10G}}}
  vault:
    role: storage
    ports:
      fast: {connector: rj45, rates: up to 10G, network: media, address: 10.44.20.10, mtu: 9000}
      slow: {connector: rj45, rates: up to 1G, network: office, address: 192.168.44.10, serves: false}
      care: {connector: rj45, rates: up to 1G, network: office, address: 192.168.44.9, purpose: management}
    pools: {main: {measured_read: 300 MB/s}}
cables:
  C01: {from: cut-1/wire, to: core/1, category: 6A, length: 3 m, cord: 26 AWG}
  C02: {from: vault/fast, to: core/2, category: 6A, length: 3 m, cord: 26 AWG}
"""


def _plan(text: str = ROOM) -> Plan:
    return netaudit.loads(text, "room.yaml")


def _expected(text: str = ROOM):
    plan = _plan(text)
    station, storage = plan.devices["cut-1"], plan.devices["vault"]
    assert isinstance(station, Station)
    assert isinstance(storage, Storage)
    return expectation(plan, build_topology(plan), station, storage)


def test_the_ports_of_the_station_are_told_with_what_a_machine_can_be_held_against() -> None:
    wire, air = _expected().ports["wire"], _expected().ports["air"]

    assert ("en5", None, (ip_address("10.44.20.11"),)) == (wire.interface, wire.mac, wire.addresses)
    assert (10**10, 10**10, PortRef("core", "1")) == (wire.rate_bit_per_s, wire.agreed_bit_per_s, wire.far_port)
    assert (("media",), (ip_network("10.44.20.0/24"),), 9000) == (wire.networks, wire.subnets, wire.mtu)
    assert ("USB 5G", False) == (wire.bus, wire.radio)
    assert (True, "02:44:20:00:00:12", None, None) == (air.radio, air.mac, air.far_port, air.mtu)


def test_the_ports_of_the_storage_say_whether_they_serve() -> None:
    ports = _expected().storage_ports

    assert [True, False, True] == [ports[name].serves for name in ("fast", "slow", "care")]


def test_the_road_is_the_planned_one_with_what_the_network_alone_leaves() -> None:
    road = _expected().road
    assert road is not None

    assert (PortRef("cut-1", "wire"), PortRef("vault", "fast"), False) == (road.from_port, road.to_port, road.routed)
    assert (10**10, 10**10, 9000) == (road.agreed_bit_per_s, road.promised_bit_per_s, road.mtu)
    assert 300 * 8 * 10**6 == road.goodput_bit_per_s
    assert road.network_bit_per_s is not None
    assert 300 * 8 * 10**6 < road.network_bit_per_s < 5 * 10**9


def test_without_a_bus_the_road_leaves_what_tcp_leaves_of_the_link() -> None:
    """8948 of 9038 octets: IPv4 20, TCP 20, timestamps 12; preamble, header, check and gap 38 (IEEE 802.3, RFC 9293)."""
    road = _expected(ROOM.replace("bus: usb 5G, ", "")).road

    assert road is not None
    assert round(10**10 * 8948 / 9038) == road.network_bit_per_s


def test_an_end_without_an_mtu_counts_as_the_standards_least_and_leaves_the_planned_packet_open() -> None:
    road = _expected(
        ROOM.replace("bus: usb 5G, ", "").replace("address: 10.44.20.10, mtu: 9000", "address: 10.44.20.10")
    ).road

    assert road is not None
    assert (round(10**10 * 1448 / 1538), None) == (road.network_bit_per_s, road.mtu)


@pytest.mark.parametrize("spoilt", [("length: 3 m, cord: 26 AWG}\n  C02", "}\n  C02"), ("usb 5G", "usb 7G")])
def test_an_open_link_or_bus_leaves_it_open(spoilt: tuple[str, str]) -> None:
    road = _expected(ROOM.replace(*spoilt)).road

    assert road is not None
    assert road.network_bit_per_s is None


def test_no_road_and_no_storage_are_told_as_such() -> None:
    plan = _plan(ROOM.split("cables:", maxsplit=1)[0])
    topology = build_topology(plan)
    station, storage = plan.devices["cut-1"], plan.devices["vault"]
    assert isinstance(station, Station)
    assert isinstance(storage, Storage)

    assert expectation(plan, topology, station, storage).road is None
    assert (None, {}, None) == expectation(plan, topology, station, None)[2:3] + expectation(
        plan, topology, station, None
    )[4:6]


@pytest.mark.parametrize("target", ["vault", "VAULT", "vault.local", "10.44.20.10"])
def test_a_storage_is_meant_by_its_name_the_first_label_of_it_or_an_address(target: str) -> None:
    plan = _plan(ROOM.replace("edits_from: [vault]", "edits_from: []"))
    addresses = [ip_address(target)] if target[0].isdigit() else []

    assert plan.devices["vault"] == storage_named(plan, target, addresses, plan.devices["cut-1"])


def test_an_unknown_name_means_the_only_storage_that_the_seat_edits_from() -> None:
    plan = _plan()
    two = _plan(
        ROOM.replace("  core: {", "  attic: {role: storage, ports: {}}\n  core: {").replace(
            "    edits_from: [vault]\n", ""
        )
    )

    assert plan.devices["vault"] == storage_named(plan, "198.51.100.9", [], plan.devices["cut-1"])
    assert storage_named(two, "198.51.100.9", [], two.devices["cut-1"]) is None


def test_a_machine_is_a_station_that_has_one_of_its_addresses_or_hardware_addresses() -> None:
    plan = _plan()
    by_address = Interface("eth0", addresses=(ip_interface("10.44.20.11/24"),))
    by_mac = Interface("eth0", mac="02:44:20:00:00:12")

    assert ["cut-1"] == [each.name for each in stations_like(plan, [by_address])]
    assert ["cut-1"] == [each.name for each in stations_like(plan, [by_mac])]
    assert () == stations_like(plan, [Interface("eth0")])


def test_the_planned_addresses_of_a_name_are_those_at_which_it_serves() -> None:
    assert (ip_address("10.44.20.10"),) == planned_addresses(_plan(), "vault")
    assert () == planned_addresses(_plan(), "cut-1") == planned_addresses(_plan(), "attic")


def test_a_bond_lends_its_members_its_address_and_network() -> None:
    bonded = ROOM.replace(
        "      fast: {connector: rj45, rates: up to 10G, network: media, address: 10.44.20.10, mtu: 9000}",
        "      fast: {connector: rj45, rates: up to 10G}\n      spare: {connector: rj45, rates: up to 10G}",
    ).replace(
        "    pools:",
        "    bonds: {pair: {ports: [fast, spare], network: media, address: 10.44.20.10, mtu: 9000}}\n    pools:",
    )
    fast = _expected(bonded).storage_ports["fast"]

    assert ((ip_address("10.44.20.10"),), ("media",), 9000) == (fast.addresses, fast.networks, fast.mtu)
