"""Room on the link: full with the storage's own traffic is well used, full with somebody else's is not."""

from __future__ import annotations

import pytest
from deskwork import found, gaps, only, passes, places, planned, planned_port, silent

from netaudit.model.finding import Measure
from netaudit.model.machine_state import SessionCount
from netaudit.model.observation import Observation
from netaudit.rules.live.desk import (
    COLD,
    EN6,
    GBIT,
    MOVED,
    SEEN,
    SESSION,
    with_growth,
    with_interface,
    with_session_count,
    with_wire,
)
from netaudit.rules.live.room import LINK_FULL
from netaudit.rules.live.sources import PRACTICE

FULL = 2_125_000_000
"""85 % of 10 Gb/s for two seconds [byte]."""
UNTIMED = SEEN._replace(timings=())


def moving(received: int | None, own: int | None, seen: Observation = UNTIMED) -> Observation:
    return with_session_count(with_growth("en5", seen, received_bytes=received), received_bytes=own)


def test_a_full_link_that_is_not_the_storages_doing_warns() -> None:
    finding = only(LINK_FULL, moving(2_400_000_000, 180_000_000))

    assert ["interface en5"] == places(finding)
    assert (
        "en5 (cut-1/wire) receives 9.6 Gb/s (1200 MB/s) of its 10 Gb/s (1250 MB/s), and only 7 % of that belongs to "
        "file sharing with the storage" == finding.message
    )
    assert (Measure(9.6e9, "bit/s"), Measure(8.5e9, "bit/s")) == (finding.measured, finding.limit)
    assert PRACTICE == finding.source
    assert "look which program receives most" in finding.remedy


@pytest.mark.parametrize(("received", "strikes"), [(FULL, True), (FULL - 1, False)])
def test_full_is_85_hundredths(received: int, strikes: bool) -> None:
    assert strikes == bool(found(LINK_FULL, moving(received, 0)))


@pytest.mark.parametrize(("own", "strikes"), [(1_800_000_000, True), (1_800_000_001, False), (2_000_000_000, False)])
def test_a_tenth_of_somebody_elses_is_too_much(own: int, strikes: bool) -> None:
    seen = with_wire(moving(2_000_000_000, own), rate_bit_per_s=8 * GBIT)

    assert strikes == bool(found(LINK_FULL, seen))


def test_more_of_its_own_than_moved_is_all_of_it() -> None:
    assert passes(LINK_FULL, moving(FULL, FULL * 2))


def test_sending_is_judged_apart() -> None:
    seen = with_growth("en5", with_session_count(UNTIMED, sent_bytes=0), sent_bytes=FULL)

    assert "en5 (cut-1/wire) sends 8.5 Gb/s" in only(LINK_FULL, seen).message


def test_without_any_session_all_is_somebody_elses() -> None:
    seen = moving(FULL, 0)._replace(sessions=())

    assert "and nothing of that" in only(LINK_FULL, seen).message


@pytest.mark.parametrize("sessions", [{}, {("a", "b"): SessionCount()}])
def test_a_session_that_is_not_counted_leaves_it_open(sessions: dict[tuple[str, str], SessionCount]) -> None:
    seen = with_growth("en5", UNTIMED._replace(moved=MOVED._replace(sessions=sessions)), received_bytes=FULL)
    (gap,) = gaps(LINK_FULL, seen)

    assert "en5 is full, and how much of that is the storage's own traffic is not counted" == gap.reason
    assert gaps(LINK_FULL, moving(FULL, None))


def test_an_uncounted_session_of_another_interface_does_not_matter() -> None:
    other = SESSION._replace(local=SESSION.local._replace(port=9), interface="wlan0")

    assert found(LINK_FULL, moving(FULL, 0)._replace(sessions=(SESSION, other)))
    nowhere = other._replace(interface=None)
    assert gaps(LINK_FULL, moving(FULL, 0)._replace(sessions=(SESSION, nowhere)))


def test_a_made_up_rate_is_replaced_by_the_promise_of_the_plan() -> None:
    made_up = with_wire(moving(FULL // 10, 0), made_up_rate=True)

    assert found(LINK_FULL, made_up, planned(promised_bit_per_s=GBIT))
    assert passes(LINK_FULL, made_up)
    assert silent(LINK_FULL, made_up, None)


def test_without_a_promise_the_agreed_rate_of_the_plan_counts() -> None:
    made_up = with_wire(moving(FULL // 10, 0), made_up_rate=True)
    agreed = planned_port("wire", agreed_bit_per_s=GBIT)
    assert agreed.road is not None

    assert found(LINK_FULL, made_up, agreed._replace(road=agreed.road._replace(promised_bit_per_s=None)))
    assert passes(LINK_FULL, made_up, agreed)


def test_another_port_in_use_has_no_share_in_the_promise_of_the_road() -> None:
    """2.1 GB in two seconds are 8.5 Gb/s: much for the promised 10 Gb/s, little for the 25 Gb/s of this port."""
    back = with_interface(
        EN6._replace(made_up_rate=True), UNTIMED._replace(sessions=(SESSION._replace(interface="en6"),))
    )
    seen = with_growth("en6", back, received_bytes=FULL, sent_bytes=2_000_000)

    assert passes(LINK_FULL, seen, planned_port("back", agreed_bit_per_s=25 * GBIT))
    assert not passes(LINK_FULL, seen, planned_port("back", agreed_bit_per_s=GBIT))


def test_what_nobody_counts_is_not_judged() -> None:
    assert silent(LINK_FULL, with_growth("en5", moving(None, 0), received_bytes=None, sent_bytes=None))
    assert silent(LINK_FULL, with_wire(moving(FULL, 0), rate_bit_per_s=None))
    assert silent(LINK_FULL, UNTIMED._replace(moved=None))
    assert silent(LINK_FULL, UNTIMED._replace(moved=MOVED._replace(seconds=0.0)))
    assert silent(LINK_FULL, UNTIMED._replace(moved=MOVED._replace(interfaces={})))


def timed(seconds: float, received: int | None, **fields: object) -> Observation:
    return UNTIMED._replace(moved=None, timings=(COLD._replace(seconds=seconds, received_bytes=received, **fields),))


def test_a_file_that_falls_short_beside_much_other_traffic_warns() -> None:
    """256 MB in 0.4 s are 5.1 Gb/s; the interface received 440 MB meanwhile, 8.8 Gb/s."""
    finding = only(LINK_FULL, timed(0.4, 440_000_000))

    assert "receives 8.8 Gb/s (1100 MB/s) of its 10 Gb/s (1250 MB/s), and only 58 % of that" in finding.message
    assert finding.message.endswith(" belongs to the file that was read meanwhile")


@pytest.mark.parametrize(
    ("seconds", "received", "said"),
    [(0.4, 260_000_000, "passes"), (0.22, 280_000_000, "silent"), (0.4, None, "silent"), (0.0, 440_000_000, "silent")],
)
def test_a_file_that_is_fast_or_alone_raises_nothing(seconds: float, received: int | None, said: str) -> None:
    seen = timed(seconds, received)

    assert said == ("silent" if silent(LINK_FULL, seen) else "passes" if passes(LINK_FULL, seen) else "strikes")


@pytest.mark.parametrize(("bytes_", "judged"), [(346_000_000, True), (347_000_000, False)])
def test_short_is_under_seven_tenths_of_the_network(bytes_: int, judged: bool) -> None:
    """7/10 of 9.9 Gb/s over 0.4 s are 346.5 MB."""
    assert judged != silent(LINK_FULL, timed(0.4, 900_000_000, bytes=bytes_))


def test_a_file_that_is_written_is_held_against_what_was_sent() -> None:
    seen = timed(0.4, 0, direction="write", sent_bytes=440_000_000)

    assert "en5 (cut-1/wire) sends" in only(LINK_FULL, seen).message
    assert only(LINK_FULL, seen).message.endswith(" belongs to the file that was written meanwhile")


def test_a_file_over_an_interface_that_is_not_in_use_is_not_judged() -> None:
    assert silent(LINK_FULL, timed(0.4, 440_000_000, interface="en6"))
    assert silent(LINK_FULL, timed(0.4, 440_000_000, interface=None))


def test_the_desk_passes() -> None:
    assert passes(LINK_FULL, SEEN)
