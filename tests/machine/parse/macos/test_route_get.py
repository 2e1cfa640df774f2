"""`route -n get`. Format: Apple's route.c; the captures are written from it and not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address, ip_network

import pytest
from mac_captures import capture

from netaudit.machine.parse.macos.route_get import parse_route_get, refusal

VAULT = ip_address("10.44.20.10")


def test_a_route_on_the_link_names_interface_network_and_mtu() -> None:
    route = parse_route_get(capture("route-get-link.txt"), VAULT)

    assert route is not None
    assert ("en0", ip_network("10.44.20.0/24"), None, 1500) == route[:4]
    assert not route.local
    assert not route.cloned


def test_a_route_through_a_router_names_it_and_its_locked_mtu_is_read() -> None:
    route = parse_route_get(capture("route-get-router.txt"), ip_address("198.51.100.9"))

    assert route is not None
    assert ("en0", ip_network("0.0.0.0/0"), ip_address("10.44.20.1"), 1400) == route[:4]


def test_an_ipv6_route_keeps_the_zone_of_its_router_and_its_mask_is_an_address() -> None:
    route = parse_route_get(capture("route-get-ipv6.txt"), ip_address("2001:db8:44:9::10"))

    assert route is not None
    assert ("en0", ip_network("2001:db8:44::/48"), ip_address("fe80::1%en0")) == route[:3]


def test_a_route_cloned_for_one_host_says_so() -> None:
    """Host routes that were cloned always look scoped."""
    route = parse_route_get(capture("route-get-cloned.txt"), VAULT)

    assert route is not None
    assert route.cloned
    assert ip_network("10.44.20.10/32") == route.destination


def test_this_machine_itself_is_local() -> None:
    route = parse_route_get(capture("route-get-local.txt"), ip_address("10.44.20.11"))

    assert route is not None
    assert route.local


@pytest.mark.parametrize(
    ("interface", "flags", "local"),
    [("lo0", "UP,HOST", True), ("en0", "UP,HOST,LOCAL", True), ("en0", "UP,HOST", False)],
)
def test_the_loopback_or_the_flag_says_that_it_is_local(interface: str, flags: str, local: bool) -> None:
    route = parse_route_get(f"  interface: {interface}\n      flags: <{flags}>\n", VAULT)

    assert route is not None
    assert local == route.local


def test_a_mask_may_be_the_default_one_of_no_bits() -> None:
    text = capture("route-get-link.txt").replace("255.255.255.0", "default")
    route = parse_route_get(text, VAULT)

    assert route is not None
    assert ip_network("0.0.0.0/0") == route.destination


def test_a_tunnel_is_an_interface_like_any_other() -> None:
    route = parse_route_get(capture("route-get-vpn.txt"), VAULT)

    assert route is not None
    assert ("utun4", 1380) == (route.interface, route.mtu)


def test_without_a_line_for_the_interface_there_is_no_route_though_the_command_ends_with_0() -> None:
    """`route get` exits 0 without a route; its words are on stderr."""
    assert parse_route_get("", VAULT) is None
    assert parse_route_get(capture("route-get-message.txt"), VAULT) is None


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("route-get-none.stderr.txt", "no route to that address is in the table"),
        ("route-get-message.stderr.txt", "No route to host"),
    ],
)
def test_the_reason_is_given_in_the_systems_words(name: str, expected: str) -> None:
    assert expected == refusal(capture(name))


def test_a_refusal_without_words_is_still_a_sentence() -> None:
    assert "no route to that address is in the table" == refusal("")


@pytest.mark.parametrize("mask", ["255.0.255.0", "ffff::", "nonsense"])
def test_a_mask_that_is_none_leaves_the_network_unknown(mask: str) -> None:
    text = capture("route-get-link.txt").replace("255.255.255.0", mask)
    route = parse_route_get(text, VAULT)

    assert route is not None
    assert route.destination is None


def test_an_mtu_of_nothing_is_unknown() -> None:
    route = parse_route_get(capture("route-get-link.txt").replace("    1500  ", "       0  "), VAULT)

    assert route is not None
    assert route.mtu is None


def test_without_its_numbers_the_mtu_is_unknown() -> None:
    text = capture("route-get-link.txt")
    for cut in (text.rpartition(" recvpipe")[0], text[: text.rindex("1500")]):
        route = parse_route_get(cut, VAULT)
        assert route is not None
        assert route.mtu is None
