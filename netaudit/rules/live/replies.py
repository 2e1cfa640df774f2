"""The live rule on replies: do they come back by the port that asked."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.citation import OBSERVED
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.situation import Situation
from netaudit.rules.counted import Counted, counted
from netaudit.rules.live.gaps import gap
from netaudit.rules.live.sources import observed
from netaudit.rules.rule import Rule
from netaudit.rules.situation import interface_place
from netaudit.units import size_text


def _replies(situation: Situation) -> Iterator[Counted]:
    """What must have come back on each interface, and what did."""
    return counted(situation, "in")


def _judge_replies(replies: Counted, situation: Situation) -> Judgement:
    name, came = replies.interface, replies.came
    if came is None:
        told = gap(
            REPLIES_ON_OTHER_PORT.name,
            situation,
            f"The driver of {name} does not count what it receives",
            "watch the counters of the other ports during a copy, or unplug them for a moment",
        )
        return REPLIES_ON_OTHER_PORT.not_checked(interface_place(name), reason=told.reason, decides=told.decides)
    takers = replies.takers
    if not takers:
        return None
    return REPLIES_ON_OTHER_PORT.finding(
        interface_place(name),
        *map(interface_place, takers),
        message=f"what {situation.storage_name} sends back does not come in by {situation.named(name)}: "
        f"{_due(replies)}, {replies.amount(came)} came in there, and "
        f"{listed([f'{replies.amount(replies.elsewhere[other])} by {other}' for other in takers])}",
        remedy=_one_way(name, takers[0], situation),
        source=OBSERVED,
    )


def _due(replies: Counted) -> str:
    """What is known to have come back, in words."""
    if replies.unit == "bytes":
        return f"its sessions received {size_text(replies.due)}"
    return f"{replies.due} handshakes were answered"


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
