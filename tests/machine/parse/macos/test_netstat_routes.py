"""`netstat -rn`. Format: Apple's route.c; the captures are written from it and not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address, ip_network

import pytest
from mac_captures import capture

from netaudit.machine.parse.macos.netstat_routes import network_behind, parse_netstat_routes


@pytest.mark.parametrize("name", ["netstat-rn-26.txt", "netstat-rn-10.14.txt"])
def test_the_columns_of_every_release_are_read_by_their_header(name: str) -> None:
    rows = parse_netstat_routes(capture(name))

    assert 13 == len(rows)
    assert ("10.44.20.1", "en7") == (rows[1].gateway, rows[1].interface)
    assert ("link#11", "en0") == (rows[2].gateway, rows[2].interface)


def test_networks_are_abbreviated_by_their_class() -> None:
    """`127` is 127.0.0.0/8, `169.254` a /16, `192.168.44` a /24; any other length is written out."""
    expected = {"0.0.0.0/0", "10.44.20.0/24", "10.44.20.1/32", "10.44.20.10/32", "127.0.0.0/8", "127.0.0.1/32",
                "169.254.0.0/16", "172.16.0.0/12", "192.168.44.0/24", "224.0.0.0/4"}  # fmt: skip

    assert expected == {str(row.destination) for row in parse_netstat_routes(capture("netstat-rn-26.txt"))}


def test_one_subnet_on_two_ports_has_one_row_that_only_bound_sockets_use() -> None:
    rows = parse_netstat_routes(capture("netstat-rn-26.txt"))
    pair = [row for row in rows if row.destination == ip_network("10.44.20.0/24")]

    assert [("en0", False), ("en7", True)] == [(row.interface, row.scoped) for row in pair]


def test_the_network_behind_a_cloned_host_route_is_found() -> None:
    """The row of the host is a clone, scoped by ordinary use; the network's row is judged."""
    rows = parse_netstat_routes(capture("netstat-rn-26.txt"))

    assert ip_network("10.44.20.0/24") == network_behind(rows, ip_address("10.44.20.10"), "en0")
    assert ip_network("0.0.0.0/0") == network_behind(rows, ip_address("198.51.100.9"), "en0")
    assert network_behind(rows, ip_address("10.44.20.10"), "en99") is None


def test_ipv6_rows_lose_their_zone_and_keep_their_length() -> None:
    rows = parse_netstat_routes(capture("netstat-rn-inet6-26.txt"))
    expected = ["::/0", "::1/128", "2001:db8:44::/64", "fe80::/64", "fe80::11/128", "ff02::/32"]

    assert expected == [str(row.destination) for row in rows]
    assert ip_network("fe80::/64") == network_behind(rows, ip_address("fe80::10%en7"), "en7")


def test_a_table_without_a_heading_is_that_of_ipv4() -> None:
    (row,) = parse_netstat_routes("Destination Gateway Flags Netif Expire\n192.168.44 link#11 UCS en0\n")

    assert ip_network("192.168.44.0/24") == row.destination


def test_a_row_needs_no_more_than_destination_gateway_flags_and_interface() -> None:
    text = "Internet6:\nDestination Gateway Flags Netif\nfd44::/64 link#11 U en0\ndefault fe80::1 UG en0\n"

    assert ["fd44::/64", "::/0"] == [str(row.destination) for row in parse_netstat_routes(text)]


def test_a_row_that_ends_before_its_interface_is_left_out() -> None:
    text = "Internet:\nDestination Gateway Flags Netif Expire\ndefault 10.44.20.1 UGSc\n10.44.20/99 link#1 U en0\n"

    assert () == parse_netstat_routes(text)
