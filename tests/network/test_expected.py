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
    assert (10**10, PortRef("core", "1")) == (wire.agreed_bit_per_s, wire.far_port)
    assert (("media",), (ip_network("10.44.20.0/24"),), 9000) == (wire.networks, wire.subnets, wire.mtu)
    assert ("USB 5G", False) == (wire.bus, wire.radio)
    assert (True, "02:44:20:00:00:12", None, None) == (air.radio, air.mac, air.far_port, air.mtu)


def test_the_road_is_the_planned_one_with_what_the_network_alone_leaves() -> None:
    road = _expected().road
    assert road is not None

    assert (PortRef("cut-1", "wire"), PortRef("vault", "fast"), False) == (road.from_port, road.to_port, road.routed)
    assert (10**10, 10**10, 9000) == (road.agreed_bit_per_s, road.promised_bit_per_s, road.mtu)
    assert 300 * 8 * 10**6 == road.goodput_bit_per_s
    assert road.network_bit_per_s is not None
    assert 300 * 8 * 10**6 < road.network_bit_per_s < 5 * 10**9


def test_the_road_is_that_of_the_station_and_the_storage_and_of_no_other() -> None:
    """Each pair in turn, so that none is the first of all by chance."""
    text = ROOM.replace("edits_from: [vault]", "edits_from: [attic, vault]").replace(
        "  core: {",
        "  attic: {role: storage, ports: {fast: {connector: rj45, rates: up to 1G, network: media}}}\n"
        "  cut-2: {role: station, ports: {wire: {connector: rj45, rates: up to 1G, network: media}}}\n  core: {",
    )
    plan = _plan(
        text.replace("1-3:", "1-4:") + "  C03: {from: attic/fast, to: core/3}\n  C04: {from: cut-2/wire, to: core/4}\n"
    )
    topology = build_topology(plan)
    pairs = [(station, storage) for station in ("cut-1", "cut-2") for storage in ("attic", "vault")]
    roads = [expectation(plan, topology, plan.devices[one], plan.devices[other]).road for one, other in pairs]

    assert [(f"{one}/wire", f"{other}/fast") for one, other in pairs] == [
        road and (str(road.from_port), str(road.to_port)) for road in roads
    ]
    assert expectation(plan, topology, plan.devices["cut-1"], None).road is None


def test_a_plan_is_called_by_its_name_or_else_by_its_file() -> None:
    assert ["Boathouse", "room.yaml"] == [_expected().plan, _expected(ROOM.replace("name: Boathouse\n", "")).plan]


def test_a_port_without_a_largest_packet_of_its_own_has_that_of_its_network() -> None:
    silent = ROOM.replace("address: 10.44.20.11, mtu: 9000", "address: 10.44.20.11")
    own = ROOM.replace("address: 10.44.20.11, mtu: 9000", "address: 10.44.20.11, mtu: 4000")

    assert [9000, 4000, None] == [
        _expected(silent).ports["wire"].mtu,
        _expected(own).ports["wire"].mtu,
        _expected(silent).ports["air"].mtu,
    ]


def test_a_port_that_names_no_network_is_in_those_that_its_addresses_lie_in() -> None:
    nameless = ROOM.replace("network: media, address: 10.44.20.11", "address: [10.44.20.11, 198.51.100.7]").replace(
        "subnet: 10.44.20.0/24", "subnet: [10.44.20.0/24, 2001:db8::/64]"
    )
    unknown = nameless.replace("[10.44.20.11, 198.51.100.7]", "198.51.100.7")
    subnets = ip_network("10.44.20.0/24"), ip_network("2001:db8::/64")

    assert [(("media",), subnets), ((), ())] == [
        (wire.networks, wire.subnets) for wire in (_expected(text).ports["wire"] for text in (nameless, unknown))
    ]


def test_a_port_of_several_networks_is_in_the_untagged_one_first() -> None:
    tagged = ROOM.replace("network: media, address: 10.44.20.11", "networks: {untagged: office, tagged: [media]}")
    only = ROOM.replace("network: media, address: 10.44.20.11", "networks: {tagged: [media]}")

    assert [("office", "media"), ("media",)] == [_expected(text).ports["wire"].networks for text in (tagged, only)]


def test_the_smaller_packet_of_the_two_ends_counts() -> None:
    """Of 4038 octets on the wire 3948: 52 go to IP and TCP, 38 to Ethernet (IEEE 802.3, RFC 9293)."""
    road = _expected(ROOM.replace("bus: usb 5G, ", "").replace("10.44.20.10, mtu: 9000", "10.44.20.10, mtu: 4000")).road

    assert road is not None
    assert (4000, round(10**10 * 3948 / 4038)) == (road.mtu, road.network_bit_per_s)


def test_a_road_through_the_air_leaves_it_open() -> None:
    airy = (
        ROOM.replace("edits_from: [vault]", "edits_from: [vault/slow]")
        .replace(", serves: false", "")
        .replace(
            "  core: {",
            "  mast:\n    role: access-point\n    ports:\n      wire: {connector: rj45, rates: up to 1G}\n"
            "      air: {connector: radio, rates: 1200M, network: office}\n  core: {",
        )
        + "  C03: {from: mast/wire, to: core/3, category: 6A, length: 3 m, cord: 26 AWG}\n"
    )
    airy = (
        airy.replace("1-3:", "1-4:")
        + "  C04: {from: vault/slow, to: core/4, category: 6A, length: 3 m, cord: 26 AWG}\n"
    )
    road = _expected(airy).road

    assert road is not None
    assert (PortRef("cut-1", "air"), 10**9, None) == (road.from_port, road.agreed_bit_per_s, road.network_bit_per_s)


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
    archive = _plan(
        ROOM.replace("  core: {", "  attic: {role: storage, purpose: archive, ports: {}}\n  core: {").replace(
            "    edits_from: [vault]\n", ""
        )
    )
    assert storage_named(two, "198.51.100.9", [], two.devices["cut-1"]) is None
    assert plan.devices["vault"] == storage_named(archive, "198.51.100.9", [], archive.devices["cut-1"])


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
