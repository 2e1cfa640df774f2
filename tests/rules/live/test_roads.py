"""Roads: which interface stands on which, which of them is meant, and in which words they are spoken of."""

from __future__ import annotations

from ipaddress import IPv4Interface, IPv6Interface

import pytest
from deskwork import planned_port, situation

from netaudit.model.diagnosis import Use
from netaudit.model.machine_state import Interface, Route
from netaudit.rules.live.desk import (
    AIR_HOST,
    EN5,
    EN6,
    EXPECTED,
    OLD_SESSION,
    SEEN,
    SESSION,
    VAULT,
    WIRE_HOST,
    with_far,
    with_interface,
    with_wire,
)
from netaudit.rules.live.roads import (
    evidence_text,
    is_here,
    is_planned,
    kin,
    leaving,
    named,
    owner_of,
    planned_names,
    stack,
    storage_name,
    through_air,
    through_tunnel,
    used_states,
    watched,
    wires,
    with_rate,
)

VLAN = Interface("en5.20", medium="wired", parent="en5")
BRIDGE = Interface("br0", medium="virtual", parent="en5.20")
HIGH = with_interface(BRIDGE, with_interface(VLAN))


def test_an_interface_stands_on_those_beneath_it() -> None:
    assert ("br0", "en5.20", "en5") == stack("br0", situation(HIGH))
    assert ("en5",) == stack("en5", situation(HIGH))


def test_interfaces_that_name_one_another_end_somewhere() -> None:
    seen = with_interface(EN5._replace(parent="en6"), with_interface(EN6._replace(parent="en5")))

    assert ("en5", "en6") == stack("en5", situation(seen))


def test_an_interface_that_nobody_knows_stands_alone() -> None:
    assert ("en9",) == stack("en9", situation())


def test_a_tunnel_stands_on_nothing() -> None:
    seen = with_interface(Interface("tun0", medium="tunnel", parent="en5"))

    assert ("tun0",) == stack("tun0", situation(seen))
    assert not is_planned("tun0", situation(seen))


def test_kin_count_the_same_bytes_upwards_and_downwards() -> None:
    assert {"br0", "en5.20", "en5"} == kin("en5.20", situation(HIGH))
    assert {"en6"} == kin("en6", situation(HIGH))


@pytest.mark.parametrize(("name", "meant"), [("en5", True), ("en5.20", True), ("br0", True), ("en6", False)])
def test_what_stands_on_the_planned_port_is_the_planned_port(name: str, meant: bool) -> None:
    assert meant == is_planned(name, situation(HIGH))


def test_several_interfaces_may_be_recognised_as_the_planned_port() -> None:
    bridge = Interface("br0", addresses=EN5.addresses)

    assert ("en5", "br0") == planned_names(situation(with_interface(bridge)))
    assert () == planned_names(situation(SEEN, None))
    assert () == planned_names(situation(SEEN, EXPECTED._replace(road=None)))


def test_the_air_shows_through_what_stands_on_it() -> None:
    seen = with_interface(Interface("wlan0.20", medium="wired", parent="wlan0"))

    assert [True, True, False] == [through_air(name, situation(seen)) for name in ("wlan0.20", "wlan0", "en5")]


def test_a_tunnel_over_the_air_is_a_tunnel_and_not_the_air() -> None:
    seen = with_interface(Interface("tun0", medium="tunnel", parent="wlan0"))

    assert not through_air("tun0", situation(seen))
    assert through_tunnel("tun0", situation(seen))
    assert not through_tunnel("tun0", situation(seen, planned_port("wire", interface="tun0")))
    assert not through_tunnel("en9", situation(seen))


def test_one_use_is_told_for_each_interface_and_address() -> None:
    seen = SEEN._replace(sessions=(SESSION, SESSION._replace(local=SESSION.local._replace(port=1)), OLD_SESSION))

    assert [("en5", VAULT), ("wlan0", VAULT)] == [(use.interface, use.remote) for use in leaving(situation(seen))]
    assert ["en5", "wlan0"] == [state.name for state in used_states(situation(seen))]


def test_what_goes_to_this_machine_itself_leaves_by_nothing() -> None:
    seen = with_far(route=Route("lo", local=True))

    assert () == leaving(situation(seen))
    assert is_here(seen.addresses[0])
    assert not is_here(None)
    assert not is_here(SEEN.addresses[0]._replace(route=None))


def test_links_that_matter_are_those_in_use_and_the_planned_one() -> None:
    by_back = SEEN._replace(sessions=(SESSION._replace(interface="en6"),))

    assert ["en6", "en5"] == [state.name for state in watched(situation(by_back))]
    assert ["en5"] == [state.name for state in watched(situation(SEEN))]
    assert ["en6"] == [state.name for state in watched(situation(by_back, None))]


@pytest.mark.parametrize(
    "state",
    [
        Interface("x", medium="radio"),
        Interface("x", medium="tunnel"),
        Interface("x", medium="virtual", addresses=(IPv4Interface("127.0.0.1/8"),)),
    ],
)
def test_the_air_tunnels_and_the_loopback_have_no_link_to_watch(state: Interface) -> None:
    seen = with_interface(state, SEEN._replace(sessions=(SESSION._replace(interface="x"),)))

    assert ["en5"] == [each.name for each in watched(situation(seen))]


def test_an_address_has_an_owner() -> None:
    assert "wlan0" == owner_of(AIR_HOST, situation())
    assert None is owner_of(VAULT, situation())
    assert None is owner_of(None, situation(with_wire(addresses=())))


def test_a_wire_is_physical_alive_and_has_an_address_that_it_did_not_make_up() -> None:
    made_up = (IPv6Interface("fe80::1/64"),)

    assert ["en5", "en6"] == [state.name for state in wires(situation(SEEN, None))]
    assert ["en6"] == [state.name for state in wires(situation(with_wire(addresses=made_up), None))]
    assert ["en6"] == [state.name for state in wires(situation(with_wire(carrier=False), None))]
    assert ["en5"] == [state.name for state in wires(situation(SEEN, planned_port("back", radio=True)))]
    both = (*made_up, IPv6Interface("fd44::1/64"))
    assert ["en5", "en6"] == [state.name for state in wires(situation(with_wire(addresses=both), None))]


def test_things_are_called_as_the_plan_calls_them() -> None:
    seen = SEEN._replace(host="vault.local")

    assert ["vault", "vault.local"] == [storage_name(situation(seen, each)) for each in (EXPECTED, None)]
    assert "vault.local" == storage_name(situation(seen, EXPECTED._replace(storage=None)))
    assert ["en5 (cut-1/wire)", "en5"] == [named("en5", situation(seen, each)) for each in (EXPECTED, None)]


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("en5", "en5 (cut-1/wire) at 10 Gb/s (1250 MB/s)"),
        ("wlan0", "wlan0 (cut-1/air), Wi-Fi at 866 Mb/s (108 MB/s)"),
        ("en9", "en9"),
    ],
)
def test_an_interface_is_told_with_its_rate(name: str, text: str) -> None:
    assert text == with_rate(name, situation())


def test_a_rate_that_is_made_up_is_not_told() -> None:
    assert "en5 (cut-1/wire)" == with_rate("en5", situation(with_wire(made_up_rate=True)))


@pytest.mark.parametrize(
    ("use", "text"),
    [
        (Use("en5", "client", VAULT), "the file client itself reports it"),
        (Use("en5", "session", VAULT, WIRE_HOST), "the living session from 10.44.20.11 to 10.44.20.10 runs there"),
        (Use("en5", "session", VAULT), "the living session runs there"),
        (Use("en5", "session", None, WIRE_HOST), "the living session runs there"),
        (Use("en5", "route", VAULT), "that is where a new connection would go"),
    ],
)
def test_evidence_is_told_as_a_clause(use: Use, text: str) -> None:
    assert text == evidence_text(use)
