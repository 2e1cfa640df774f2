"""Loss: what is sent and has to be sent again; of what is read nobody here can tell."""

from __future__ import annotations

import pytest
from deskwork import found, gaps, only, passes, places, silent

from netaudit.model.finding import Measure
from netaudit.model.machine_state import Route
from netaudit.model.observation import Knock, Observation
from netaudit.rules.live.desk import (
    COLD,
    ENDS,
    MOVED,
    PLAYING,
    SEEN,
    VAULT,
    with_far,
    with_session_count,
)
from netaudit.rules.live.loss import RETRANSMITS_HIGH
from netaudit.rules.live.sources import PRACTICE

MUTE = with_far(knocks={})


def sent(segments: int | None, again: int | None, received: int | None = 0) -> Observation:
    return with_session_count(MUTE, sent_segments=segments, retransmitted=again, received_bytes=received)


def shaken(answered: int, lost: int, **fields: object) -> Observation:
    knocks = {445: Knock("open", (0.0002,) * answered, lost)}
    return with_far(SEEN._replace(moved=None, **fields), knocks=knocks)


def test_a_hundredth_sent_again_warns_with_the_share() -> None:
    finding = only(RETRANSMITS_HIGH, sent(12_000, 310))

    assert ["session 10.44.20.11:51820 > 10.44.20.10:445"] == places(finding)
    assert (
        "310 of 12000 segments sent to 10.44.20.10 had to be sent again, 2.6 %: packets get lost on the way"
        == finding.message
    )
    assert (Measure(2.58, "%"), Measure(1.0, "%")) == (finding.measured, finding.limit)
    assert PRACTICE == finding.source
    assert finding.remedy.startswith("Look at both ends for damaged frames first (at en5 and at core/1), and replace")


@pytest.mark.parametrize(
    ("segments", "again", "strikes"),
    [(1000, 10, True), (1001, 10, False), (1000, 9, False), (100, 10, True), (100_000, 999, False)],
)
def test_both_bounds_must_be_reached(segments: int, again: int, strikes: bool) -> None:
    assert strikes == bool(found(RETRANSMITS_HIGH, sent(segments, again)))
    assert strikes != passes(RETRANSMITS_HIGH, sent(segments, again)) or not strikes


@pytest.mark.parametrize(("segments", "judged"), [(1000, True), (999, False)])
def test_a_session_that_sends_little_shows_no_loss(segments: int, judged: bool) -> None:
    assert judged == passes(RETRANSMITS_HIGH, sent(segments, 0))
    assert judged != silent(RETRANSMITS_HIGH, sent(segments, 0))


def test_a_session_that_only_reads_is_not_checked() -> None:
    (gap,) = gaps(RETRANSMITS_HIGH, sent(200, 0, 1_000_000))

    assert gap.reason.startswith("The session only reads, and what is lost on the way in is sent again by the storage")
    assert silent(RETRANSMITS_HIGH, sent(200, 0, 999_999))


@pytest.mark.parametrize(("segments", "again"), [(5000, None), (None, 40)])
def test_what_the_system_does_not_count_is_not_checked(segments: int | None, again: int | None) -> None:
    (gap,) = gaps(RETRANSMITS_HIGH, sent(segments, again))

    assert "This system does not tell how much of what it sends it sends again" == gap.reason


def test_what_is_counted_while_a_file_is_written_counts_too() -> None:
    timing = COLD._replace(direction="write", sessions={ENDS: PLAYING._replace(sent_segments=9000, retransmitted=400)})

    assert found(RETRANSMITS_HIGH, MUTE._replace(moved=None, timings=(timing,)))


def test_sessions_that_did_not_live_through_it_are_left_alone() -> None:
    counts = {("10.9.9.9:1", ENDS[1]): PLAYING._replace(retransmitted=900)}

    assert silent(RETRANSMITS_HIGH, MUTE._replace(moved=MOVED._replace(sessions=counts)))


def test_lost_handshakes_warn_with_their_number() -> None:
    finding = only(RETRANSMITS_HIGH, shaken(18, 2))

    assert ["address 10.44.20.10"] == places(finding)
    assert (
        "of the handshakes with 10.44.20.10 port 445, 18 were answered and 2 got lost or had to be asked for again: "
        "packets get lost on the way" == finding.message
    )
    assert (Measure(2, "handshakes"), Measure(1, "handshakes")) == (finding.measured, finding.limit)


@pytest.mark.parametrize(
    ("answered", "lost", "said"), [(9, 1, "passes"), (8, 2, "strikes"), (7, 2, "silent"), (0, 20, "silent")]
)
def test_one_lost_handshake_or_a_short_row_proves_nothing(answered: int, lost: int, said: str) -> None:
    seen = shaken(answered, lost)
    told = "strikes" if found(RETRANSMITS_HIGH, seen) else "silent" if silent(RETRANSMITS_HIGH, seen) else "passes"

    assert said == told


def test_lost_handshakes_of_all_ports_of_an_address_are_added_up() -> None:
    knocks = {
        445: Knock("open", (0.0002,) * 8, 1),
        2049: Knock("refused", (1.02,), 1),
        548: Knock("silent", (), 0),
    }
    finding = only(RETRANSMITS_HIGH, with_far(SEEN._replace(moved=None), knocks=knocks))

    assert "handshakes with 10.44.20.10 ports 445 and 2049, 9 were answered and 2 got lost" in finding.message


def test_handshakes_with_this_machine_itself_are_left_alone() -> None:
    assert silent(RETRANSMITS_HIGH, with_far(shaken(18, 9, sessions=()), route=Route("lo", local=True)))


def test_without_an_interface_both_ends_are_looked_at() -> None:
    seen = shaken(18, 2)._replace(interfaces={})

    assert "first (at both ends)" in only(RETRANSMITS_HIGH, seen).remedy
    assert VAULT == seen.addresses[0].address


def test_the_desk_passes() -> None:
    assert passes(RETRANSMITS_HIGH, SEEN)
