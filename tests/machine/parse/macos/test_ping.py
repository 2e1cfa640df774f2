"""`ping -D`. Format: Apple's ping.c; the captures are written from it and not taken from a machine."""

from __future__ import annotations

import pytest
from mac_captures import capture

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.ping import (
    IPV4_HEADERS_OCTETS,
    IPV6_HEADERS_OCTETS,
    MOST_PAYLOAD_OCTETS,
    Echo,
    parse_ping,
)


def test_a_packet_that_came_back_has_passed() -> None:
    assert Echo(passed=True) == parse_ping(capture("ping-passed.txt"), "")


def test_a_packet_that_nobody_answered_is_lost() -> None:
    """A switch that cannot carry it drops it without a word."""
    assert Echo(passed=False) == parse_ping(capture("ping-lost.txt"), "")


def test_a_packet_that_this_machine_would_not_send_proves_nothing_about_the_way() -> None:
    """Ping ends with 2, counts it as sent and reports 100 % loss; only stderr tells."""
    assert Echo(passed=None) == parse_ping(capture("ping-lost.txt"), capture("ping-too-long.stderr.txt"))


def test_a_router_that_would_have_to_cut_it_names_its_own_size() -> None:
    """RFC 1191: destination unreachable, fragmentation needed, with the MTU of the next hop."""
    assert Echo(passed=False, told_mtu=1400) == parse_ping(capture("ping-frag-needed.txt"), "")


def test_a_reply_that_was_cut_short_proves_one_direction_only() -> None:
    assert Echo(passed=None) == parse_ping(capture("ping-cut-reply.txt"), "")


@pytest.mark.parametrize("text", ["", "ping: cannot resolve vault: Unknown host", "1 packets transmitted"])
def test_without_a_summary_nothing_was_said(text: str) -> None:
    with pytest.raises(AnswerError, match="without saying what became of its packet"):
        parse_ping(text, "")


def test_headers_are_as_long_as_the_protocols_say() -> None:
    """IPv4 20 octets (RFC 791), ICMP 8 (RFC 792); IPv6 40 (RFC 8200), ICMPv6 8 (RFC 4443)."""
    assert (20 + 8, 40 + 8) == (IPV4_HEADERS_OCTETS, IPV6_HEADERS_OCTETS)


def test_the_largest_payload_is_the_systems_buffer_without_the_header() -> None:
    """RIPSNDQ in xnu's raw_ip.c is 8192; the ICMP header has 8 octets (RFC 792)."""
    assert 8192 - 8 == MOST_PAYLOAD_OCTETS
