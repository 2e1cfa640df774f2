"""Roads: which interfaces are worth judging, and in which words they are spoken of."""

from __future__ import annotations

from ipaddress import IPv4Interface, IPv6Interface

import pytest
from deskwork import planned_port, situation

from netaudit.model.machine_state import Interface, Route
from netaudit.model.situation import Use
from netaudit.rules.live.desk import (
    AIR_HOST,
    OLD_SESSION,
    SEEN,
    SESSION,
    VAULT,
    WIRE_HOST,
    WLAN0,
    with_far,
    with_interface,
    with_wire,
)
from netaudit.rules.live.roads import evidence_text, leaving, owner_of, used_states, watched, wires, with_rate

VLAN = Interface("en5.20", medium="wired", parent="en5")
BRIDGE = Interface("br0", medium="virtual", parent="en5.20")
HIGH = with_interface(BRIDGE, with_interface(VLAN))


def test_kin_count_the_same_bytes_upwards_and_downwards() -> None:
    assert {"br0", "en5.20", "en5"} == situation(HIGH).kin("en5.20")
    assert {"en6"} == situation(HIGH).kin("en6")


def test_one_use_is_told_for_each_interface_and_address() -> None:
    seen = SEEN._replace(sessions=(SESSION, SESSION._replace(local=SESSION.local._replace(port=1)), OLD_SESSION))

    assert [("en5", VAULT), ("wlan0", VAULT)] == [(use.interface, use.remote) for use in leaving(situation(seen))]
    assert ["en5", "wlan0"] == [state.name for state in used_states(situation(seen))]


def test_what_goes_to_this_machine_itself_leaves_by_nothing() -> None:
    seen = with_far(route=Route("lo", local=True))

    assert () == leaving(situation(seen))


def test_an_address_of_this_machine_on_the_loopback_makes_it_no_other_port() -> None:
    """Only a port whose every address is of 127.0.0.0/8 or ::1 is the loopback: RFC 1122 section 3.2.1.3, RFC 4291."""
    hosts = (IPv4Interface("127.0.0.1/8"), IPv4Interface("10.44.20.11/32"))
    states = [Interface("lo", medium="unknown", addresses=addresses) for addresses in (hosts, hosts[:1], ())]
    names = [
        [each.name for each in watched(situation(with_interface(state, by_loopback), None))]
        for state in states
        for by_loopback in [SEEN._replace(sessions=(SESSION._replace(interface="lo"),))]
    ]

    assert [["lo"], [], ["lo"]] == names


def test_links_that_matter_are_those_in_use_and_the_planned_one() -> None:
    by_back = SEEN._replace(sessions=(SESSION._replace(interface="en6"),), moved=None)

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
    aloft = Interface("wlan0.20", medium="wired", carrier=True, addresses=WLAN0.addresses, parent="wlan0")
    assert ["en5", "en6"] == [state.name for state in wires(situation(with_interface(aloft), None))]
    both = (*made_up, IPv6Interface("fd44::1/64"))
    assert ["en5", "en6"] == [state.name for state in wires(situation(with_wire(addresses=both), None))]


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
        (
            Use("en6", "counters", counted="the look-up names en5, but 3 packets left there"),
            "the counters prove it: the look-up names en5, but 3 packets left there",
        ),
    ],
)
def test_evidence_is_told_as_a_clause(use: Use, text: str) -> None:
    assert text == evidence_text(use)
