"""What moved within an interval: the growth of counters, of sessions, and how handshakes fared meanwhile."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from netaudit.model.machine_state import Counters, Session, SessionCount
from netaudit.model.observation import Growth

Ends = tuple[str, str]
"""Local and remote end of a session as text."""


def grown(before: Mapping[str, Growth], after: Mapping[str, Growth]) -> dict[str, Growth]:
    """The growth of every interface that was there before and after."""
    return {name: _difference(before[name], now) for name, now in after.items() if name in before}


def sessions_grown(before: Sequence[Session], after: Sequence[Session]) -> dict[Ends, SessionCount]:
    """What each session did that lived through the interval."""
    then = {_ends(session): session.tcp for session in before}
    return {
        _ends(session): SessionCount(*map(_more, then[_ends(session)], session.tcp))
        for session in after
        if _ends(session) in then
    }


def _ends(session: Session) -> Ends:
    return str(session.local), str(session.remote)


def _difference(before: Growth, after: Growth) -> Growth:
    then, now = before.counters, after.counters
    errors = {
        name: count - then.errors[name]
        for name, count in now.errors.items()
        if name in then.errors and count >= then.errors[name]
    }
    counters = Counters(
        _more(then.sent_bytes, now.sent_bytes),
        _more(then.received_bytes, now.received_bytes),
        _more(then.sent_packets, now.sent_packets),
        _more(then.received_packets, now.received_packets),
        errors,
    )
    return Growth(counters, _more(before.carrier_changes, after.carrier_changes))


def _more(before: int | None, after: int | None) -> int | None:
    """How much a counter grew; None where it is not known, or was set back or wrapped meanwhile."""
    return None if before is None or after is None or after < before else after - before
