"""What follows from an observation beside a plan, for rules and reports alike."""

from __future__ import annotations

import pytest
from deskwork import planned_port, situation

from netaudit.model.machine_state import Channel, ClientFacts, Interface
from netaudit.rules.live.desk import (
    EN5,
    EN6,
    EXPECTED,
    OLD_SESSION,
    SEEN,
    SESSION,
    SLOW_VAULT,
    VAULT,
    WIRE,
    WLAN0,
    with_interface,
)

VLAN = Interface("en5.20", medium="wired", parent="en5")
BRIDGE = Interface("br0", medium="virtual", parent="en5.20")
HIGH = with_interface(BRIDGE, with_interface(VLAN))
ABSENT = SEEN._replace(interfaces={"wlan0": WLAN0})


def test_the_planned_port_and_interface_are_where_the_planned_road_begins() -> None:
    assert (EXPECTED.ports["wire"], EN5) == (situation().planned_port, situation().planned_interface)
    assert (EXPECTED.ports["wire"], None) == (situation(ABSENT).planned_port, situation(ABSENT).planned_interface)
    for nothing in (situation(SEEN, None), situation(SEEN, EXPECTED._replace(road=None))):
        assert (None, None, None) == (nothing.planned_road, nothing.planned_port, nothing.planned_interface)


def test_several_interfaces_may_be_recognised_as_the_planned_port() -> None:
    bridge = Interface("br0", addresses=EN5.addresses)

    assert ("en5", "br0") == situation(with_interface(bridge)).planned_names
    assert () == situation(SEEN, None).planned_names
    assert () == situation(SEEN, EXPECTED._replace(road=None)).planned_names


def test_the_planned_way_is_the_interface_where_it_is_recognised() -> None:
    assert "en5 (cut-1/wire)" == situation().planned_way
    assert "cut-1/wire" == situation(ABSENT).planned_way
    assert "the planned port" == situation(SEEN, None).planned_way


def test_nothing_is_expected_of_an_interface_that_is_not_recognised() -> None:
    assert [WIRE, None] == [each and each.port for each in map(situation().expected_port, ("en5", "en9"))]
    assert situation(SEEN, None).expected_port("en5") is None


def test_an_interface_stands_on_those_beneath_it() -> None:
    assert ("br0", "en5.20", "en5") == situation(HIGH).stack("br0")
    assert ("en5",) == situation(HIGH).stack("en5")


def test_interfaces_that_name_one_another_end_somewhere() -> None:
    seen = with_interface(EN5._replace(parent="en6"), with_interface(EN6._replace(parent="en5")))

    assert ("en5", "en6") == situation(seen).stack("en5")


def test_an_interface_that_nobody_knows_stands_alone() -> None:
    assert ("en9",) == situation().stack("en9")


def test_a_tunnel_stands_on_nothing() -> None:
    seen = with_interface(Interface("tun0", medium="tunnel", parent="en5"))

    assert ("tun0",) == situation(seen).stack("tun0")
    assert not situation(seen).is_planned("tun0")


@pytest.mark.parametrize(("name", "meant"), [("en5", True), ("en5.20", True), ("br0", True), ("en6", False)])
def test_what_stands_on_the_planned_port_is_the_planned_port(name: str, meant: bool) -> None:
    assert meant == situation(HIGH).is_planned(name)


def test_an_interface_goes_through_the_air_where_the_system_or_the_plan_says_so() -> None:
    planned, bare = situation(SEEN, planned_port("wire", radio=True)), situation(SEEN, None)

    assert [True, True, False, False] == [
        planned.through_air("en5"),
        bare.through_air("wlan0"),
        bare.through_air("en5"),
        bare.through_air("en9"),
    ]


def test_the_air_shows_through_what_stands_on_it() -> None:
    seen = with_interface(Interface("wlan0.20", medium="wired", parent="wlan0"))

    assert [True, True, False] == [situation(seen).through_air(name) for name in ("wlan0.20", "wlan0", "en5")]


def test_a_tunnel_over_the_air_is_a_tunnel_and_not_the_air() -> None:
    seen = with_interface(Interface("tun0", medium="tunnel", parent="wlan0"))

    assert not situation(seen).through_air("tun0")
    assert situation(seen).through_tunnel("tun0")
    assert not situation(seen, planned_port("wire", interface="tun0")).through_tunnel("tun0")
    assert not situation(seen).through_tunnel("en9")


def test_the_medium_is_what_traffic_goes_through_in_the_end() -> None:
    virtual = with_interface(WLAN0._replace(medium="virtual"))
    high = with_interface(Interface("wlan0.20", medium="virtual", parent="wlan0"))

    assert ["radio", "wired", "unknown"] == [situation(virtual).medium(name) for name in ("wlan0", "en5", "en9")]
    assert ["radio", "virtual"] == [situation(high).medium("wlan0.20"), situation(virtual, None).medium("wlan0")]


def test_interfaces_and_addresses_in_use_are_each_told_once() -> None:
    elsewhere = OLD_SESSION._replace(remote=SESSION.remote._replace(address=SLOW_VAULT))
    both = situation(SEEN._replace(sessions=(SESSION, elsewhere, SESSION)))

    assert (("en5", "wlan0"), (VAULT, SLOW_VAULT)) == (both.used_names, both.remotes)


def test_addresses_in_use_are_told_with_what_was_learnt_of_them() -> None:
    assert SEEN.addresses == situation(SEEN, None).used_addresses
    assert situation(SEEN, None).address(SLOW_VAULT) is None
    elsewhere = SEEN._replace(client=ClientFacts((Channel("media", "en5", None, SLOW_VAULT),)))
    assert ((SLOW_VAULT,), ()) == (situation(elsewhere, None).remotes, situation(elsewhere, None).used_addresses)


def test_things_are_called_as_the_plan_calls_them() -> None:
    seen = SEEN._replace(host="vault.local")

    assert ["vault", "vault.local"] == [situation(seen, each).storage_name for each in (EXPECTED, None)]
    assert "vault.local" == situation(seen, EXPECTED._replace(storage=None)).storage_name
    assert ["en5 (cut-1/wire)", "en5"] == [situation(seen, each).named("en5") for each in (EXPECTED, None)]
