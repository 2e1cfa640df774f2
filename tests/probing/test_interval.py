"""What moved within an interval."""

from __future__ import annotations

from machines import growth, session

from netaudit.model.machine_state import Counters, SessionCount
from netaudit.model.observation import Growth
from netaudit.probing.interval import grown, sessions_grown


def test_an_interface_grew_by_what_it_counted_meanwhile() -> None:
    before = {"en5": growth(100, 1000, 2, rx_crc_errors=3, rx_dropped=7)}
    after = {"en5": growth(150, 9000, 4, rx_crc_errors=5, rx_dropped=7)}

    assert {"en5": growth(50, 8000, 2, rx_crc_errors=2, rx_dropped=0)} == grown(before, after)


def test_a_counter_that_was_set_back_or_is_not_told_is_unknown() -> None:
    before = {"en5": growth(100, None, 2, rx_errors=7, rx_dropped=1)}
    after = {"en5": growth(50, 9000, None, rx_errors=6, rx_crc_errors=4)}

    assert {"en5": Growth(Counters(None, None, None, None, {}), None)} == grown(before, after)


def test_an_interface_that_came_or_went_has_no_growth() -> None:
    assert {} == grown({"en5": growth(1, 1)}, {"en6": growth(1, 1)})


def test_a_session_that_lived_through_it_is_told_with_what_it_did() -> None:
    before = [session(sent_bytes=10, received_bytes=100, retransmitted=1)]
    after = [session(sent_bytes=15, received_bytes=400, retransmitted=1), session(port=2049, sent_bytes=5)]
    expected = {("10.44.20.11:50001", "10.44.20.10:445"): SessionCount(5, 300, None, 0, None)}

    assert expected == sessions_grown(before, after)
