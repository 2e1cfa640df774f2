"""What both ways of asking share: numbers that mean unknown, addresses, words for refusals (winerror.h, ifdef.h)."""

from __future__ import annotations

from ipaddress import ip_address

import pytest

from netaudit.machine.parse.windows.facts import (
    ESTABLISHED,
    UNRESOLVED,
    AdapterFacts,
    mac_of,
    mtu_of,
    rate_of,
    refusal_text,
    slower,
    with_prefix,
)


@pytest.mark.parametrize(
    ("rate", "expected"),
    [(None, None), (0, None), (1, 1), (2**64 - 1, None), (2**64 - 2, 2**64 - 2), (10**10, 10**10)],
)
def test_zero_and_all_ones_are_no_rate(rate: int | None, expected: int | None) -> None:
    assert expected == rate_of(rate)


def test_the_slower_of_the_known_directions_counts() -> None:
    assert 5 == slower(9, 5)
    assert 9 == slower(9, None)
    assert slower(0, None) is None


@pytest.mark.parametrize(
    ("octets", "expected"),
    [(None, None), (0, None), (1, 1), (2**32 - 1, None), (2**32 - 2, 2**32 - 2), (9000, 9000)],
)
def test_zero_and_no_limit_are_no_mtu(octets: int | None, expected: int | None) -> None:
    assert expected == mtu_of(octets)


@pytest.mark.parametrize(
    ("octets", "expected"),
    [(bytes.fromhex("02005e005312"), "02:00:5e:00:53:12"), (bytes(6), None), (b"", None), (bytes(8), None)],
)
def test_a_hardware_address_has_six_octets_that_are_not_all_zero(octets: bytes, expected: str | None) -> None:
    assert expected == mac_of(octets)


def test_a_prefix_that_makes_no_sense_leaves_the_address_standing_alone() -> None:
    assert "10.0.0.1/24" == str(with_prefix(ip_address("10.0.0.1"), 24))
    assert "10.0.0.1/32" == str(with_prefix(ip_address("10.0.0.1"), 99))
    assert "10.0.0.1/0" == str(with_prefix(ip_address("10.0.0.1"), 0))
    assert "fe80::1/128" == str(with_prefix(ip_address("fe80::1%7"), None))


def test_only_numbers_that_mean_no_route_have_words() -> None:
    """winerror.h: ERROR_NOT_SUPPORTED, ERROR_NOT_FOUND, ERROR_NETWORK_UNREACHABLE, ERROR_HOST_UNREACHABLE,
    WSAENETUNREACH, WSAEHOSTUNREACH."""
    assert "the host cannot be reached (Windows error 1232)" == refusal_text(1232)
    assert all(refusal_text(code) for code in (50, 1168, 1231, 1232, 10051, 10065))
    assert refusal_text(87) is None


def test_states_have_the_numbers_of_the_public_headers() -> None:
    """tcpmib.h: MIB_TCP_STATE_ESTAB; nldef.h: NlnsUnreachable, NlnsIncomplete."""
    assert (5, {0, 1}) == (ESTABLISHED, UNRESOLVED)


def test_an_adapter_of_which_nothing_else_is_told_is_no_tunnel_and_no_layer() -> None:
    assert (False, False) == (AdapterFacts(7, "Ethernet").tunnelled, AdapterFacts(7, "Ethernet").layer)
