"""The live rule on replies: do they come back by the port that asked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from netaudit.citation import OBSERVED
from netaudit.model.finding import Judgement
from netaudit.rules.live.gaps import gap
from netaudit.rules.live.roads import is_planned, kin, named, storage_name
from netaudit.rules.live.sources import observed
from netaudit.rules.rule import Rule
from netaudit.rules.situation import Situation, interface_place
from netaudit.rules.words import listed
from netaudit.units import size_text

LEAST_BYTES = 100_000
"""Bytes of a session below which counters prove nothing [byte]: common practice, no source."""
LEAST_HANDSHAKES = 10
"""Answered handshakes below which packet counters prove nothing: common practice, no source."""
HEADERS_ASIDE = 0.9
"""Share of a session's bytes that its interface must have received at least: headers only add to it."""


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
    if situation.seen.moved is None:
        return
    by_sessions = list(_by_sessions(situation))
    yield from by_sessions or _by_handshakes(situation)


def _by_sessions(situation: Situation) -> Iterator[Replies]:
    moved = situation.seen.moved
    due: dict[str, int] = {}
    for session in situation.seen.sessions if moved is not None else ():
        count = None if moved is None else moved.sessions.get((str(session.local), str(session.remote)))
        if count is not None and session.interface is not None and count.received_bytes:
            due[session.interface] = due.get(session.interface, 0) + count.received_bytes
    for name, received in due.items():
        if received >= LEAST_BYTES:
            yield _replies_at(name, received, "bytes", situation)


def _by_handshakes(situation: Situation) -> Iterator[Replies]:
    """Handshakes, where all go out by one interface."""
    moved = situation.seen.moved
    routes = [far.route for far in situation.seen.addresses if far.route is not None]
    names = {route.interface for route in routes}
    here = any(route.local for route in routes)
    if moved is not None and moved.handshakes >= LEAST_HANDSHAKES and len(names) == 1 and not here:
        yield _replies_at(names.pop(), moved.handshakes, "packets", situation)


def _replies_at(name: str, due: int, unit: str, situation: Situation) -> Replies:
    moved = situation.seen.moved
    growths = {} if moved is None else moved.interfaces
    field = "received_bytes" if unit == "bytes" else "received_packets"
    received = {each: getattr(growth.counters, field) for each, growth in growths.items()}
    same = kin(name, situation)
    elsewhere = {each: count for each, count in received.items() if each not in same and count is not None}
    least = due * HEADERS_ASIDE if unit == "bytes" else due
    return Replies(name, due, None if _never_counts(name, situation) else received.get(name), unit, elsewhere, least)


def _never_counts(name: str, situation: Situation) -> bool:
    """Whether a driver has never counted anything that it received, though it counts what it sends."""
    state = situation.seen.interfaces.get(name)
    return state is not None and state.counters.received_bytes == 0 and bool(state.counters.sent_bytes)


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
        message=f"what {storage_name(situation)} sends back does not come in by {named(name, situation)}: "
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
    stays, goes = (taker, name) if is_planned(taker, situation) else (name, taker)
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
