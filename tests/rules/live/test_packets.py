"""Packets: the smallest size that is known to be used between an interface and the storage.

A segment with timestamps lacks 52 octets of its packet over IPv4 and 72 over IPv6: RFC 791, 8200, 9293 and 7323.
"""

from __future__ import annotations

from ipaddress import IPv6Address
from typing import Any

import pytest
from deskwork import situation

from netaudit.model.machine_state import Route
from netaudit.model.observation import Observation
from netaudit.model.situation import Use
from netaudit.rules.live.desk import (
    FAR,
    LARGE_LOST,
    OPEN,
    SEEN,
    SESSION,
    SMALL_PASSES,
    VAULT,
    with_far,
    with_wire,
)
from netaudit.rules.live.packets import TCP_HEADERS, far_mtu, own_mtu, told_mtu, used_mtu

WIRE = Use("en5", "session", VAULT, SESSION.local.address)


def used(seen: Observation, use: Use = WIRE) -> int:
    return used_mtu(use, situation(seen))


def with_session(**fields: Any) -> Observation:
    return SEEN._replace(sessions=(SESSION._replace(**fields),))


def test_the_headers_are_those_of_the_standards() -> None:
    assert {4: 52, 6: 72} == TCP_HEADERS


def test_the_desk_uses_the_size_that_both_ends_have() -> None:
    assert 9000 == used(SEEN)
    assert (9000, None, None) == (
        own_mtu(FAR, situation()),
        far_mtu(FAR, situation()),
        told_mtu(FAR, situation()),
    )


@pytest.mark.parametrize(
    ("seen", "octets"),
    [
        (with_wire(mtu=1500), 1500),
        (with_far(knocks={445: OPEN._replace(mss=1448)}), 1500),
        (with_far(knocks={445: OPEN._replace(mss=1448), 2049: OPEN}), 9000),
        (with_session(mss=1448), 1500),
        (SEEN._replace(sessions=(SESSION._replace(mss=1448), SESSION)), 9000),
        (with_session(path_mtu=1400), 1400),
        (with_far(route=FAR.route._replace(mtu=4000)), 4000),  # type: ignore[union-attr]
        (with_far(frames=(SMALL_PASSES, LARGE_LOST._replace(told_mtu=1400))), 1400),
        (with_far(frames=(SMALL_PASSES, LARGE_LOST)), 1500),
        (with_far(frames=(SMALL_PASSES,)), 9000),
        (with_far(frames=(SMALL_PASSES, LARGE_LOST._replace(passed=None))), 9000),
        (with_far(frames=(SMALL_PASSES._replace(passed=False), LARGE_LOST)), 9000),
        (with_far(frames=(SMALL_PASSES, SMALL_PASSES._replace(passed=False))), 9000),
    ],
)
def test_the_smallest_that_somebody_knows_counts(seen: Observation, octets: int) -> None:
    """A size that merely was not tried tells nothing of larger ones."""
    assert octets == used(seen)


def test_a_new_connection_tells_nothing_of_a_session_on_another_interface() -> None:
    other = WIRE._replace(interface="en6")
    small = with_far(with_wire(mtu=9000), knocks={445: OPEN._replace(mss=1024)}, frames=(SMALL_PASSES, LARGE_LOST))

    assert 1500 == used(small, other)
    assert 1076 == used(small)
    assert 9000 == used(with_session(mss=1024, interface="en6"))
    assert 1076 == used(with_session(mss=1024, interface="en6"), other)


def test_a_size_that_only_the_sessions_tell_is_known() -> None:
    assert 9000 == used(with_wire(mtu=None))


def test_where_nothing_tells_it_is_what_every_port_passes() -> None:
    """IEEE 802.3, clause 3.2.7: 1500 octets."""
    assert 1500 == used(with_wire(SEEN._replace(addresses=()), mtu=None))
    assert 1500 == used(SEEN, Use("en9", "route"))


def test_ipv6_has_larger_headers() -> None:
    six = IPv6Address("fd44:20::10")
    far = FAR._replace(address=six, route=Route("en5"), knocks={445: OPEN._replace(mss=1428)}, frames=())

    assert 1500 == used(SEEN._replace(addresses=(far,), sessions=()), WIRE._replace(remote=six))


BARE = with_far(SEEN._replace(sessions=()), knocks={})


@pytest.mark.parametrize(
    ("seen", "octets"),
    [
        (with_far(knocks={445: OPEN._replace(mss=1448)}), 1500),
        (with_far(with_session(mss=1448)), None),
        (with_far(with_session(mss=1448), knocks={}), 1500),
        (with_far(with_session(mss=1448, interface="en6"), knocks={}), None),
        (with_far(knocks={445: OPEN._replace(mss=8047)}), 8099),
        (with_far(knocks={445: OPEN._replace(mss=8048)}), None),
        (with_far(with_wire(mtu=None), knocks={445: OPEN._replace(mss=1448)}), None),
        (BARE, None),
    ],
)
def test_the_storage_takes_less_where_tcp_agreed_on_less_than_nine_tenths(
    seen: Observation, octets: int | None
) -> None:
    """Handshakes just made count before older sessions; a tenth of 9000 octets is left for options and tunnels."""
    assert octets == far_mtu(seen.addresses[0], situation(seen))


@pytest.mark.parametrize(
    ("seen", "octets"),
    [
        (with_session(path_mtu=1400), 1400),
        (with_session(path_mtu=1400, interface="en6"), None),
        (with_far(with_session(path_mtu=1400), route=FAR.route._replace(mtu=1300)), 1300),  # type: ignore[union-attr]
        (with_far(with_session(path_mtu=1200), route=FAR.route._replace(mtu=1300)), 1200),  # type: ignore[union-attr]
        (with_far(BARE, frames=(LARGE_LOST._replace(told_mtu=1400),)), 1400),
        (with_far(BARE, frames=(LARGE_LOST._replace(told_mtu=8099),)), 8099),
        (with_far(BARE, frames=(LARGE_LOST._replace(told_mtu=8100),)), None),
        (with_far(with_wire(mtu=None), frames=(LARGE_LOST._replace(told_mtu=1400),)), None),
    ],
)
def test_the_smallest_size_that_the_way_names_is_told_where_it_is_less_than_nine_tenths(
    seen: Observation, octets: int | None
) -> None:
    assert octets == told_mtu(seen.addresses[0], situation(seen))
