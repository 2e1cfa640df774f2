"""A first plan from what a machine tells of itself."""

from __future__ import annotations

from ipaddress import ip_address, ip_interface, ip_network

import pytest

import netaudit
from netaudit.model.machine_state import AdapterBus, Interface
from netaudit.model.plan import Plan
from netaudit.model.ports import Bus, Rates
from netaudit.model.survey import Survey
from netaudit.plan.drafting.observed import draft_of, remarks_on
from netaudit.plan.writing.write import write

WIRE = Interface(
    "en5",
    medium="wired",
    rate_bit_per_s=10**10,
    supported=(10**10, 10**9),
    mtu=9000,
    mac="02:44:20:00:00:11",
    bus=AdapterBus("usb 5G"),
    addresses=(ip_interface("10.44.20.11/24"), ip_interface("fe80::11/64")),
)
AIR = Interface("wlan0", medium="radio", rate_bit_per_s=866 * 10**6, addresses=(ip_interface("192.168.44.21/24"),))
SURVEY = Survey(
    host="cut-1.local",
    system="linux",
    interfaces={"en5": WIRE, "wlan0": AIR},
    gateways=(ip_address("192.168.44.1"),),
    storages={"vault": (ip_address("10.44.20.10"), ip_address("192.168.44.10"))},
    manager="networkmanager",
)


def _read_back(survey: Survey) -> Plan:
    plan = draft_of(survey)
    return netaudit.loads(write(plan, remarks_on(plan)), "first.yaml")


def test_the_plan_reads_back_as_it_was_drafted_and_can_be_judged() -> None:
    plan = _read_back(SURVEY)

    assert draft_of(SURVEY).devices == plan.devices
    assert netaudit.check(plan).summary.fail == 0


def test_the_ports_are_those_of_the_machine() -> None:
    station = _read_back(SURVEY).devices["cut-1"]
    wire, air = station.ports["en5"], station.ports["wlan0"]

    assert (Rates((10**10, 10**9)), Bus("usb", rate_bit_per_s=5 * 10**9), 9000) == (wire.rates, wire.bus, wire.mtu)
    assert ("02:44:20:00:00:11", "en5", (ip_address("10.44.20.11"),)) == (wire.mac, wire.interface, wire.addresses)
    assert ("radio", Rates((866 * 10**6,)), None) == (air.connector, air.rates, air.mtu)
    assert "linux networkmanager" == f"{station.system} {station.manager}"


def test_the_storages_subnets_are_media_and_the_gateway_stands_where_it_lies() -> None:
    only_wire = SURVEY._replace(storages={"vault": (ip_address("10.44.20.10"),)})
    networks = _read_back(only_wire).networks

    assert ["media", "office"] == list(networks)
    assert (ip_network("10.44.20.0/24"), None) == (networks["media"].subnets[0], networks["media"].gateway)
    assert ip_address("192.168.44.1") == networks["office"].gateway
    assert ["media-1", "media-2"] == list(_read_back(SURVEY).networks)


def test_both_versions_of_one_wire_are_one_network() -> None:
    """The port is in one network of the plan, whose subnets hold both of its addresses."""
    both = (ip_interface("10.44.20.11/24"), ip_interface("2001:db8::11/64"))
    gateways = (ip_address("2001:db8::1"), ip_address("10.44.20.1"))
    survey = Survey("cut-1", "linux", {"en5": WIRE._replace(addresses=both)}, gateways)
    plan = _read_back(survey)

    (network,) = plan.networks.values()
    assert tuple(each.network for each in both) == network.subnets
    assert ip_address("10.44.20.1") == network.gateway
    assert () == netaudit.check(plan).not_checked


def test_only_what_lies_on_the_wires_networks_is_plugged_into_the_guessed_switch() -> None:
    cables = _read_back(SURVEY).cables

    assert [("cut-1/en5", "switch/1"), ("vault/port-1", "switch/2")] == [
        (str(cable.from_port), str(cable.to_ports[0])) for cable in cables.values()
    ]


def test_the_guessed_switch_has_a_port_for_each_cable_and_none_beside() -> None:
    assert ["1", "2"] == list(_read_back(SURVEY).devices["switch"].ports)


def test_networks_that_no_storage_lies_in_are_counted_from_one() -> None:
    assert ["office-1", "office-2"] == list(_read_back(SURVEY._replace(storages={})).networks)


def test_two_subnets_of_one_version_on_one_wire_are_two_networks() -> None:
    """IPv6 alone, too, is a network: only beside IPv4 on the same port it is the same one."""
    two = WIRE._replace(addresses=(ip_interface("10.44.20.11/24"), ip_interface("198.51.100.11/24")))
    six = WIRE._replace(name="en6", addresses=(ip_interface("2001:db8::11/64"),))
    networks = draft_of(Survey("cut-1", "linux", {"en5": two, "en6": six})).networks

    assert ["10.44.20.0/24", "198.51.100.0/24", "2001:db8::/64"] == [
        str(subnet) for network in networks.values() for subnet in network.subnets
    ]
    assert 3 == len(networks)


def test_a_storage_is_in_the_network_of_each_of_its_addresses_whichever_version() -> None:
    both = WIRE._replace(addresses=(ip_interface("10.44.20.11/24"), ip_interface("2001:db8::11/64")))
    storages = {"vault": (ip_address("2001:db8::10"), ip_address("10.44.20.10"), ip_address("203.0.113.10"))}
    plan = draft_of(Survey("cut-1", "linux", {"en5": both}, storages=storages))

    assert ["media", "media", None] == [port.untagged for port in plan.devices["vault"].ports.values()]
    assert "media" == plan.devices["cut-1"].ports["en5"].untagged


def test_the_order_of_the_services_is_kept_without_those_that_are_no_port_of_the_plan() -> None:
    station = draft_of(SURVEY._replace(service_order=("wlan0", "bridge0", "en5"))).devices["cut-1"]

    assert ("wlan0", "en5") == station.service_order


@pytest.mark.parametrize(
    ("host", "name"),
    [
        ("cut-1.edit.boathouse.example", "cut-1"),
        ("10.44.20.11", "10.44.20.11"),
        ("fe80::1", "fe80--1"),
        ("x" * 200, "x" * 59),
        ("", "this-machine"),
    ],
)
def test_a_machine_is_called_by_the_first_label_of_its_name_or_by_its_address(host: str, name: str) -> None:
    assert name == draft_of(SURVEY._replace(host=host, storages={})).devices[name].name


def test_a_name_that_is_taken_gets_a_number_from_two_on() -> None:
    storages = {"cut-1": (), "cut-1.local": ()}

    assert ["cut-1", "cut-1-2", "cut-1-3"] == list(draft_of(SURVEY._replace(storages=storages)).devices)[:3]


def test_without_a_storage_nothing_is_guessed() -> None:
    plan = _read_back(SURVEY._replace(storages={}))

    assert (["cut-1"], {}) == (list(plan.devices), plan.cables)


def test_a_rate_that_a_driver_makes_up_and_a_bus_without_words_are_left_out() -> None:
    made_up = WIRE._replace(made_up_rate=True, bus=AdapterBus("expansion slot 2"))
    port = _read_back(SURVEY._replace(interfaces={"en5": made_up})).devices["cut-1"].ports["en5"]

    assert (None, None) == (port.rates, port.bus)


@pytest.mark.parametrize(
    "host", ["switch", "vault", "", "a > b", "x" * 200, "bad\x1b[31m", "cut/1", "fe80::1", "10.44.20.11"]
)
def test_whatever_a_machine_is_called_the_plan_reads_back(host: str) -> None:
    survey = SURVEY._replace(host=host, storages={host: (ip_address("10.44.20.10"),), "other": ()})

    assert len(_read_back(survey).devices) == 4


def test_names_of_interfaces_may_hold_anything() -> None:
    odd = Interface("Ethernet 2 (büro) > x", medium="wired", addresses=(ip_interface("10.44.20.12/24"),))
    station = _read_back(SURVEY._replace(interfaces={odd.name: odd, "en5": WIRE})).devices["cut-1"]

    assert len(station.ports) == 2


def test_every_guess_is_called_one() -> None:
    plan = draft_of(SURVEY)
    text = write(plan, remarks_on(plan))

    assert text.count("Guessed:") == 3
    assert text.startswith("# A first plan, written from what this machine tells of itself.")
