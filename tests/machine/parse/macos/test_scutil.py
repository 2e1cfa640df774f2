"""`scutil`. Format: Apple's configd; the captures are written from it and not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from mac_captures import capture

from netaudit.machine.parse.macos.scutil import Ranked, parse_nwi, parse_show


def test_the_order_within_a_family_is_the_systems_own() -> None:
    found = parse_nwi(capture("scutil-nwi.txt"))

    assert [("en0", 4), ("utun4", 4), ("en7", 4), ("en0", 6)] == [(each.interface, each.version) for each in found]
    assert Ranked("en7", 4, ip_address("10.44.20.11")) == found[2]


def test_a_service_without_a_router_ranks_last_whatever_order_was_set() -> None:
    """Apple, configd, ip_plugin.c: such a service is demoted to the rank Last."""
    found = parse_nwi(capture("scutil-nwi-debug.txt"))

    assert [("Default", 2, False), ("Default", 4, False), ("Last", 0, True)] == [
        (each.assertion, each.place, each.last) for each in found[:3]
    ]


def test_an_entry_without_a_heading_is_of_ipv4() -> None:
    assert (Ranked("en0", 4),) == parse_nwi("     en0 : flags      : 0x5 (IPv4,DNS)\n")


def test_without_ranks_nobody_knows_who_is_last() -> None:
    assert all(each.last is None for each in parse_nwi(capture("scutil-nwi.txt")))


@pytest.mark.parametrize("text", ["", capture("scutil-nwi-none.txt")])
def test_no_network_information_is_an_empty_order(text: str) -> None:
    assert () == parse_nwi(text)


def test_plain_values_of_the_store_are_read_and_arrays_left_out() -> None:
    assert {"Active": "TRUE", "Expensive": "FALSE", "LinkQuality": "100"} == parse_show(capture("scutil-show-link.txt"))
    assert {"InterfaceName": "en7", "Router": "10.44.20.1"} == parse_show(capture("scutil-show-array.txt"))


def test_a_key_that_is_not_there_has_no_values() -> None:
    assert {} == parse_show("  No such key\n")
