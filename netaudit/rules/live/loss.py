"""Live rules about loss: does what is sent to the storage arrive."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.machine_state import Session, SessionCount
from netaudit.model.observation import FarAddress
from netaudit.model.situation import Situation
from netaudit.model.vocabulary import Address
from netaudit.rules.counted import LEAST_HANDSHAKES
from netaudit.rules.live.remedies import far_end_of
from netaudit.rules.live.roads import used_states
from netaudit.rules.live.session import session_place
from netaudit.rules.live.sources import PRACTICE, practice
from netaudit.rules.rule import Rule
from netaudit.rules.situation import address_place
from netaudit.units import share_text

LOST_SHARE = 0.01
"""Share of segments sent again from which loss is felt: common practice, no source."""
LOST_AT_LEAST = 10
"""Segments sent again below which loss is chance: common practice, no source."""
HANDSHAKES_LOST = 2
"""Handshakes with one address whose loss is not chance any more: common practice, no source."""
READ_BYTES = 1_000_000
"""Bytes received in the interval from which a session counts as reading [byte]: common practice, no source."""


class Sent(NamedTuple):
    """A living session with what it did within the interval."""

    session: Session
    counted: SessionCount


class Shaken(NamedTuple):
    """The handshakes with all services of one address that answer."""

    address: Address
    ports: tuple[int, ...]
    answered: int
    lost: int


def _sendings(situation: Situation) -> Iterator[Sent | Shaken]:
    """Sessions that sent or read enough for losses to tell, and addresses with enough handshakes."""
    for session, count in session_counts(situation):
        if _sends(count) or (count.received_bytes or 0) >= READ_BYTES:
            yield Sent(session, count)
    for far in situation.used_addresses:
        shaken = _shaken(far)
        if shaken.answered and shaken.answered + shaken.lost >= LEAST_HANDSHAKES and not far.is_here:
            yield shaken


def _shaken(far: FarAddress) -> Shaken:
    """The handshakes of all ports put together: what loses one of them does not ask for its port."""
    knocks = {port: knock for port, knock in far.knocks.items() if knock.round_trips_s}
    answered = sum(len(knock.round_trips_s) for knock in knocks.values())
    return Shaken(far.address, tuple(knocks), answered, sum(knock.lost for knock in knocks.values()))


def session_counts(situation: Situation) -> Iterator[tuple[Session, SessionCount]]:
    """The living sessions with what each did within the interval, and while a file was read or written."""
    moved = situation.seen.moved
    spans = [*(() if moved is None else (moved.sessions,)), *(timing.sessions for timing in situation.seen.timings)]
    for session in situation.seen.sessions:
        for counts in spans:
            count = counts.get((str(session.local), str(session.remote)))
            if count is not None:
                yield session, count


def _sends(count: SessionCount) -> bool:
    """Whether a session sent so much that its losses would show."""
    return (count.sent_segments or 0) >= LOST_AT_LEAST / LOST_SHARE or (count.retransmitted or 0) >= LOST_AT_LEAST


def _judge_loss(sending: Sent | Shaken, situation: Situation) -> Judgement:
    if isinstance(sending, Shaken):
        return _judge_handshakes(sending, situation)
    session, count = sending
    if not _sends(count):
        return RETRANSMITS_HIGH.not_checked(
            session_place(session),
            reason="The session only reads, and what is lost on the way in is sent again by the storage, which does "
            "not tell",
            decides="look at the drops of the switch port towards this seat, or write a file with --write",
        )
    if count.retransmitted is None or count.sent_segments is None:
        return RETRANSMITS_HIGH.not_checked(
            session_place(session),
            reason="This system does not tell how much of what it sends it sends again",
            decides="look at the drops of the switch port towards the storage",
        )
    share = count.retransmitted / max(count.sent_segments, 1)
    if count.retransmitted < LOST_AT_LEAST or share < LOST_SHARE:
        return None
    return RETRANSMITS_HIGH.finding(
        session_place(session),
        message=f"{count.retransmitted} of {count.sent_segments} segments sent to {session.remote.address} had to be "
        f"sent again, {share_text(share)}: packets get lost on the way",
        remedy=_where_lost(situation),
        source=PRACTICE,
        measured=Measure(round(share * 100, 2), "%"),
        limit=Measure(LOST_SHARE * 100, "%"),
    )


def _judge_handshakes(shaken: Shaken, situation: Situation) -> Judgement:
    lost, answered = shaken.lost, shaken.answered
    if lost < HANDSHAKES_LOST:
        return None
    ports = f"{'port' if len(shaken.ports) == 1 else 'ports'} {listed(shaken.ports)}"
    return RETRANSMITS_HIGH.finding(
        address_place(shaken.address),
        message=f"of the handshakes with {shaken.address} {ports}, {answered} were answered and {lost} got "
        "lost or had to be asked for again: packets get lost on the way",
        remedy=_where_lost(situation),
        source=PRACTICE,
        measured=Measure(lost, "handshakes"),
        limit=Measure(HANDSHAKES_LOST - 1, "handshakes"),
    )


def _where_lost(situation: Situation) -> str:
    states = used_states(situation)
    ends = f"at {states[0].name} and at {far_end_of(situation, states[0].name)}" if states else "at both ends"
    return (
        f"Look at both ends for damaged frames first ({ends}), and replace the cable part by part. Where the ends run "
        "at different rates the switch in between drops what its buffer cannot hold: compare their rates, and flow "
        "control."
    )


RETRANSMITS_HIGH = Rule(
    name="retransmits-high",
    family="live",
    severity="warn",
    subjects=_sendings,
    judge=_judge_loss,
    what="At least 1 % of what this machine sends to the storage, or several handshakes, sent again because it got "
    "lost.",
    why="TCP takes loss for a full road and slows down: a little of it turns 1 GB/s into a few MB/s.",
    todo="Look for damaged frames at both ends, then for a step from a fast port to a slow one.",
    sources=practice,
)
