"""What must have gone through an interface by what sessions and handshakes did, beside what its counters say."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from netaudit.model.machine_state import Counters, Direction
from netaudit.model.observation import Moved
from netaudit.model.situation import Situation
from netaudit.units import size_text

LEAST_HANDSHAKES = 10
"""Handshakes below which nothing is made of lost ones, or of packets that are missing: common practice, no source."""
LEAST_BYTES = 100_000
"""Bytes of a session below which counters prove nothing [byte]: common practice, no source."""
LEAST_SHARE = 0.25
"""Share of what is due that an interface must have counted at least; common practice, no source.

Traffic that really goes elsewhere leaves next to nothing, while drivers that read their counters once a second may lag
behind by half an interval of two.
"""
ONE_WAY_BYTES = 1_000_000
"""Bytes moved one way without one the other way from which a driver is taken not to count those [byte]: common
practice, no source.

A wire that was just plugged in has sent a few questions, and heard nothing yet.
"""
PACKETS_OF_A_HANDSHAKE: Mapping[Direction, int] = {"in": 1, "out": 2}
"""What an accepted handshake moves at least: SYN and ACK go out, SYN-ACK comes in (RFC 9293, section 3.5)."""


class Counted(NamedTuple):
    """What must have gone one way through one interface, and what did."""

    interface: str
    due: int
    came: int | None
    """None where its driver does not count that."""
    unit: str
    elsewhere: Mapping[str, int]
    """What the interfaces that share no wire with it moved meanwhile, beyond what is due there."""
    least: float
    """What the interface must have moved at least."""

    @property
    def takers(self) -> tuple[str, ...]:
        """Other interfaces that moved all that is missing; none where nothing is."""
        if self.came is None or self.came >= self.least:
            return ()
        missing = self.due - self.came
        return tuple(name for name, count in self.elsewhere.items() if count >= missing)

    def amount(self, count: int) -> str:
        """An amount of its unit, in words."""
        if self.unit == "bytes":
            return size_text(count)
        return "1 packet" if count == 1 else f"{count} packets"


def counted(situation: Situation, direction: Direction) -> Iterator[Counted]:
    """Each interface by sessions that moved enough, or else by handshakes that were answered often enough."""
    moved = situation.seen.moved
    if moved is None:
        return
    by_sessions = _due_by_sessions(moved, situation, direction)
    enough = {name for name, total in by_sessions.items() if total >= LEAST_BYTES}
    counting = {
        name: growth.counters
        for name, growth in moved.interfaces.items()
        if not _never_counts(name, situation, direction)
    }
    bytes_moved = {name: counters.towards(direction) for name, counters in counting.items()}
    for name in by_sessions:
        if name in enough:
            yield _counted(name, by_sessions, bytes_moved, "bytes", situation)
    by_handshakes = _due_by_handshakes(moved, situation, direction)
    packets = {name: _packets(counters, direction) for name, counters in counting.items()}
    least = LEAST_HANDSHAKES * PACKETS_OF_A_HANDSHAKE[direction]
    for name, total in by_handshakes.items():
        if total >= least and enough.isdisjoint(situation.kin(name)):
            yield _counted(name, by_handshakes, packets, "packets", situation)


def _due_by_sessions(moved: Moved, situation: Situation, direction: Direction) -> dict[str, int]:
    """Bytes that the living sessions moved, by interface."""
    due: dict[str, int] = {}
    for session in situation.seen.sessions:
        count = moved.of_session(session)
        went = None if count is None else count.towards(direction)
        if session.interface is not None and went:
            due[session.interface] = due.get(session.interface, 0) + went
    return due


def _due_by_handshakes(moved: Moved, situation: Situation, direction: Direction) -> dict[str, int]:
    """Packets of the accepted handshakes, by the interface that the look-up names for their address."""
    due: dict[str, int] = {}
    for address, accepted in moved.handshakes.items():
        far = situation.address(address)
        if far is not None and far.route is not None and not far.is_here:
            packets = accepted * PACKETS_OF_A_HANDSHAKE[direction]
            due[far.route.interface] = due.get(far.route.interface, 0) + packets
    return due


def _counted(
    name: str,
    due: Mapping[str, int],
    counts: Mapping[str, int | None],
    unit: str,
    situation: Situation,
) -> Counted:
    same = situation.kin(name)
    elsewhere = {
        each: count - sum(due.get(one, 0) for one in situation.kin(each))
        for each, count in counts.items()
        if each not in same and count is not None
    }
    return Counted(name, due[name], counts.get(name), unit, elsewhere, LEAST_SHARE * due[name])


def _packets(counters: Counters, direction: Direction) -> int | None:
    return counters.received_packets if direction == "in" else counters.sent_packets


def _never_counts(name: str, situation: Situation, direction: Direction) -> bool:
    """Whether a driver has never counted anything that went one way, though it counts much that went the other."""
    state = situation.seen.interfaces.get(name)
    other: Direction = "out" if direction == "in" else "in"
    return (
        state is not None
        and state.counters.towards(direction) == 0
        and (state.counters.towards(other) or 0) >= ONE_WAY_BYTES
    )
