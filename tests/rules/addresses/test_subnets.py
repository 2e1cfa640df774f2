"""Rules about subnets: every address in its network's, every network with its own."""

from __future__ import annotations

from ipaddress import IPv4Network, ip_address, ip_network
from itertools import combinations
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rooms import found, gaps, places
from wiring import device, jack, network, seat, vault, wired

import netaudit
from netaudit.model.plan import Bond, Device, Network
from netaudit.model.report import Report
from netaudit.rules.addresses.subnets import ADDRESS_OUTSIDE_SUBNET, GATEWAY_OUTSIDE_SUBNET, SUBNETS_OVERLAP
from netaudit.rules.facts import build_facts
from netaudit.standards.internet import ON_LINK_TEST

MEDIA = network("media", "10.44.20.0/24")
OUTSIDE, GATEWAY, OVERLAP = "address-outside-subnet", "gateway-outside-subnet", "subnets-overlap"


def report(*things: Device | Network) -> Report:
    """The verdict on a plan of networks and devices."""
    return netaudit.check(wired(*things))


def at(*texts: str, network: str | None = "media", **fields: Any) -> Device:
    """A seat with one port that has some addresses."""
    return seat("cut-1", {"wire": jack(addresses=tuple(map(ip_address, texts)), untagged=network, **fields)})


def listing(name: str, *subnets: str, **fields: Any) -> Network:
    """A network of several subnets."""
    return Network(name, tuple(map(ip_network, subnets)), **fields)


@pytest.mark.parametrize(
    ("address", "outside"),
    [("10.44.19.255", True), ("10.44.20.1", False), ("10.44.20.254", False), ("10.44.21.0", True)],
)
def test_an_address_outside_the_subnet_fails_and_both_ends_are_in(address: str, outside: bool) -> None:
    """RFC 1122 3.3.1.1: a host is on the wire if the masked bits of both addresses are alike."""
    assert outside == bool(found(report(MEDIA, at(address)), OUTSIDE))


def test_the_finding_names_port_subnet_and_an_address_that_would_do() -> None:
    (finding,) = found(report(MEDIA, at("10.44.2.11")), OUTSIDE)

    assert ["port cut-1/wire"] == places(finding)
    assert "10.44.2.11 of cut-1/wire is not in 10.44.20.0/24, the subnet of media" == finding.message
    assert "Give cut-1/wire an address in 10.44.20.0/24, such as 10.44.20.11." == finding.remedy
    assert ("fail", ON_LINK_TEST) == (finding.severity, finding.source)


def test_where_the_address_lies_in_another_network_the_remedy_says_so() -> None:
    (finding,) = found(report(MEDIA, network("office", "192.168.44.0/24"), at("192.168.44.9")), OUTSIDE)

    assert finding.remedy.endswith(", or put it into office, whose subnet 192.168.44.0/24 is.")


def test_any_subnet_of_any_network_of_the_port_will_do() -> None:
    both = listing("media", "10.44.20.0/24", "10.44.21.0/24")

    assert [] == found(report(both, at("10.44.21.7")), OUTSIDE)
    assert [] == found(report(both, network("office", "10.44.22.0/24"), at("10.44.22.7", tagged=("office",))), OUTSIDE)
    (finding,) = found(report(both, network("office", "10.44.22.0/24"), at("10.44.23.7", tagged=("office",))), OUTSIDE)
    assert "is not in 10.44.20.0/24, 10.44.21.0/24 or 10.44.22.0/24, the subnet of media and office" in finding.message


def test_bonds_and_virtual_addresses_are_judged_too() -> None:
    pair = {"one": jack(), "two": jack()}
    bonded = vault("vault", pair, bonds={"pair": Bond(("one", "two"), "media", (ip_address("10.9.0.1"),))})
    cluster = vault("attic", {"a": jack()}, virtual={"media": ip_address("10.9.0.2")})

    one, other = found(report(MEDIA, bonded, cluster), OUTSIDE)

    assert ["port vault/pair", "port vault/one", "port vault/two"] == places(one)
    assert ["device attic"] == places(other)
    assert "10.9.0.2 of the virtual address of attic in media is not in" in other.message


def test_both_kinds_of_address_are_held_against_their_own_kind_of_subnet() -> None:
    both = listing("media", "10.44.20.0/24", "fd00:44:20::/64")

    assert [] == found(report(both, at("10.44.20.11", "fd00:44:20::11")), OUTSIDE)
    (finding,) = found(report(both, at("10.44.20.11", "fd00:44:2::11")), OUTSIDE)
    assert "fd00:44:2::11 of cut-1/wire is not in fd00:44:20::/64, the subnet of media" == finding.message
    assert "such as fd00:44:20::11." in finding.remedy


def test_a_link_local_address_of_version_6_is_on_every_wire_and_one_of_version_4_is_judged() -> None:
    """RFC 4291 2.1: every port has a link-local address of version 6 beside its others."""
    both = listing("media", "10.44.20.0/24", "fd00:44:20::/64")

    assert [] == found(report(both, at("fe80::11")), OUTSIDE)
    assert 1 == len(found(report(both, at("169.254.7.7")), OUTSIDE))


def test_a_network_without_a_subnet_is_told_once_for_each_kind_of_address() -> None:
    others = [
        seat(
            f"cut-{nth}",
            {"wire": jack(addresses=(ip_address(f"10.0.0.{nth}"), ip_address(f"fd00::{nth}")), untagged="media")},
        )
        for nth in (2, 3)
    ]

    told = gaps(report(network("media"), at("10.0.0.1"), *others), OUTSIDE)

    assert [["network media"], ["network media"]] == [places(gap) for gap in told]
    assert ["The subnet of media is not given", "The version 6 subnet of media is not given"] == [
        gap.reason for gap in told
    ]
    assert "write down `subnet` of media: 10.0.0.1 must lie in it" == told[0].decides


def test_a_subnet_of_the_other_kind_leaves_it_open() -> None:
    (gap,) = gaps(report(MEDIA, at("fd00::1")), OUTSIDE)

    assert "The version 6 subnet of media is not given" == gap.reason


def test_an_address_that_is_in_one_network_asks_nothing_of_another_without_subnet() -> None:
    nowhere = network("office")

    assert [] == gaps(report(MEDIA, nowhere, at("10.44.20.7", tagged=("office",))), OUTSIDE)
    (gap,) = gaps(report(MEDIA, nowhere, at("10.9.9.9", tagged=("office",))), OUTSIDE)
    assert "The subnet of office is not given" == gap.reason


def test_ports_without_network_and_networks_without_address_are_not_asked() -> None:
    facts = build_facts(
        wired(network("media"), at("10.0.0.1", network=None), seat("cut-2", {"wire": jack(untagged="media")}))
    )

    assert [] == [
        *ADDRESS_OUTSIDE_SUBNET.subjects(facts),
        *GATEWAY_OUTSIDE_SUBNET.subjects(facts),
        *SUBNETS_OVERLAP.subjects(facts),
    ]


@pytest.mark.parametrize(
    ("first", "last", "outside"),
    [
        ("10.44.20.0", "10.44.20.255", False),
        ("10.44.20.100", "10.44.21.0", True),
        ("10.44.19.255", "10.44.20.9", True),
        ("10.44.20.9", "10.44.22.9", True),
    ],
)
def test_leases_lie_within_one_subnet(first: str, last: str, outside: bool) -> None:
    lending = listing("office", "10.44.20.0/24", "10.44.22.0/24", leases=(ip_address(first), ip_address(last)))

    told = found(report(lending), OUTSIDE)

    assert outside == bool(told)
    for finding in told:
        assert ["network office"] == places(finding)
        assert (
            f"the leases of office run from {first} to {last}, which is not all in 10.44.20.0/24 or 10.44.22.0/24, "
            "the subnet of office" == finding.message
        )
        assert "Let the leases of office begin and end within 10.44.20.0/24 or 10.44.22.0/24." == finding.remedy


def test_leases_of_a_network_without_subnet_are_left_open() -> None:
    lending = Network("office", leases=(ip_address("10.0.0.1"), ip_address("10.0.0.9")))

    (gap,) = gaps(report(lending), OUTSIDE)

    assert "write down `subnet` of office: 10.0.0.1 must lie in it" == gap.decides


def test_a_gateway_outside_of_its_subnet_fails_at_its_network() -> None:
    (finding,) = found(report(network("office", "192.168.44.0/24", "192.168.4.1")), GATEWAY)

    assert ["network office"] == places(finding)
    assert "192.168.4.1, the gateway of office, is not in its subnet 192.168.44.0/24" == finding.message
    assert (
        "Write the address that the router has in 192.168.44.0/24, or leave `gateway` out if nothing leads out of office."
        == finding.remedy
    )
    assert ("fail", ON_LINK_TEST) == (finding.severity, finding.source)


@pytest.mark.parametrize("gateway", ["192.168.44.1", "192.168.44.254", "192.168.45.9"])
def test_a_gateway_in_any_of_its_subnets_is_good(gateway: str) -> None:
    office = listing("office", "192.168.44.0/24", "192.168.45.0/24", gateway=ip_address(gateway))

    assert [] == found(report(office), GATEWAY)


def test_a_gateway_of_version_6_is_mostly_link_local_and_good_everywhere() -> None:
    assert [] == found(report(network("office", "fd00::/64", "fe80::1")), GATEWAY)
    assert 1 == len(found(report(network("office", "fd00::/64", "fd01::1")), GATEWAY))


def test_a_gateway_without_a_subnet_of_its_kind_is_left_open() -> None:
    (gap,) = gaps(report(network("office", gateway="192.168.44.1")), GATEWAY)
    assert (["network office"], "The subnet of office is not given") == (places(gap), gap.reason)
    (gap,) = gaps(report(network("office", "192.168.44.0/24", "fd00::1")), GATEWAY)
    assert "The version 6 subnet of office is not given" == gap.reason


def test_a_subnet_within_another_one_fails_at_the_later_network() -> None:
    (finding,) = found(report(MEDIA, network("office", "10.44.20.128/25")), OVERLAP)

    assert ["network office", "network media"] == places(finding)
    assert "10.44.20.128/25 of office and 10.44.20.0/24 of media share addresses" == finding.message
    assert finding.remedy.startswith("Give office a subnet that no other network has")
    (turned,) = found(report(network("office", "10.44.20.128/25"), MEDIA), OVERLAP)
    assert ["network media", "network office"] == places(turned)
    assert "10.44.20.0/24 of media and 10.44.20.128/25 of office share addresses" == turned.message


def test_neighbours_equal_numbers_of_the_other_kind_and_a_networks_own_list_do_not_overlap() -> None:
    assert [] == found(report(MEDIA, network("office", "10.44.21.0/24"), network("six", "::a2c:1400/120")), OVERLAP)
    assert [] == found(report(listing("media", "10.44.20.0/24", "10.44.20.0/25", "10.44.20.64/26")), OVERLAP)


def test_a_subnet_is_held_against_another_network_inside_its_own() -> None:
    wide = listing("media", "10.0.0.0/8", "10.44.20.0/26")
    inner = network("office", "10.44.20.0/24")

    assert ["10.44.20.0/24 of office and 10.0.0.0/8 of media share addresses"] == [
        finding.message for finding in found(report(wide, inner), OVERLAP)
    ]
    (turned,) = found(report(inner, listing("media", "10.44.20.0/26", "10.44.0.0/16", "10.0.0.0/8")), OVERLAP)
    assert ["network media", "network office"] == places(turned)


def test_of_subnets_with_one_beginning_the_wider_one_reaches_on() -> None:
    told = found(
        report(network("media", "10.44.0.0/24"), network("wide", "10.44.0.0/16"), network("office", "10.44.5.0/24")),
        OVERLAP,
    )

    assert [["network wide", "network media"], ["network office", "network wide"]] == [places(each) for each in told]


def test_a_network_is_told_once_however_many_it_overlaps_with() -> None:
    three = [network(name, "10.44.20.0/24") for name in ("media", "office", "guests")]

    assert [["network office", "network media"], ["network guests", "network media"]] == [
        places(finding) for finding in found(report(*three), OVERLAP)
    ]


@given(st.lists(st.tuples(st.integers(0, 3), st.integers(0, 63), st.integers(26, 32)), max_size=8))
def test_an_overlap_is_found_just_where_ipaddress_finds_one(drawn: list[tuple[int, int, int]]) -> None:
    """The standard library's ipaddress is the judge, asked about every pair."""
    subnets: dict[str, list[IPv4Network]] = {}
    for owner, host, prefix in drawn:
        subnets.setdefault(f"net-{owner}", []).append(IPv4Network((0x0A000000 + host, prefix), strict=False))
    pairs = {
        frozenset((one, other))
        for one, other in combinations(subnets, 2)
        if any(near.overlaps(far) for near in subnets[one] for far in subnets[other])
    }

    told = found(netaudit.check(wired(*(Network(name, tuple(spans)) for name, spans in subnets.items()))), OVERLAP)

    assert bool(pairs) == bool(told)
    assert {frozenset(place.name for place in finding.where) for finding in told} <= pairs


def test_a_router_in_two_networks_is_judged_in_each() -> None:
    ports = {
        "a": jack(addresses=(ip_address("10.44.20.1"),), untagged="media"),
        "b": jack(addresses=(ip_address("10.44.20.2"),), untagged="office"),
    }

    (finding,) = found(report(MEDIA, network("office", "10.44.21.0/24"), device("router", "router", ports)), OUTSIDE)

    assert ["port router/b"] == places(finding)
