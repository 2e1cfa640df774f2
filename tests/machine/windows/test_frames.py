"""Nothing of Windows runs here: echo requests go through ctypes into a function that answers by their size and hops.

Numbers are those of ipexport.h: 11003 host unreachable, 11009 too big, 11010 timed out, 11013 hops used up.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from ipaddress import ip_address
from typing import Any

import pytest
from windowscalls import WindowsCalls
from windowsroom import echo_reply, interface, ip_settings, own_address, table, told

from netaudit.machine.windows.asked import Asked
from netaudit.machine.windows.frames import frame, routers
from netaudit.machine.windows.native import Native
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import Route
from netaudit.model.observation import FrameTest

VAULT = ip_address("10.44.20.10")
ROUTE = Route("Ethernet 2", source=ip_address("10.44.20.12"))
Answer = Callable[[Mapping[str, Any]], bytes | int]


def ways(echo: Answer, **tables: Any) -> tuple[Ways, WindowsCalls]:
    calls = WindowsCalls(
        interfaces=table(interface(7, "Ethernet 2")),
        addresses=table(own_address(7, "10.44.20.12", 24)),
        ip_interfaces={(7, 2): ip_settings(7, 15, 9000)},
        echo=echo,
        **tables,
    )
    return Ways(Native(calls.load), Asked(told()), told()), calls


def test_a_packet_of_9000_octets_carries_8972_beside_its_headers() -> None:
    """RFC 791 and 792: 20 octets of IP and 8 of ICMP."""
    asked, calls = ways(lambda sent: echo_reply(0))

    assert FrameTest(9000, passed=True, method="icmp") == frame(asked, VAULT, 9000, ROUTE, 0.5)
    assert (8972, "10.44.20.12", 500) == tuple(calls.sent[0][key] for key in ("octets", "source", "ms"))


def test_a_packet_that_does_not_come_back_is_lost() -> None:
    asked, _ = ways(lambda sent: 11010)

    assert FrameTest(9000, passed=False, method="icmp") == frame(asked, VAULT, 9000, ROUTE, 0.5)


def test_a_packet_that_a_router_finds_too_big_comes_with_the_size_it_named() -> None:
    asked, _ = ways(lambda sent: echo_reply(11009, "10.44.20.1"), path_mtus={(7, "10.44.20.10"): 1500})

    assert FrameTest(9000, passed=False, method="icmp", told_mtu=1500) == frame(asked, VAULT, 9000, ROUTE, 0.5)


def test_a_packet_larger_than_this_machines_own_port_is_not_sent() -> None:
    asked, calls = ways(lambda sent: echo_reply(0))

    assert FrameTest(9001, passed=None, method="icmp", told_mtu=9000) == frame(asked, VAULT, 9001, ROUTE, 0.5)
    assert [] == calls.sent


@pytest.mark.parametrize("status", [11002, 11003, 11050])
def test_a_host_that_cannot_be_reached_says_nothing_about_sizes(status: int) -> None:
    asked, _ = ways(lambda sent: status)

    assert FrameTest(1500, passed=None, method="icmp") == frame(asked, VAULT, 1500, ROUTE, 0.5)


def test_over_ipv6_what_was_learnt_of_the_way_bounds_the_packet_since_windows_would_cut_it() -> None:
    remote, source = ip_address("fd00:44:20::10"), ip_address("fd00:44:20::12")
    asked, calls = ways(lambda sent: bytes(36), path_mtus={(7, str(remote)): 1400})
    found = frame(asked, remote, 1500, Route("Ethernet 2", source=source), 0.5)

    assert FrameTest(1500, passed=None, method="icmp", told_mtu=1400) == found
    assert [] == calls.sent


def test_over_ipv6_the_headers_are_longer() -> None:
    """RFC 8200 and 4443: 40 octets of IPv6 and 8 of ICMPv6."""
    remote, source = ip_address("fd00:44:20::10"), ip_address("fd00:44:20::12")
    asked, calls = ways(lambda sent: bytes(36))

    assert frame(asked, remote, 1500, Route("Ethernet 2", source=source), 0.5).passed
    assert 1452 == calls.sent[0]["octets"]


WAY = {1: "10.44.20.1", 2: "192.0.2.1"}


def hops(sent: Mapping[str, Any]) -> bytes | int:
    """Two routers, then the storage."""
    return echo_reply(11013, WAY[sent["hops"]]) if sent["hops"] in WAY else echo_reply(0)


def test_routers_are_found_one_hop_after_the_other_until_the_storage_answers() -> None:
    asked, calls = ways(hops)

    assert (ip_address("10.44.20.1"), ip_address("192.0.2.1")) == routers(asked, VAULT, 8, 5.0)
    assert [1, 2, 3] == [each["hops"] for each in calls.sent]


def test_a_storage_on_the_link_has_no_router_before_it() -> None:
    assert () == routers(ways(lambda sent: echo_reply(0))[0], VAULT, 8, 5.0)


def test_no_more_routers_are_found_than_were_asked_for() -> None:
    asked, calls = ways(lambda sent: echo_reply(11013, f"10.44.20.{sent['hops']}"))

    assert 3 == len(routers(asked, VAULT, 3, 5.0))
    assert 3 == len(calls.sent)


def test_a_silent_router_is_left_out_and_two_in_a_row_end_the_search() -> None:
    asked, calls = ways(lambda sent: 11010 if sent["hops"] != 2 else echo_reply(11013, "192.0.2.1"))

    assert (ip_address("192.0.2.1"),) == routers(asked, VAULT, 8, 5.0)
    assert 4 == len(calls.sent)


def test_a_router_that_knows_no_way_further_ends_the_search() -> None:
    asked, calls = ways(lambda sent: echo_reply(11003, "10.44.20.1"))

    assert () == routers(asked, VAULT, 8, 5.0)
    assert 1 == len(calls.sent)


def test_without_time_nothing_is_sent() -> None:
    asked, calls = ways(hops)

    assert () == routers(asked, VAULT, 8, 0.0)
    assert [] == calls.sent
