"""The live rule on room: is the link so full with other things that the storage's traffic has to wait."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from netaudit.model.finding import Judgement, Measure
from netaudit.model.machine_state import Counters, Direction, Interface
from netaudit.model.observation import Moved
from netaudit.model.situation import Situation
from netaudit.rules.live.chain import chain_of
from netaudit.rules.live.roads import used_states
from netaudit.rules.live.sources import PRACTICE, practice
from netaudit.rules.rule import Rule
from netaudit.rules.situation import interface_place
from netaudit.units import both_rates_text, share_text

FULL_SHARE = 0.85
"""Share of a link's rate from which it counts as full: common practice, no source."""
FOREIGN_SHARE = 0.1
"""Share of the traffic that must be somebody else's before a full link is their doing: common practice, no source."""
SHORT_SHARE = 0.7
"""Share of what the chain should carry under which a transfer counts as short: common practice, no source."""

_DOES = {"out": "sends", "in": "receives"}


class Load(NamedTuple):
    """What went one way through an interface in use, and how much of it was the storage's own."""

    state: Interface
    direction: Direction
    rate_bit_per_s: float
    own_share: float | None
    """Share of it that is the storage's own traffic [0 to 1]; None where that is not counted."""
    link_bit_per_s: int
    own: str
    """The storage's own traffic, in words."""


def _loads(situation: Situation) -> Iterator[Load]:
    yield from _interval_loads(situation)
    yield from _transfer_loads(situation)


def _interval_loads(situation: Situation) -> Iterator[Load]:
    moved = situation.seen.moved
    if moved is None or moved.seconds <= 0:
        return
    for state in used_states(situation):
        growth, link = moved.interfaces.get(state.name), _link_rate(state, situation)
        if growth is not None and link is not None:
            yield from _both_ways(state, growth.counters, link, moved, situation)


def _both_ways(
    state: Interface, counters: Counters, link_bit_per_s: int, moved: Moved, situation: Situation
) -> Iterator[Load]:
    directions: tuple[Direction, Direction] = ("out", "in")
    for direction in directions:
        total = counters.towards(direction)
        if total:
            own = _own_bytes(state, direction, moved, situation)
            share = None if own is None else own / total
            what = "file sharing with the storage"
            yield Load(state, direction, total * 8 / moved.seconds, share, link_bit_per_s, what)


def _own_bytes(state: Interface, direction: Direction, moved: Moved, situation: Situation) -> int | None:
    """What sessions with the storage moved through an interface; None where one of them does not count."""
    sessions = [each for each in situation.seen.sessions if each.interface in (None, state.name)]
    counts = [None if count is None else count.towards(direction) for count in map(moved.of_session, sessions)]
    known = [count for count in counts if count is not None]
    return sum(known) if len(known) == len(counts) else None


def _link_rate(state: Interface, situation: Situation) -> int | None:
    """The rate of a link: as agreed, or where its driver makes that up as the plan promises it [bit/s]."""
    if not state.made_up_rate:
        return state.rate_bit_per_s
    road, port = situation.planned_road, situation.expected_port(state.name)
    if port is None:
        return None
    own = road is not None and road.from_port == port.port
    return (road.promised_bit_per_s if road is not None and own else None) or port.agreed_bit_per_s


def _transfer_loads(situation: Situation) -> Iterator[Load]:
    """Transfers that fell short, with all that their interface moved meanwhile."""
    chain, used = chain_of(situation), {state.name: state for state in used_states(situation)}
    for timing in situation.seen.timings if chain is not None else ():
        state = used.get(timing.interface or "")
        direction: Direction = "in" if timing.direction == "read" else "out"
        total = timing.received_bytes if direction == "in" else timing.sent_bytes
        link = None if state is None else _link_rate(state, situation)
        rate = timing.rate_bit_per_s
        if chain is None or state is None or link is None or not total or rate is None:
            continue
        if rate < SHORT_SHARE * chain.network_bit_per_s:
            share = timing.bytes / total
            what = f"the file that was {'read' if direction == 'in' else 'written'} meanwhile"
            yield Load(state, direction, total * 8 / timing.seconds, share, link, what)


def _judge(load: Load, situation: Situation) -> Judgement:
    if load.rate_bit_per_s < FULL_SHARE * load.link_bit_per_s:
        return None
    where = interface_place(load.state.name)
    if load.own_share is None:
        return LINK_FULL.not_checked(
            where,
            reason=f"{load.state.name} is full, and how much of that is the storage's own traffic is not counted",
            decides="look which program moves it, and probe once more while nothing is copied",
        )
    if load.own_share > 1 - FOREIGN_SHARE:
        return None
    does = _DOES[load.direction]
    return LINK_FULL.finding(
        where,
        message=f"{situation.named(load.state.name)} {does} {both_rates_text(load.rate_bit_per_s)} of its "
        f"{both_rates_text(load.link_bit_per_s)}, and {_share(load.own_share)} of that belongs to {load.own}",
        remedy=f"Something else on this machine fills the link: look which program {does} most, and let the "
        "copy, the synchronising or the backup wait until nobody plays; or give playback a port of its own.",
        source=PRACTICE,
        measured=Measure(load.rate_bit_per_s, "bit/s"),
        limit=Measure(FULL_SHARE * load.link_bit_per_s, "bit/s"),
    )


def _share(share: float) -> str:
    return f"only {share_text(round(share, 2))}" if share >= 0.005 else "nothing"


LINK_FULL = Rule(
    name="link-full",
    family="live",
    severity="warn",
    subjects=_loads,
    judge=_judge,
    what="A link at 85 % of its rate or more in one direction, of which a tenth or more is not the storage's traffic.",
    why="A copy takes what it can get, and playback has to share: what is left comes late.",
    todo="Let the other copy wait, or give playback a port of its own.",
    sources=practice,
)
