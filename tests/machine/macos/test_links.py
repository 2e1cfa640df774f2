"""The interfaces of a Mac, from captures that are written from published formats and not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from mac_captures import capture
from mac_desk import AIR, WIRE, said, sit_down

from netaudit.errors import AnswerError
from netaudit.machine.macos import links
from netaudit.model.machine_state import AdapterBus, Interface

M = 10**6


def test_the_agreed_rate_is_that_of_the_medium(monkeypatch: pytest.MonkeyPatch) -> None:
    """2.5 Gb/s, which libraries call 0, is read like any other rate."""
    sit_down(monkeypatch)
    rates = {name: each.rate_bit_per_s for name, each in links.interfaces().items()}

    assert (10_000 * M, 2500 * M, 1000 * M) == (rates["en7"], rates["en10"], rates["en8"])
    assert (None, None) == (rates["en9"], rates["lo0"])


def test_a_radio_runs_at_what_its_link_does_now(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    radio = links.interfaces()["en0"]

    assert ("radio", 610_500_000, True) == (radio.medium, radio.rate_bit_per_s, radio.carrier)


def test_a_wired_port_is_gathered_from_every_command(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    port = links.interfaces()["en7"]

    assert ("Thunderbolt Ethernet Slot 0", "wired", True, "full", 9000) == (
        port.title, port.medium, port.up, port.duplex, port.mtu,
    )  # fmt: skip
    assert 987_654_321_098 == port.counters.sent_bytes
    assert WIRE in port.hosts
    assert port.carrier_changes is None


def test_a_port_without_a_router_is_known_to_rank_last(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    found = links.interfaces()

    assert (True, False, None) == (found["en7"].ranked_last, found["en0"].ranked_last, found["en8"].ranked_last)


def test_a_rate_set_by_hand_is_all_that_is_offered(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    found = links.interfaces()

    assert ((1000 * M,), None) == (found["en8"].offered, found["en7"].offered)


def test_what_lies_beneath_is_named_where_it_is_one_thing(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    found = links.interfaces()

    assert ("en7", "en0", "vlan0", None) == (
        found["vlan0"].parent, found["utun4"].parent, found["bridge1"].parent, found["bridge0"].parent,
    )  # fmt: skip
    assert ("tunnel", "Example Mesh (office) tunnel") == (found["utun4"].medium, found["utun4"].title)


def test_ifconfig_alone_is_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    late = AnswerError("netstat did not answer within 3 s")
    sit_down(monkeypatch, {"netstat -ibn": late, "networksetup -listallhardwareports": None, "scutil -d --nwi": late})
    port = links.interfaces()["en7"]

    assert (10_000 * M, None, None, None) == (
        port.rate_bit_per_s, port.title, port.ranked_last, port.counters.sent_bytes,
    )  # fmt: skip


def test_without_ifconfig_there_is_no_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"ifconfig -av": said("garbage\n")})

    with pytest.raises(AnswerError):
        links.interfaces()


def test_counters_are_joined_by_number_where_names_are_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"netstat -ibn": said(capture("netstat-ibn-10.14.txt"))})
    grown = links.counts()

    assert (1000, 1100) == (grown["bridge0"].counters.received_bytes, grown["bridge1"].counters.received_bytes)
    assert grown["en8"].counters.received_bytes is None
    assert grown["en7"].carrier_changes is None


def test_an_interface_that_is_not_counted_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)

    assert "en10" not in links.counts()


def test_counters_that_cannot_be_read_are_no_zeros(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"netstat -ibn": said("")})

    with pytest.raises(AnswerError):
        links.counts()


def test_the_closer_look_brings_bus_and_supported_rates(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"system_profiler": said(capture("profiler-15.json"))})
    port = links.detailed(links.interfaces()["en7"])

    assert (AdapterBus("thunderbolt 3"), (10_000 * M, 5000 * M, 2500 * M, 1000 * M, 100 * M)) == (
        port.bus, port.supported,
    )  # fmt: skip


def test_the_closer_look_leaves_the_agreed_rate_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """The profiler's rate is what the card could do."""
    sit_down(monkeypatch)
    port = links.interfaces()["en9"]

    assert links.detailed(port).rate_bit_per_s is None


def test_a_carrier_that_ifconfig_does_not_tell_is_read_from_the_store(monkeypatch: pytest.MonkeyPatch) -> None:
    desk = sit_down(monkeypatch)
    port = links.detailed(links.interfaces()["en3"])

    assert port.carrier is True
    assert "scutil <<< show State:/Network/Interface/en3/Link" in desk.asked


def test_a_radio_without_a_rate_is_asked_of_the_profiler(monkeypatch: pytest.MonkeyPatch) -> None:
    desk = sit_down(monkeypatch)

    assert 866 * M == links.detailed(Interface("en0", medium="radio", carrier=True)).rate_bit_per_s
    known = Interface("en0", medium="radio", carrier=True, rate_bit_per_s=610 * M)
    desk.asked.clear()
    assert 610 * M == links.detailed(known).rate_bit_per_s
    assert not [line for line in desk.asked if line.startswith("system_profiler")]


def test_a_closer_look_that_nobody_answers_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"ifconfig -m en7": None, "system_profiler": said("{"), "scutil": None})
    port = links.interfaces()["en7"]

    assert port == links.detailed(port)


def test_an_address_that_two_interfaces_bear_has_no_owner(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    found = links.blocks()

    assert ("en0", "en7") == (links.owner_of(AIR, found), links.owner_of(WIRE, found))
    assert links.owner_of(AIR, {**found, "twin": found["en0"]}) is None
    assert links.owner_of(ip_address("198.51.100.1"), found) is None
