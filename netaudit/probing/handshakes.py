"""Handshakes with the storage's services: who answers, how fast, and how many get lost."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from netaudit.machine.clock import Deadline, pause
from netaudit.machine.knocking import Knocked, knocks
from netaudit.model.machine_state import Endpoint
from netaudit.model.observation import FarAddress, Knock
from netaudit.model.vocabulary import Address

FIRST_S = 1.5
"""Wait for the first handshake with every service [s]: TCP asks again after 1 s (RFC 6298), which must be seen."""
ASKED_AGAIN_S = 0.9
"""A handshake that took this long was lost once: TCP's first retransmission comes after 1 s (RFC 6298)."""
STEP_S = 0.1
"""Pause between two handshakes of a series [s]."""
ENOUGH_LOST = 2
"""Lost handshakes that tell enough: past its time a series makes no more after them."""
SERIES_AT_MOST = 60
"""Handshakes of one series at most."""


def knock_all(addresses: Iterable[FarAddress], ports: Sequence[int], deadline: Deadline) -> list[Knocked]:
    """One handshake with each service of each address that there is a route to."""
    ends = [Endpoint(each.address, port) for each in addresses if each.route is not None for port in ports]
    return list(knocks(ends, deadline.at_most(FIRST_S)))


def series(end: Endpoint, least: int, until: Deadline, deadline: Deadline) -> list[Knocked]:
    """Handshakes with one service, one after another, until a time; a few in any case, unless enough are lost then.

    One that gets lost takes a second, so that a time alone would leave a lossy link with a few. One silence among
    answers is a loss; the first one of all, or two in a row, end the series.
    """
    found: list[Knocked] = []
    while len(found) < SERIES_AT_MOST and not deadline.over:
        if until.over and (len(found) >= least or sum(map(_is_lost, found)) >= ENOUGH_LOST):
            break
        found += knocks([end], deadline.at_most(FIRST_S))
        last = {one.outcome for one in found[-2:]}
        if found[-1].outcome in ("unreachable", "blocked") or last == {"silent"}:
            break
        pause(deadline.at_most(STEP_S if len(found) >= least else STEP_S / 5))
    return found


def gathered(knocked: Iterable[Knocked]) -> dict[Address, dict[int, Knock]]:
    """The answers of each service of each address, put together; the first outcome that is an answer counts."""
    rows: dict[Endpoint, list[Knocked]] = {}
    for one in knocked:
        rows.setdefault(one.end, []).append(one)
    found: dict[Address, dict[int, Knock]] = {}
    for end, row in rows.items():
        found.setdefault(end.address, {})[end.port] = _together(row)
    return found


def accepted(knocked: Iterable[Knocked]) -> Mapping[Address, int]:
    """How many handshakes each address accepted, each by one packet of it; this machine's own guard may refuse too."""
    return Counter(one.end.address for one in knocked if one.outcome == "open")


def _is_lost(one: Knocked) -> bool:
    return one.outcome == "silent" or (one.seconds is not None and one.seconds >= ASKED_AGAIN_S)


def _together(row: Sequence[Knocked]) -> Knock:
    times = tuple(one.seconds for one in row if one.seconds is not None and one.outcome in ("open", "refused"))
    late = sum(seconds >= ASKED_AGAIN_S for seconds in times)
    outcomes = [one.outcome for one in row]
    telling = next((one for one in ("open", "refused") if one in outcomes), None)
    silent = outcomes.count("silent") if telling is not None else 0
    mss = next((one.mss for one in row if one.mss is not None), None)
    return Knock(telling or outcomes[0], times, late + silent, mss)
