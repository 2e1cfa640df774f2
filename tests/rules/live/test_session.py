"""Sessions that stay where they were made, although a new one would take the right road."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Interface

import pytest
from deskwork import found, gaps, only, passes, places, planned_port, silent

from netaudit.model.machine_state import Channel, Interface
from netaudit.model.observation import Observation
from netaudit.rules.live.desk import (
    AIR_HOST,
    BY_AIR,
    BY_WIRE,
    EN6,
    EXPECTED,
    GBIT,
    OLD_SESSION,
    SEEN,
    SESSION,
    VAULT,
    WIRE_HOST,
    with_far,
    with_interface,
    with_wire,
)
from netaudit.rules.live.session import SESSION_ON_OTHER_PORT, session_place

LATE = SEEN._replace(sessions=(OLD_SESSION,))
BACK_HOST = IPv4Address("192.168.44.102")
ON_BACK = OLD_SESSION._replace(interface="en6", local=OLD_SESSION.local._replace(address=BACK_HOST))


def test_a_session_older_than_the_cable_fails_and_is_to_be_made_anew() -> None:
    finding = only(SESSION_ON_OTHER_PORT, LATE)

    assert ["session 192.168.44.101:49152 > 10.44.20.10:445", "interface wlan0", "interface en5"] == places(finding)
    assert (
        "the share still runs on wlan0 (cut-1/air), Wi-Fi at 866 Mb/s (108 MB/s), where it was mounted, although a new "
        "connection to 10.44.20.10 goes by en5 (cut-1/wire) at 10 Gb/s (1250 MB/s)" == finding.message
    )
    assert finding.remedy.startswith("Nothing is wrong with the cable: the mount is older than it")
    assert finding.remedy.endswith(
        "Save, close the projects, run `sudo umount /mnt/media`, then `sudo mount -t cifs //10.44.20.10/media /mnt/media` with the "
        "options it had."
    )


def test_any_of_several_sessions_is_enough() -> None:
    assert 1 == len(found(SESSION_ON_OTHER_PORT, SEEN._replace(sessions=(SESSION, OLD_SESSION))))


def test_a_session_where_a_new_one_would_go_passes() -> None:
    assert passes(SESSION_ON_OTHER_PORT, SEEN)
    assert passes(SESSION_ON_OTHER_PORT, with_far(LATE, route=BY_AIR._replace(source=AIR_HOST)))


def test_a_session_of_another_ports_address_belongs_to_that_port_though_its_packets_leave_by_the_new_one() -> None:
    assert found(SESSION_ON_OTHER_PORT, LATE._replace(sessions=(OLD_SESSION._replace(interface="en5"),)))


def test_a_session_belongs_by_its_address_where_its_interface_is_not_told() -> None:
    assert found(SESSION_ON_OTHER_PORT, LATE._replace(sessions=(OLD_SESSION._replace(interface=None),)))
    assert passes(SESSION_ON_OTHER_PORT, SEEN._replace(sessions=(SESSION._replace(interface=None),)))


def test_a_borrowed_address_that_a_new_connection_would_bear_too_is_no_sign() -> None:
    """A route through Wi-Fi may prefer the wire's address as its source."""
    borrowed = BY_AIR._replace(source=WIRE_HOST)
    seen = with_far(SEEN._replace(sessions=(SESSION._replace(interface="wlan0"),)), route=borrowed)

    assert passes(SESSION_ON_OTHER_PORT, seen)


def test_wifis_address_borrowed_by_the_wire_is_no_sign_either() -> None:
    seen = with_far(
        SEEN._replace(sessions=(OLD_SESSION._replace(interface="en5"),)), route=BY_WIRE._replace(source=AIR_HOST)
    )

    assert passes(SESSION_ON_OTHER_PORT, seen)


def test_an_interface_that_is_told_counts_before_the_owner_of_the_address() -> None:
    lent = OLD_SESSION._replace(local=OLD_SESSION.local._replace(address=BACK_HOST))

    assert ["interface wlan0", "interface en5"] == places(only(SESSION_ON_OTHER_PORT, SEEN._replace(sessions=(lent,))))[
        1:
    ]


def test_an_address_of_no_interface_tells_nothing() -> None:
    stray = OLD_SESSION._replace(interface=None, local=OLD_SESSION.local._replace(address=IPv4Address("10.9.9.9")))

    assert silent(SESSION_ON_OTHER_PORT, SEEN._replace(sessions=(stray,)))


@pytest.mark.parametrize("change", [{"route": None}, {"route": BY_WIRE._replace(local=True)}, {"address": AIR_HOST}])
def test_without_a_route_of_today_there_is_nothing_to_compare(change: dict[str, object]) -> None:
    assert silent(SESSION_ON_OTHER_PORT, with_far(LATE, **change))


@pytest.mark.parametrize(("active", "strikes"), [(False, False), (True, True)])
def test_a_session_that_only_stands_by_is_left_alone(active: bool, strikes: bool) -> None:
    channel = Channel("media", "wlan0", AIR_HOST, VAULT, active=active)
    seen = LATE._replace(client=LATE.client._replace(channels=(channel,)))

    assert strikes == bool(found(SESSION_ON_OTHER_PORT, seen))


def test_a_vlan_on_the_new_road_is_the_new_road() -> None:
    vlan = Interface("en5.20", parent="en5")
    seen = with_interface(vlan, SEEN._replace(sessions=(SESSION._replace(interface="en5.20"),)))

    assert passes(SESSION_ON_OTHER_PORT, seen)


def test_where_the_new_road_is_not_the_planned_one_others_have_the_word() -> None:
    seen = with_far(LATE, route=BY_WIRE._replace(interface="en6", source=BACK_HOST))

    assert passes(SESSION_ON_OTHER_PORT, seen)
    assert passes(SESSION_ON_OTHER_PORT, with_far(SEEN, route=BY_AIR))


def unplanned(session_rate: int | None, route_rate: int | None) -> Observation:
    """A session by one cable and a route by another, without a plan."""
    seen = with_interface(EN6._replace(rate_bit_per_s=session_rate), with_wire(rate_bit_per_s=route_rate))
    return seen._replace(sessions=(ON_BACK,))


@pytest.mark.parametrize(
    ("session_rate", "route_rate", "strikes"), [(GBIT, 10 * GBIT, True), (GBIT, GBIT, False), (10 * GBIT, GBIT, False)]
)
def test_without_a_plan_the_faster_cable_is_the_better_one(session_rate: int, route_rate: int, strikes: bool) -> None:
    assert strikes == bool(found(SESSION_ON_OTHER_PORT, unplanned(session_rate, route_rate), None))


def test_without_a_plan_a_cable_is_better_than_the_air() -> None:
    assert found(SESSION_ON_OTHER_PORT, with_wire(LATE, rate_bit_per_s=None), None)
    assert passes(SESSION_ON_OTHER_PORT, with_far(SEEN, route=BY_AIR), None)


def test_without_a_plan_anything_is_better_than_a_tunnel() -> None:
    tunnel = Interface("tun0", medium="tunnel", addresses=(IPv4Interface("10.9.0.2/24"),))
    inside = OLD_SESSION._replace(interface="tun0", local=OLD_SESSION.local._replace(address=IPv4Address("10.9.0.2")))
    seen = with_far(with_interface(tunnel, SEEN._replace(sessions=(inside,))), route=BY_AIR)

    assert found(SESSION_ON_OTHER_PORT, seen, None)


@pytest.mark.parametrize("rates", [(None, GBIT), (GBIT, None)])
def test_without_a_plan_and_a_rate_it_is_not_checked(rates: tuple[int | None, int | None]) -> None:
    (gap,) = gaps(SESSION_ON_OTHER_PORT, unplanned(*rates), None)

    assert ["session 192.168.44.102:49152 > 10.44.20.10:445"] == places(gap)
    assert gap.reason.startswith("A living session runs on en6 and a new one would go by en5, and which of them")


def test_a_made_up_rate_compares_with_nothing() -> None:
    made_up = with_wire(unplanned(GBIT, 10 * GBIT), made_up_rate=True)

    assert gaps(SESSION_ON_OTHER_PORT, made_up, None)


def test_where_the_planned_port_is_not_recognised_the_plan_does_not_help() -> None:
    absent = planned_port("wire", interface="en9", addresses=())

    assert found(SESSION_ON_OTHER_PORT, LATE, absent)
    assert passes(SESSION_ON_OTHER_PORT, with_far(SEEN, route=BY_AIR), EXPECTED._replace(road=None))


def test_a_session_is_named_by_its_ends() -> None:
    assert "session 10.44.20.11:51820 > 10.44.20.10:445" == str(session_place(SESSION))
