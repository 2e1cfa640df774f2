"""The live rule on sessions: do they run where a new one would."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from netaudit.citation import OBSERVED
from netaudit.model.finding import Judgement
from netaudit.model.machine_state import Route, Session
from netaudit.model.place import Place
from netaudit.model.situation import Situation
from netaudit.rules.live.remedies import remount
from netaudit.rules.live.roads import owner_of, with_rate
from netaudit.rules.live.sources import observed
from netaudit.rules.rule import Rule
from netaudit.rules.situation import interface_place


def session_place(session: Session) -> Place:
    """The place of a living session."""
    return Place("session", f"{session.local} > {session.remote}")


class OldRoad(NamedTuple):
    """A living session, the interface that it runs on, and where a new connection to the same address would go."""

    session: Session
    interface: str
    route: Route


def _sessions(situation: Situation) -> Iterator[OldRoad]:
    """Living sessions beside the route of today; those that only stand by are left out."""
    standing_by = {(channel.local, channel.remote) for channel in situation.seen.client.channels if not channel.active}
    for session in situation.seen.file_sessions:
        far = situation.address(session.remote.address)
        ends = session.local.address, session.remote.address
        if far is None or far.route is None or far.route.local or ends in standing_by:
            continue
        interface = _runs_on(session, far.route, situation)
        if interface is not None:
            yield OldRoad(session, interface, far.route)


def _runs_on(session: Session, route: Route, situation: Situation) -> str | None:
    """The interface that a session belongs to.

    Where its packets leave by the route of today but it bears another address than a new connection would, it belongs
    to the interface of that address: the storage answers there.
    """
    owner = owner_of(session.local.address, situation)
    foreign = owner is not None and session.local.address != route.source
    if session.interface in (None, route.interface) and foreign:
        return owner
    return session.interface or owner


def _judge_session(old: OldRoad, situation: Situation) -> Judgement:
    session, interface, route = old
    if route.interface in situation.kin(interface):
        return None
    better = _is_better(route.interface, interface, situation)
    if better is None:
        return SESSION_ON_OTHER_PORT.not_checked(
            session_place(session),
            reason=f"A living session runs on {interface} and a new one would go by {route.interface}, and which of "
            "them is the right one is not known",
            decides="give a plan with --plan, or compare the rates of the two ports",
        )
    if not better:
        return None
    return SESSION_ON_OTHER_PORT.finding(
        session_place(session),
        interface_place(interface),
        interface_place(route.interface),
        message=f"the share still runs on {with_rate(interface, situation)}, where it was mounted, although a new "
        f"connection to {session.remote.address} goes by {with_rate(route.interface, situation)}",
        remedy=f"Nothing is wrong with the cable: the mount is older than it, and a living session stays where it was "
        f"made. Save, close the projects, {remount(situation, session.remote.address)}.",
        source=OBSERVED,
    )


def _is_better(new: str, old: str, situation: Situation) -> bool | None:
    """Whether the interface of a new connection is the right one, or at least the better; None where that is open."""
    if situation.planned_road is not None and situation.planned_names:
        return situation.is_planned(new)
    for through in (situation.through_tunnel, situation.through_air):
        if through(new) != through(old):
            return through(old)
    states = [situation.seen.interfaces.get(name) for name in (new, old)]
    rates = [None if state is None or state.made_up_rate else state.rate_bit_per_s for state in states]
    return None if rates[0] is None or rates[1] is None else rates[0] > rates[1]


SESSION_ON_OTHER_PORT = Rule(
    name="session-on-other-port",
    family="live",
    severity="fail",
    subjects=_sessions,
    judge=_judge_session,
    what="A mounted share that still runs on the port it was mounted by, while a new connection would take the right "
    "one.",
    why="Plugging in the cable changes nothing for a share that is mounted already: it stays on Wi-Fi for days.",
    todo="Eject the share and mount it again.",
    sources=observed,
)
