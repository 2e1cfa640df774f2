"""How an address is told to the system's calls."""

from __future__ import annotations

import socket
from ipaddress import ip_address

import pytest

from netaudit.machine.sockets import family, on_link, socket_address
from netaudit.model.machine_state import Endpoint


def test_ipv4_is_its_text_and_its_port() -> None:
    assert ("10.44.20.10", 445) == socket_address(Endpoint(ip_address("10.44.20.10"), 445))


def test_ipv6_has_no_flow_and_no_scope_of_its_own() -> None:
    assert ("2001:db8::10", 445, 0, 0) == socket_address(Endpoint(ip_address("2001:db8::10"), 445))


def test_a_scope_by_name_becomes_the_number_of_the_interface() -> None:
    number, name = socket.if_nameindex()[0]

    assert ("fe80::1", 445, 0, number) == socket_address(Endpoint(ip_address(f"fe80::1%{name}"), 445))


def test_a_scope_by_number_stays_that_number() -> None:
    assert ("fe80::1", 445, 0, 7) == socket_address(Endpoint(ip_address("fe80::1%7"), 445))


def test_a_scope_that_names_no_interface_is_an_error_of_the_system() -> None:
    with pytest.raises(OSError, match="no interface"):
        socket_address(Endpoint(ip_address("fe80::1%no-such-port"), 445))


@pytest.mark.parametrize(
    ("address", "told"),
    [
        ("fe80::1", "fe80::1%en5"),
        ("fe80::1%wlan0", "fe80::1%wlan0"),
        ("2001:db8::10", "2001:db8::10"),
        ("10.44.20.10", "10.44.20.10"),
    ],
)
def test_only_a_link_local_address_without_a_scope_is_given_one(address: str, told: str) -> None:
    assert told == str(on_link(ip_address(address), "en5"))


def test_the_family_follows_the_version() -> None:
    assert (socket.AF_INET, socket.AF_INET6) == (family(ip_address("192.0.2.1")), family(ip_address("2001:db8::1")))
