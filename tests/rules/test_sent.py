"""Packets that leave by another interface than the look-up names: proven by what is missing, never by other traffic."""

from __future__ import annotations

from ipaddress import IPv4Interface

import pytest
from deskwork import situation

from netaudit.model.machine_state import Channel, ClientFacts
from netaudit.model.observation import Observation
from netaudit.model.situation import Use
from netaudit.rules.live.desk import (
    EN6,
    MOVED,
    SEEN,
    UNSEEN,
    VAULT,
    WIRE_HOST,
    with_growth,
    with_interface,
    with_session_count,
)
from netaudit.rules.sent import strayed

PROOF = "the look-up names en5, but of 40 packets due there 3 packets left, and 45 packets by en6"


def idle(by_wire: int, by_back: int, by_air: int = 0) -> Observation:
    """Twenty handshakes, and the packets that the interfaces sent meanwhile."""
    seen = with_growth("en5", UNSEEN._replace(moved=MOVED._replace(sessions={})), sent_packets=by_wire)
    return with_growth("wlan0", with_growth("en6", seen, sent_packets=by_back), sent_packets=by_air)


def test_packets_that_are_missing_here_and_left_there_prove_the_other_interface() -> None:
    assert {"en5": ("en6", PROOF)} == strayed(situation(idle(3, 45)))


@pytest.mark.parametrize(("by_wire", "by_back", "proven"), [(9, 31, True), (10, 900, False), (3, 36, False)])
def test_only_what_is_missing_counts_and_another_must_have_sent_all_of_it(
    by_wire: int, by_back: int, proven: bool
) -> None:
    assert proven == bool(strayed(situation(idle(by_wire, by_back))))


def test_the_bytes_of_a_busy_session_prove_it_too() -> None:
    seen = with_session_count(with_growth("en5", sent_bytes=9_000), sent_bytes=50_000_000)
    (stray,) = strayed(situation(with_growth("en6", seen, sent_bytes=52_000_000))).values()

    assert "the look-up names en5, but of 50 MB due there 9 kB left, and 52 MB by en6" == stray.counted


def test_of_several_the_one_in_the_subnet_of_the_storage_is_meant_else_that_which_sent_less() -> None:
    seen = idle(3, 300, 60)
    near = with_interface(EN6._replace(addresses=(IPv4Interface("10.44.20.13/24"),)), seen)

    assert "wlan0" == strayed(situation(seen))["en5"].interface
    assert "en6" == strayed(situation(near))["en5"].interface
    assert strayed(situation(near))["en5"].counted.endswith("300 packets by en6 and 60 packets by wlan0")


def test_the_counters_are_believed_before_the_look_up() -> None:
    assert (Use("en6", "counters", VAULT, WIRE_HOST, PROOF),) == situation(idle(3, 45)).uses
    assert ["en6"] == [use.interface for use in situation(idle(3, 45)._replace(sessions=SEEN.sessions)).uses]


def test_what_the_client_itself_says_of_its_interface_is_believed_before_the_counters() -> None:
    told = idle(3, 45)._replace(client=ClientFacts((Channel("media", "en5", WIRE_HOST, VAULT),)))
    open_ = told._replace(client=ClientFacts((Channel("media", None, WIRE_HOST, VAULT),)))

    assert [("en5", "client")] == [use[:2] for use in situation(told).uses]
    assert [("en6", "counters")] == [use[:2] for use in situation(open_).uses]


def test_a_desk_at_rest_proves_nothing() -> None:
    assert {} == strayed(situation(SEEN)) == strayed(situation(SEEN._replace(moved=None)))
