"""What must have gone through an interface, beside its counters."""

from __future__ import annotations

import pytest
from deskwork import situation

from netaudit.model.machine_state import Counters, Interface, Route
from netaudit.model.observation import Observation
from netaudit.rules.counted import Counted, counted
from netaudit.rules.live.desk import EN5, FAR, MOVED, SEEN, VAULT, with_far, with_growth, with_interface

IDLE = SEEN._replace(sessions=(), moved=MOVED._replace(sessions={}))


def rows(seen: Observation, direction: str) -> list[tuple[str, int, int | None, str]]:
    return [each[:4] for each in counted(situation(seen), direction)]  # type: ignore[arg-type]


def test_a_handshake_brings_one_packet_in_and_sends_two_out() -> None:
    """SYN out, SYN-ACK in, ACK out: RFC 9293, section 3.5."""
    assert [("en5", 20, 21_000, "packets")] == rows(IDLE, "in")
    assert [("en5", 40, 9_000, "packets")] == rows(IDLE, "out")


def test_the_bytes_of_a_busy_session_come_before_handshakes_on_its_wire() -> None:
    assert [("en5", 180_000_000, 182_000_000, "bytes")] == rows(SEEN, "in")
    assert [("en5", 900_000, 2_000_000, "bytes")] == rows(SEEN, "out")


def test_handshakes_on_what_stands_on_the_wire_of_a_busy_session_are_not_judged_beside_it() -> None:
    above = with_interface(Interface("en5.20", medium="vlan", parent="en5"))

    assert ["bytes"] == [row[3] for row in rows(with_far(above, route=Route("en5.20")), "in")]


@pytest.mark.parametrize(("accepted", "judged"), [(10, 1), (9, 0)])
def test_ten_handshakes_are_needed_either_way(accepted: int, judged: int) -> None:
    seen = IDLE._replace(moved=MOVED._replace(sessions={}, handshakes={VAULT: accepted}))

    assert [judged, judged] == [len(rows(seen, direction)) for direction in ("in", "out")]


def test_what_a_driver_never_counts_is_not_known() -> None:
    silent = EN5._replace(counters=Counters(sent_bytes=0, received_bytes=1_000_000))

    assert [("en5", 40, None, "packets")] == rows(with_interface(silent, IDLE), "out")
    assert [("en5", 20, 21_000, "packets")] == rows(with_interface(silent, IDLE), "in")


def test_an_interface_that_nothing_was_counted_of_is_not_known() -> None:
    assert [("en5", 20, None, "packets")] == rows(with_growth("en5", IDLE, received_packets=None), "in")


def test_takers_are_those_who_moved_all_that_is_missing() -> None:
    row = Counted("en5", 40, 10, "packets", {"en6": 30, "wlan0": 29}, 40)

    assert ("en6",) == row.takers
    assert () == row._replace(came=40).takers == row._replace(came=None).takers


def test_amounts_bear_their_unit() -> None:
    row = Counted("en5", 40, 10, "packets", {}, 40)

    assert ["1 packet", "2 packets"] == [row.amount(1), row.amount(2)]
    assert "40 kB" == row._replace(unit="bytes").amount(40_000)


def test_without_an_interval_or_a_route_nothing_is_due() -> None:
    assert [] == rows(SEEN._replace(moved=None), "in")
    assert [] == rows(IDLE._replace(addresses=(FAR._replace(route=None),)), "in")
    assert [] == rows(with_far(IDLE, route=Route("lo", local=True)), "in")
