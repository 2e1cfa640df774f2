"""The live rule on replies: do they come back by the port that asked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from netaudit.citation import OBSERVED
from netaudit.model.finding import Judgement
from netaudit.model.observation import Moved
from netaudit.model.situation import Situation
from netaudit.rules.live.gaps import gap
from netaudit.rules.live.roads import kin
from netaudit.rules.live.sources import LEAST_HANDSHAKES, observed
from netaudit.rules.rule import Rule
from netaudit.rules.situation import interface_place
from netaudit.rules.words import listed
from netaudit.units import size_text

LEAST_BYTES = 100_000
"""Bytes of a session below which counters prove nothing [byte]: common practice, no source."""
HEADERS_ASIDE = 0.9
"""Share of a session's bytes that its interface must have received at least: headers only add to it."""
SENT_UNHEARD_BYTES = 1_000_000
"""Bytes sent without one received from which a driver is taken not to count those [byte]: common practice, no source.

A wire that was just plugged in has sent a few questions, and heard nothing yet.
"""


class Replies(NamedTuple):
    """What must have come back on one interface, and what did."""

    interface: str
    due: int
    came: int | None
    unit: str
    elsewhere: Mapping[str, int]
    """What the other interfaces received meanwhile."""
    least: float
    """What the interface must have received at least."""


def _replies(situation: Situation) -> Iterator[Replies]:
    """Sessions that received enough, or else handshakes that were answered often enough, to miss the replies."""
    moved = situation.seen.moved
    if moved is not None:
        by_sessions = list(_by_sessions(moved, situation))
        yield from by_sessions or _by_handshakes(moved, situation)


def _by_sessions(moved: Moved, situation: Situation) -> Iterator[Replies]:
    due: dict[str, int] = {}
    for session in situation.seen.sessions:
        count = moved.of_session(session)
        if count is not None and session.interface is not None and count.received_bytes:
            due[session.interface] = due.get(session.interface, 0) + count.received_bytes
    received = {name: growth.counters.received_bytes for name, growth in moved.interfaces.items()}
    for name, total in due.items():
        if total >= LEAST_BYTES:
            came, elsewhere = _parted(name, received, situation)
            yield Replies(name, total, came, "bytes", elsewhere, total * HEADERS_ASIDE)


def _by_handshakes(moved: Moved, situation: Situation) -> Iterator[Replies]:
    """Handshakes, where all go out by one interface."""
    routes = [far.route for far in situation.seen.addresses if far.route is not None]
    names = {route.interface for route in routes}
    here = any(route.local for route in routes)
    if moved.handshakes >= LEAST_HANDSHAKES and len(names) == 1 and not here:
        name, received = (
            names.pop(),
            {each: growth.counters.received_packets for each, growth in moved.interfaces.items()},
        )
        came, elsewhere = _parted(name, received, situation)
        yield Replies(name, moved.handshakes, came, "packets", elsewhere, moved.handshakes)


def _parted(
    name: str, received: Mapping[str, int | None], situation: Situation
) -> tuple[int | None, Mapping[str, int]]:
    """What came in by an interface, None where it does not count that, and what by those that share no wire with it."""
    same = kin(name, situation)
    elsewhere = {each: count for each, count in received.items() if each not in same and count is not None}
    return None if _never_counts(name, situation) else received.get(name), elsewhere


def _never_counts(name: str, situation: Situation) -> bool:
    """Whether a driver has never counted anything that it received, though it counts much that it sent."""
    state = situation.seen.interfaces.get(name)
    return (
        state is not None
        and state.counters.received_bytes == 0
        and (state.counters.sent_bytes or 0) >= SENT_UNHEARD_BYTES
    )


def _judge_replies(replies: Replies, situation: Situation) -> Judgement:
    name, came = replies.interface, replies.came
    if came is None:
        told = gap(
            REPLIES_ON_OTHER_PORT.name,
            situation,
            f"The driver of {name} does not count what it receives",
            "watch the counters of the other ports during a copy, or unplug them for a moment",
        )
        return REPLIES_ON_OTHER_PORT.not_checked(interface_place(name), reason=told.reason, decides=told.decides)
    missing = replies.due - came
    takers = [other for other, count in replies.elsewhere.items() if count >= missing]
    if came >= replies.least or not takers:
        return None
    return REPLIES_ON_OTHER_PORT.finding(
        interface_place(name),
        *map(interface_place, takers),
        message=f"what {situation.storage_name} sends back does not come in by {situation.named(name)}: "
        f"{_due(replies)}, {_amount(came, replies.unit)} came in there, and "
        f"{listed([f'{_amount(replies.elsewhere[other], replies.unit)} by {other}' for other in takers])}",
        remedy=_one_way(name, takers[0], situation),
        source=OBSERVED,
    )


def _due(replies: Replies) -> str:
    """What is known to have come back, in words."""
    if replies.unit == "bytes":
        return f"its sessions received {size_text(replies.due)}"
    return f"{replies.due} handshakes were answered"


def _amount(count: int, unit: str) -> str:
    if unit == "bytes":
        return size_text(count)
    return "1 packet" if count == 1 else f"{count} packets"


def _one_way(name: str, taker: str, situation: Situation) -> str:
    stays, goes = (taker, name) if situation.is_planned(taker) else (name, taker)
    first = (
        f"Take {goes} out of the subnet that it shares with {stays}: the storage believes that this machine's address "
        f"is at {taker}."
        if _share_subnet(name, taker, situation)
        else f"The storage holds the hardware address of {taker} for this machine."
    )
    return (
        f"{first} Eject the share and mount it again; if it still answers there, restart the storage's network or "
        f"wait for its table of neighbours to forget, which takes some minutes."
    )


def _share_subnet(one: str, other: str, situation: Situation) -> bool:
    states = [situation.seen.interfaces.get(name) for name in (one, other)]
    near, far = (
        {each.network for each in state.addresses if not each.is_link_local} if state is not None else set()
        for state in states
    )
    return bool(near & far)


REPLIES_ON_OTHER_PORT = Rule(
    name="replies-on-other-port",
    family="live",
    severity="fail",
    subjects=_replies,
    judge=_judge_replies,
    what="Replies of the storage that are missing on the port that asks, and come in by another one.",
    why="What is read then crawls in over Wi-Fi or the slow port, while every look-up shows the fast one.",
    todo="Let only one port of this machine be in the storage's subnet, and mount again.",
    sources=observed,
)
