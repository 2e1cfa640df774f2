"""`netstat -ibn`. Format: Apple's if.c; the captures are written from it and not taken from a machine."""

from __future__ import annotations

import pytest
from mac_captures import capture

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.netstat_interfaces import LinkCount, parse_netstat_interfaces
from netaudit.model.machine_state import Counters


def link(name: str, number: int) -> LinkCount:
    """One link of a capture, by its number."""
    return next(each for each in parse_netstat_interfaces(capture(name)) if each.number == number)


def test_counts_are_whole_and_in_64_bits() -> None:
    """Libraries give them rounded to 1 KiB and cut to 32 bits; the command does not."""
    expected = Counters(
        sent_bytes=987_654_321_098,
        received_bytes=1_234_567_890_123,
        sent_packets=40_123_456,
        received_packets=81_234_567,
        errors={"Ierrs": 1, "Oerrs": 2, "Coll": 0},
    )

    assert LinkCount("en7", 18, True, 9000, "02:00:5e:01:02:03", expected) == link("netstat-ibn-26.txt", 18)


def test_only_the_row_of_the_link_counts() -> None:
    """Every row of an interface repeats the totals, so that a sum would be a multiple."""
    numbers = [each.number for each in parse_netstat_interfaces(capture("netstat-ibn-26.txt"))]

    assert [1, 11, 18, 12, 13, 15, 16, 20] == numbers


@pytest.mark.parametrize("number", [1, 20])
def test_an_empty_address_does_not_shift_the_counts(number: int) -> None:
    """The column Address is empty for the loopback and for tunnels, so rows are read from the right."""
    found = link("netstat-ibn-26.txt", number)
    expected = {1: (9_876_543, 41_234), 20: (20_000, 200)}[number]

    assert found.mac is None
    assert expected == (found.counters.sent_bytes, found.counters.sent_packets)


def test_a_star_behind_the_name_means_switched_off() -> None:
    found = link("netstat-ibn-26.txt", 13)

    assert ("en9", False) == (found.name, found.up)


def test_a_further_column_for_drops_is_read_by_the_header() -> None:
    found = link("netstat-ibnd-26.txt", 18)

    assert {"Ierrs": 1, "Oerrs": 2, "Coll": 0, "Drop": 7} == found.counters.errors
    assert 987_654_321_098 == found.counters.sent_bytes


def test_names_cut_to_five_characters_are_told_apart_by_number() -> None:
    """Until 10.14 bridge0 and bridge1 are both `bridg`."""
    one, other = link("netstat-ibn-10.14.txt", 15), link("netstat-ibn-10.14.txt", 16)

    assert ("bridg", "bridg") == (one.name, other.name)
    assert (1000, 1100) == (one.counters.received_bytes, other.counters.received_bytes)


def test_what_a_driver_never_counts_is_unknown_not_zero() -> None:
    """Some drivers leave input at 0 for ever; here 880 MB were sent and nothing came in."""
    counters = link("netstat-ibn-26.txt", 12).counters

    assert (None, None) == (counters.received_bytes, counters.received_packets)
    assert (880_000_000, 900_000) == (counters.sent_bytes, counters.sent_packets)


def test_a_port_that_has_hardly_sent_anything_may_well_have_received_nothing() -> None:
    assert 0 == link("netstat-ibn-26.txt", 13).counters.received_bytes


@pytest.mark.parametrize(("sent_bytes", "received_bytes"), [(9_999_999, 0), (10_000_000, None)])
def test_from_10_mb_sent_on_nothing_received_is_not_believed(sent_bytes: int, received_bytes: int | None) -> None:
    header = capture("netstat-ibn-26.txt").splitlines()[0]
    (found,) = parse_netstat_interfaces(f"{header}\nen8 1500 <Link#12> 02:00:5e:00:00:0c 0 0 0 9 0 {sent_bytes} 0\n")

    assert received_bytes == found.counters.received_bytes


def test_a_row_that_is_cut_short_is_left_out() -> None:
    header = capture("netstat-ibn-26.txt").splitlines()[0]

    assert () == parse_netstat_interfaces(f"{header}\nen8 1500 <Link#12> 0 0 0 9\n")


@pytest.mark.parametrize("text", ["", "netstat: illegal option", "Name Mtu\nen7 9000\n"])
def test_without_its_table_the_answer_cannot_be_read(text: str) -> None:
    with pytest.raises(AnswerError, match="without its table of interfaces"):
        parse_netstat_interfaces(text)
