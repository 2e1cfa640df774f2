"""Rules about single addresses: each held once, none that no port may have."""

from __future__ import annotations

from ipaddress import ip_address, ip_network
from typing import Any

import pytest
from rooms import found, places
from wiring import device, jack, network, seat, switch, vault, wired

import netaudit
from netaudit.model.finding import Finding
from netaudit.model.plan import Bond, Device, Network
from netaudit.rules.addresses.hosts import ADDRESS_CLASH, ADDRESS_RESERVED
from netaudit.rules.facts import build_facts
from netaudit.standards.internet import SUBNET_ENDS, ReservedBlock, reserved_blocks

MEDIA = network("media", "10.44.20.0/24")


def at(*texts: str, network: str | None = "media", **fields: Any) -> Any:
    """A jack with addresses."""
    return jack(addresses=tuple(map(ip_address, texts)), untagged=network, **fields)


def findings(rule: str, *things: Device | Network) -> list[Finding]:
    """What a rule finds in a plan of networks and devices."""
    return found(netaudit.check(wired(*things)), rule)


def clash(*things: Device | Network) -> list[Finding]:
    return findings("address-clash", MEDIA, *things)


def test_two_seats_with_one_address_clash_and_the_later_one_changes() -> None:
    (finding,) = clash(seat("cut-1", {"wire": at("10.44.20.11")}), seat("cut-2", {"wire": at("10.44.20.11")}))

    assert ["port cut-2/wire", "port cut-1/wire"] == places(finding)
    assert (
        "10.44.20.11 is given to cut-1/wire and cut-2/wire, and an address can be in one place only" == finding.message
    )
    assert "Give cut-2/wire another address, such as 10.44.20.12." == finding.remedy
    assert ("fail", "plan") == (finding.severity, finding.source.standing)


def test_the_seat_changes_and_not_the_storage_whose_address_is_mounted_everywhere() -> None:
    (finding,) = clash(seat("cut-1", {"wire": at("10.44.20.10")}), vault("vault", {"fast": at("10.44.20.10")}))

    assert ["port cut-1/wire", "port vault/fast"] == places(finding)
    assert finding.remedy.startswith("Give cut-1/wire another address")


def test_of_two_storages_the_later_one_changes() -> None:
    (finding,) = clash(vault("vault", {"fast": at("10.44.20.10")}), vault("attic", {"fast": at("10.44.20.10")}))

    assert ["port attic/fast", "port vault/fast"] == places(finding)


def test_different_addresses_and_the_same_number_of_another_kind_do_not_clash() -> None:
    assert [] == clash(
        seat("cut-1", {"wire": at("10.44.20.11", "::a2c:140c")}), seat("cut-2", {"wire": at("10.44.20.12")})
    )


def test_two_ports_of_one_device_clash_and_one_port_that_lists_an_address_twice_does_not() -> None:
    assert 1 == len(clash(seat("cut-1", {"wire": at("10.44.20.11"), "air": at("10.44.20.11")})))
    assert [] == clash(seat("cut-1", {"wire": at("10.44.20.11", "10.44.20.11")}))


def test_a_bond_holds_its_address_and_its_members_are_named_with_it() -> None:
    pair = {"one": jack(), "two": jack()}
    bonded = vault("vault", pair, bonds={"pair": Bond(("one", "two"), "media", (ip_address("10.44.20.10"),))})

    (finding,) = clash(bonded, seat("cut-1", {"wire": at("10.44.20.10")}))

    assert ["port cut-1/wire", "port vault/pair", "port vault/one", "port vault/two"] == places(finding)
    assert finding.message.startswith("10.44.20.10 is given to vault/pair and cut-1/wire")


def test_a_virtual_address_that_no_port_holds_is_no_clash_and_one_that_a_node_holds_is() -> None:
    def cluster(virtual: str) -> Device:
        ports = {"a": at("10.44.20.21"), "b": at("10.44.20.22")}
        return vault("vault", ports, nodes={"a": ("a",), "b": ("b",)}, virtual={"media": ip_address(virtual)})

    assert [] == clash(cluster("10.44.20.20"))
    (finding,) = clash(cluster("10.44.20.22"))
    assert ["device vault", "port vault/b"] == places(finding)
    assert "10.44.20.22 is given to vault/b and the virtual address of vault in media" in finding.message


def test_the_gateway_address_may_be_held_by_a_router_or_the_internet_only() -> None:
    office = network("office", "192.168.44.0/24", "192.168.44.1")
    held = {"lan": at("192.168.44.1", network="office")}

    assert [] == clash(office, device("router", "router", held))
    assert [] == clash(office, device("provider", "internet", held))
    (finding,) = clash(office, seat("cut-1", held))
    assert ["port cut-1/lan", "network office"] == places(finding)
    assert (
        "192.168.44.1 is the gateway of office, and cut-1/lan, which is of role station and no router, has it"
        == finding.message
    )
    assert "Give cut-1/lan another address, such as 192.168.44.2; or, if cut-1 does lead" in finding.remedy
    assert 1 == len(clash(office, device("core", "switch", held)))


def test_a_link_local_address_of_version_6_counts_within_its_network_only() -> None:
    """RFC 4291 2.5.6: link-local addresses are for one link; every port may use fe80::1 on its own."""
    office = network("office", "192.168.44.0/24")
    one, other = seat("cut-1", {"wire": at("fe80::1")}), seat("cut-2", {"wire": at("fe80::1", network="office")})

    assert [] == clash(office, one, other)
    assert 1 == len(clash(one, seat("cut-3", {"wire": at("fe80::1")})))
    assert 1 == len(clash(office, one, seat("cut-3", {"wire": at("fe80::1", tagged=("office",))})))
    assert 1 == len(
        clash(office, seat("a", {"wire": at("fd00::1")}), seat("b", {"wire": at("fd00::1", network="office")}))
    )


def test_an_address_in_no_known_subnet_gets_no_example_of_a_free_one() -> None:
    (finding,) = clash(
        seat("cut-1", {"wire": at("10.9.9.9", network=None)}), seat("cut-2", {"wire": at("10.9.9.9", network=None)})
    )

    assert "Give cut-2/wire another address." == finding.remedy


def reserved(*things: Device | Network) -> list[Finding]:
    return findings("address-reserved", *things)


def one_seat(address: str) -> Device:
    return seat("cut-1", {"wire": at(address)})


@pytest.mark.parametrize(("prefix", "longest"), [(24, 30), (16, 30), (30, 30)])
def test_the_first_and_last_address_of_a_subnet_are_nobodys(prefix: int, longest: int) -> None:
    """RFC 3021 3.1 (e) and (h)."""
    subnet = ip_network(f"10.44.0.0/{prefix}")
    media = network("media", str(subnet))

    (first,) = reserved(media, one_seat(str(subnet[0])))
    (last,) = reserved(media, one_seat(str(subnet[-1])))

    assert (
        f"10.44.0.0 of cut-1/wire is the first of {subnet}, which names the subnet itself: no port can have it"
        == first.message
    )
    assert f"is the last of {subnet}, which speaks to everyone in it" in last.message
    assert "Give cut-1/wire another address, such as 10.44.0.1." == first.remedy == last.remedy
    assert SUBNET_ENDS == first.source == last.source
    assert ["port cut-1/wire"] == places(first)
    assert [] == reserved(media, one_seat(str(subnet[1])))
    assert [] == reserved(media, one_seat(str(subnet[-2])))


@pytest.mark.parametrize("subnet", ["10.44.20.10/31", "10.44.20.10/32", "fd00::/64", "fd00::/126"])
def test_both_addresses_of_a_pair_and_all_of_version_6_may_be_used(subnet: str) -> None:
    """RFC 3021: a prefix of 31 bits leaves two hosts; version 6 has no broadcast (RFC 4291 2)."""
    span = ip_network(subnet)

    assert [] == reserved(network("media", subnet), one_seat(str(span[0])))
    assert [] == reserved(network("media", subnet), one_seat(str(span[-1])))


@pytest.mark.parametrize("block", reserved_blocks(), ids=lambda block: str(block.subnet))
def test_no_port_has_an_address_of_a_reserved_block(block: ReservedBlock) -> None:
    for address in (block.subnet[0], block.subnet[-1]):
        (finding,) = reserved(MEDIA, seat("cut-1", {"wire": at(str(address), network=None)}))

        assert f"{address} of cut-1/wire is {block.meaning}: no port can have it" == finding.message
        assert block.source == finding.source
        assert "Give cut-1/wire another address." == finding.remedy


def test_a_reserved_address_in_a_network_gets_a_free_one_of_its_subnet() -> None:
    (finding,) = reserved(MEDIA, one_seat("127.0.0.7"))

    assert "Give cut-1/wire another address, such as 10.44.20.7." == finding.remedy


def test_a_gateway_is_judged_as_well_and_told_once() -> None:
    media = network("media", "10.44.20.0/24", "10.44.20.0")

    (finding,) = reserved(media)
    assert ["network media"] == places(finding)
    (finding,) = reserved(media, device("router", "router", {"lan": at("10.44.20.0")}))
    assert ["port router/lan"] == places(finding)


def test_the_subnet_of_another_network_reserves_nothing() -> None:
    assert [] == reserved(
        MEDIA, network("office", "10.44.0.0/16"), seat("cut-1", {"wire": at("10.44.255.255", network=None)})
    )


def test_a_plan_without_addresses_is_not_asked() -> None:
    facts = build_facts(wired(MEDIA, seat("cut-1"), switch("core")))

    assert [] == list(ADDRESS_CLASH.subjects(facts))
    assert [] == list(ADDRESS_RESERVED.subjects(facts))
