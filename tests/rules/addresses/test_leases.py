"""Rules about leases: fixed addresses and those that are handed out stay apart."""

from __future__ import annotations

from ipaddress import ip_address
from typing import Any

import pytest
from rooms import found, places
from wiring import device, jack, network, seat, vault, wired

import netaudit
from netaudit.model.finding import Finding
from netaudit.model.plan import Bond, Device, Network, Port
from netaudit.rules.addresses.leases import ADDRESS_IN_LEASES, STORAGE_ON_LEASE
from netaudit.rules.facts import build_facts


def office(gateway: str | None = None, subnet: str | None = "192.168.44.0/24") -> Network:
    """A network that hands out 192.168.44.100 to 192.168.44.199."""
    return network("office", subnet, gateway, leases=(ip_address("192.168.44.100"), ip_address("192.168.44.199")))


def at(address: str, untagged: str | None = "office", **fields: Any) -> Port:
    return jack(addresses=(ip_address(address),), untagged=untagged, **fields)


def in_leases(*things: Device | Network) -> list[Finding]:
    return found(netaudit.check(wired(*things)), "address-in-leases")


@pytest.mark.parametrize(
    ("address", "lent"),
    [("192.168.44.99", False), ("192.168.44.100", True), ("192.168.44.199", True), ("192.168.44.200", False)],
)
def test_an_address_from_the_first_to_the_last_lease_warns(address: str, lent: bool) -> None:
    assert lent == bool(in_leases(office(), seat("cut-1", {"wire": at(address)})))


def test_the_warning_names_port_network_range_and_an_address_that_would_do() -> None:
    (finding,) = in_leases(office(), seat("cut-1", {"wire": at("192.168.44.110")}))

    assert ["port cut-1/wire", "network office"] == places(finding)
    assert (
        "192.168.44.110 of cut-1/wire is among the addresses that office hands out, 192.168.44.100 to 192.168.44.199"
        == finding.message
    )
    assert (
        "Give cut-1/wire an address outside of 192.168.44.100 to 192.168.44.199, such as 192.168.44.200, "
        "or let office hand out fewer." == finding.remedy
    )
    assert ("warn", "plan") == (finding.severity, finding.source.standing)


def test_without_a_subnet_no_free_address_is_named() -> None:
    (finding,) = in_leases(office(subnet=None), seat("cut-1", {"wire": at("192.168.44.110")}))

    assert "outside of 192.168.44.100 to 192.168.44.199, or let" in finding.remedy


def test_bonds_virtual_addresses_and_gateways_count() -> None:
    pair = {"one": jack(), "two": jack()}
    bonded = vault("vault", pair, bonds={"pair": Bond(("one", "two"), "office", (ip_address("192.168.44.101"),))})
    cluster = vault("attic", {"a": jack()}, virtual={"office": ip_address("192.168.44.102")})

    told = in_leases(office("192.168.44.103"), bonded, cluster)

    assert [
        ["port vault/pair", "port vault/one", "port vault/two", "network office"],
        ["device attic", "network office"],
        ["network office"],
    ] == [places(finding) for finding in told]


def test_a_gateway_that_a_router_holds_is_told_at_the_router_alone() -> None:
    router = device("router", "router", {"lan": at("192.168.44.150")})

    (finding,) = in_leases(office("192.168.44.150"), router)

    assert ["port router/lan", "network office"] == places(finding)


def test_each_network_of_a_port_is_looked_at_and_no_other() -> None:
    plain = network("media", "10.44.20.0/24")

    assert [] == in_leases(office(), plain, seat("cut-1", {"wire": at("192.168.44.110", "media")}))
    assert 1 == len(
        in_leases(office(), plain, seat("cut-1", {"wire": at("192.168.44.110", "media", tagged=("office",))}))
    )


def test_only_addresses_in_networks_that_hand_out_others_are_asked() -> None:
    plan = wired(
        office(),
        network("media", "10.44.20.0/24"),
        seat("cut-1", {"a": at("10.44.20.9", "media"), "b": at("10.1.1.1", None)}),
    )

    assert [] == list(ADDRESS_IN_LEASES.subjects(build_facts(plan)))


def on_lease(*things: Device | Network) -> list[Finding]:
    return found(netaudit.check(wired(*things)), "storage-on-lease")


def test_a_storage_that_serves_on_a_leased_address_warns() -> None:
    (finding,) = on_lease(office(), vault("vault", {"fast": jack(leased=True, untagged="office")}))

    assert ["port vault/fast"] == places(finding)
    assert "vault/fast serves files on an address that it is lent" in finding.message
    assert "Type a fixed address into vault/fast" in finding.remedy
    assert ("warn", "plan") == (finding.severity, finding.source.standing)


def test_a_bond_on_a_lease_is_told_with_its_members() -> None:
    pair = {"one": jack(), "two": jack()}

    (finding,) = on_lease(office(), vault("vault", pair, bonds={"pair": Bond(("one", "two"), "office", leased=True)}))

    assert ["port vault/pair", "port vault/one", "port vault/two"] == places(finding)


@pytest.mark.parametrize("port", [jack(leased=True, serves=False), jack(leased=True, purpose="management"), jack()])
def test_ports_that_serve_nothing_or_have_no_lease_are_left_alone(port: Port) -> None:
    assert [] == on_lease(vault("vault", {"fast": port}))


def test_a_bond_serves_if_any_member_does() -> None:
    def pair(*ports: Port) -> Device:
        members = {str(nth): port for nth, port in enumerate(ports)}
        return vault("vault", members, bonds={"pair": Bond(tuple(members), leased=True)})

    assert 1 == len(on_lease(pair(jack(serves=False), jack())))
    assert [] == on_lease(pair(jack(serves=False), jack(purpose="management")))


def test_a_seat_may_have_a_lease() -> None:
    plan = wired(office(), seat("cut-1", {"wire": jack(leased=True, untagged="office")}))

    assert [] == list(STORAGE_ON_LEASE.subjects(build_facts(plan)))
