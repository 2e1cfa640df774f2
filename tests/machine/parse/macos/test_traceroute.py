"""`traceroute -n -q 1`. Format from memory: a line per hop; the capture is invented."""

from __future__ import annotations

from ipaddress import ip_address

from mac_captures import capture

from netaudit.machine.parse.macos.traceroute import parse_traceroute


def test_routers_come_nearest_first_without_silent_ones_and_without_the_target() -> None:
    expected = (ip_address("10.44.20.1"), ip_address("198.51.100.1"))

    assert expected == parse_traceroute(capture("traceroute.txt"), ip_address("198.51.100.9"))


def test_a_target_on_the_link_has_no_router() -> None:
    assert () == parse_traceroute(" 1  10.44.20.10  0.2 ms\n", ip_address("10.44.20.10"))
