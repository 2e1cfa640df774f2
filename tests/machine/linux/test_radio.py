"""Radio: answers built from the published layouts, since no radio can be staged."""

import struct
from collections.abc import Callable, Iterable, Mapping

import pytest

from netaudit.errors import AnswerError, PrivilegeError
from netaudit.machine.linux import netlink, radio
from netaudit.machine.linux.netlink import Message, attribute, number_attribute
from netaudit.machine.linux.radio import parse_family, parse_links, parse_rate_bit_per_s, radio_links, rate_bit_per_s

HEAD = struct.pack("=BBH", 17, 1, 0)
"""struct genlmsghdr: command, version, reserved."""


def family(number: int, name: bytes) -> Message:
    return Message(16, 0, 1, HEAD + attribute(1, struct.pack("=H", number)) + attribute(2, name + b"\0"))


def station(*rate: bytes) -> bytes:
    """An answer to NL80211_CMD_GET_STATION: interface, address, and what is known of the station."""
    info = attribute(7, b"\xc9") + attribute(8 | 0x8000, b"".join(rate))
    return HEAD + number_attribute(3, 4) + attribute(6, bytes(6)) + attribute(21 | 0x8000, info)


FAMILIES = (family(16, b"nlctrl"), family(21, b"ethtool"), family(34, b"nl80211"))


def answering(monkeypatch: pytest.MonkeyPatch, answers: Mapping[tuple[int, int], tuple[Message, ...]]) -> None:
    """A kernel that lists what it is told to, by family and command."""
    monkeypatch.setattr(netlink, "dump", lambda _, kind, body: answers[kind, body[0]])


def test_a_rate_is_counted_in_hundreds_of_kilobits() -> None:
    """NL80211_RATE_INFO_BITRATE32: 8667 is 866.7 Mb/s."""
    assert 866_700_000 == parse_rate_bit_per_s(
        station(attribute(1, struct.pack("=H", 8667)), number_attribute(5, 8667))
    )


def test_the_shorter_number_serves_older_kernels() -> None:
    """NL80211_RATE_INFO_BITRATE, of 16 bits."""
    assert 54_000_000 == parse_rate_bit_per_s(station(attribute(1, struct.pack("=H", 540))))


def test_a_rate_that_does_not_fit_the_shorter_number() -> None:
    assert 11_529_600_000 == parse_rate_bit_per_s(station(number_attribute(5, 115_296)))


def test_a_station_that_nothing_was_sent_to_has_no_rate() -> None:
    assert parse_rate_bit_per_s(station()) is None
    assert parse_rate_bit_per_s(HEAD) is None
    assert parse_rate_bit_per_s(b"") is None


def test_the_family_is_found_in_the_list_of_all() -> None:
    assert 34 == parse_family(FAMILIES, "nl80211")
    assert parse_family(FAMILIES[:2], "nl80211") is None


def test_the_access_point_in_use_tells_the_rate(monkeypatch: pytest.MonkeyPatch) -> None:
    point = Message(34, 0, 1, station(number_attribute(5, 12_010)))
    answering(monkeypatch, {(16, 3): FAMILIES, (34, 17): (point,)})

    assert 1_201_000_000 == rate_bit_per_s(4)


def test_many_stations_are_no_rate_of_ones_own(monkeypatch: pytest.MonkeyPatch) -> None:
    point = Message(34, 0, 1, station(number_attribute(5, 12_010)))
    answering(monkeypatch, {(16, 3): FAMILIES, (34, 17): (point, point)})

    assert rate_bit_per_s(4) is None


def test_without_an_access_point_there_is_no_rate(monkeypatch: pytest.MonkeyPatch) -> None:
    answering(monkeypatch, {(16, 3): FAMILIES, (34, 17): ()})

    assert rate_bit_per_s(4) is None


def test_wireless_interfaces_are_listed(monkeypatch: pytest.MonkeyPatch) -> None:
    links = tuple(
        Message(34, 0, 1, HEAD + number_attribute(3, number) + attribute(4, b"wlp2s0\0")) for number in (4, 7)
    )
    answering(monkeypatch, {(16, 3): FAMILIES, (34, 5): links})

    assert frozenset({4, 7}) == radio_links()


def test_a_kernel_without_radio_has_none(monkeypatch: pytest.MonkeyPatch) -> None:
    answering(monkeypatch, {(16, 3): FAMILIES[:2]})

    assert frozenset() == radio_links()
    assert rate_bit_per_s(4) is None


@pytest.mark.parametrize("error", [AnswerError("late"), PrivilegeError("more")])
def test_a_kernel_that_will_not_answer_tells_nothing(monkeypatch: pytest.MonkeyPatch, error: Exception) -> None:
    def fail(*_: object) -> tuple[Message, ...]:
        raise error

    monkeypatch.setattr(netlink, "dump", fail)

    assert frozenset() == radio_links()
    assert rate_bit_per_s(4) is None


def test_this_kernel_is_asked_without_a_privilege(room) -> None:
    room.become(1000)

    assert frozenset() == room.ask(radio_links), "a new namespace has no radio"


def test_rubbish_is_a_rate_or_none(spoilt: Callable[[bytes], Iterable[bytes]]) -> None:
    for bad in spoilt(station(attribute(1, b"\xdb\x21"), number_attribute(5, 8667))):
        rate = parse_rate_bit_per_s(bad)
        assert rate is None or rate > 0
        parse_links([Message(34, 0, 1, bad)])
        parse_family([Message(16, 0, 1, bad)], "nl80211")


def test_the_numbers_are_those_of_the_kernels_headers(header: Callable[[str], Mapping[str, int]]) -> None:
    """linux/nl80211.h, linux/genetlink.h."""
    known = {**header("nl80211.h"), **header("genetlink.h")}
    ours = {
        "NL80211_CMD_GET_INTERFACE": radio._GET_INTERFACE, "NL80211_CMD_GET_STATION": radio._GET_STATION,
        "NL80211_ATTR_IFINDEX": radio._IFINDEX, "NL80211_ATTR_STA_INFO": radio._STATION_INFO,
        "NL80211_STA_INFO_TX_BITRATE": radio._TX_BITRATE, "NL80211_RATE_INFO_BITRATE": radio._BITRATE,
        "NL80211_RATE_INFO_BITRATE32": radio._BITRATE32, "CTRL_CMD_GETFAMILY": radio._GET_FAMILY,
        "CTRL_ATTR_FAMILY_ID": radio._FAMILY_ID, "CTRL_ATTR_FAMILY_NAME": radio._FAMILY_NAME,
    }  # fmt: skip

    assert {name: known[name] for name in ours} == ours
