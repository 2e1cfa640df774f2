"""`smbutil multichannel`. Format: Apple's SMBClient; the captures are written from it and not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from mac_captures import capture

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.multichannel import SmbChannel, parse_multichannel, parse_multichannel_json

VAULT = ip_address("10.44.20.10")
G = 10**9


def test_the_main_connection_may_stand_by_while_others_carry_the_data() -> None:
    """M says which one is main, not which one carries; all in `session active` do."""
    (session,) = parse_multichannel(capture("smbutil-multichannel-13.txt"))

    assert [("en0", True, False), ("en7", False, True), ("en7", False, True)] == [
        (channel.interface, channel.main, channel.active) for channel in session.channels
    ]
    assert [866_700_000, 10 * G, 10 * G] == [channel.rate_bit_per_s for channel in session.channels]


def test_the_form_of_15_with_the_ports_of_both_ends_and_hostile_names_is_read() -> None:
    one, _ = parse_multichannel(capture("smbutil-multichannel-15.txt"))

    assert "/Volumes/Cards (A) on set" == one.mount
    assert SmbChannel("en7", VAULT, 445, 10 * G, "session active", main=True) == one.channels[0]
    assert {"en7": (ip_address("10.44.20.11"),)} == one.ports


def test_this_machines_end_is_the_address_of_the_same_family() -> None:
    (session,) = parse_multichannel(capture("smbutil-multichannel-13.txt"))
    expected = ["10.44.20.61", "10.44.20.11", "2001:db8:44::1111:2222:3333:51"]

    assert list(map(ip_address, expected)) == [session.local(channel) for channel in session.channels]


def test_the_storages_own_ports_are_not_taken_for_this_machines() -> None:
    (session,) = parse_multichannel(capture("smbutil-multichannel-13.txt"))

    assert {"en0", "en7"} == session.ports.keys()


def test_one_plain_connection_has_neither_interface_nor_rate() -> None:
    _, other = parse_multichannel(capture("smbutil-multichannel-15.txt"))

    assert "/Volumes/Public" == other.mount
    assert (SmbChannel(None, VAULT, 1445, None, "session active", main=True),) == other.channels
    assert other.local(other.channels[0]) is None


def test_json_has_its_numbers_as_texts_and_leaves_out_what_is_zero() -> None:
    (session,) = parse_multichannel_json(capture("smbutil-multichannel-15.json"))
    expected = SmbChannel("en7", VAULT, 445, 10 * G, "session active", True, 1_075_000_000, 1_986_000)

    assert expected == session.channels[0]
    assert SmbChannel("en0", VAULT, None, None, "session inactive", main=False) == session.channels[1]
    assert ip_address("10.44.20.11") == session.local(session.channels[0])


def test_two_addresses_of_one_family_leave_this_machines_end_open() -> None:
    text = capture("smbutil-multichannel-15.json").replace('"10.44.20.11"', '"10.44.20.11", "10.44.20.12"')
    (session,) = parse_multichannel_json(text)

    assert session.local(session.channels[0]) is None


@pytest.mark.parametrize("text", ["", "usage: smbutil", "{"])
def test_text_where_json_was_asked_for_cannot_be_read(text: str) -> None:
    with pytest.raises(AnswerError, match="smbutil multichannel answered in a form that cannot be read"):
        parse_multichannel_json(text)


def test_no_mount_is_an_empty_answer() -> None:
    assert () == parse_multichannel("") == parse_multichannel_json("{}")


def test_a_state_that_is_not_told_is_not_active() -> None:
    (session,) = parse_multichannel_json('{"/Volumes/x": {"multi_channel_status": {"1": {}}}}')

    assert not session.channels[0].active
