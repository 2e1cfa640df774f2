"""Packets: the sizes that this machine, the storage and the way between them are known to use."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.calculations.goodput import IPV4_OCTETS, IPV6_OCTETS, TCP_OCTETS, TIMESTAMP_OCTETS
from netaudit.model.machine_state import Session
from netaudit.model.observation import FarAddress
from netaudit.model.ports import LEAST_MTU
from netaudit.model.situation import Situation, Use

TCP_HEADERS = {4: IPV4_OCTETS + TCP_OCTETS + TIMESTAMP_OCTETS, 6: IPV6_OCTETS + TCP_OCTETS + TIMESTAMP_OCTETS}
"""Headers around a segment with timestamps, by version of IP [octets]."""
ALIKE_SHARE = 0.9
"""A packet this near to the other end's counts as alike, since options and tunnels take a few octets: common practice,
no source."""


def own_mtu(far: FarAddress, situation: Situation) -> int | None:
    """The largest packet that this machine sends to an address [octets]."""
    state = None if far.route is None else situation.seen.interfaces.get(far.route.interface)
    return None if state is None else state.mtu


def far_mtu(far: FarAddress, situation: Situation) -> int | None:
    """The largest packet that the storage takes at an address, by what TCP agreed on there [octets].

    A handshake just made counts before older sessions. None where no connection tells, or where this machine itself
    sends no larger ones.
    """
    interface = None if far.route is None else far.route.interface
    fresh, own = _shaken(far), own_mtu(far, situation)
    told = _of_sessions(far, interface, situation) if fresh is None else fresh
    return told if told is not None and own is not None and told < ALIKE_SHARE * own else None


def told_mtu(far: FarAddress, situation: Situation) -> int | None:
    """A smaller packet that a router on the way, or this system's memory of one, names [octets]."""
    own = own_mtu(far, situation) or 0
    interface = None if far.route is None else far.route.interface
    named = [*_named(far), *_named_to_sessions(far, interface, situation)]
    return min((size for size in named if size < ALIKE_SHARE * own), default=None)


def used_mtu(use: Use, situation: Situation) -> int:
    """The smallest packet that is known to be used between an interface and the storage [octets].

    Handshakes, echoes and the route tell of the way that a new connection takes; a session on another interface only
    of its own. Where nothing tells it is what every Ethernet port passes.
    """
    far, state = situation.address(use.remote), situation.seen.interfaces.get(use.interface)
    known = [None if state is None else state.mtu]
    if far is not None:
        known += [_of_sessions(far, use.interface, situation), *_named_to_sessions(far, use.interface, situation)]
        if far.route is not None and far.route.interface == use.interface:
            known += [_shaken(far), *_named(far), _passed_beside_lost(far)]
    return min((size for size in known if size is not None), default=LEAST_MTU)


def _shaken(far: FarAddress) -> int | None:
    """The packet that handshakes just made agreed on, the largest of several services [octets]."""
    sizes = [knock.mss for knock in far.knocks.values() if knock.mss is not None]
    return max(sizes) + TCP_HEADERS[far.address.version] if sizes else None


def _of_sessions(far: FarAddress, interface: str | None, situation: Situation) -> int | None:
    """The packet that living sessions with an address send by an interface, the largest of several [octets]."""
    sizes = [session.mss for session in _sessions(far, interface, situation) if session.mss is not None]
    return max(sizes) + TCP_HEADERS[far.address.version] if sizes else None


def _named(far: FarAddress) -> Iterator[int]:
    """The sizes that the way of a new connection is known to pass, by whoever named them [octets]."""
    for size in (*(test.told_mtu for test in far.frames), None if far.route is None else far.route.mtu):
        if size is not None:
            yield size


def _named_to_sessions(far: FarAddress, interface: str | None, situation: Situation) -> Iterator[int]:
    """The same, as living sessions learnt it."""
    for session in _sessions(far, interface, situation):
        if session.path_mtu is not None:
            yield session.path_mtu


def _passed_beside_lost(far: FarAddress) -> int | None:
    """The largest packet that passed, where a larger one got lost [octets]."""
    passed = far.path_mtu or 0
    return far.path_mtu if any(test.passed is False and test.size_octets > passed for test in far.frames) else None


def _sessions(far: FarAddress, interface: str | None, situation: Situation) -> Iterator[Session]:
    """Living sessions with an address that go by an interface."""
    for session in situation.seen.sessions:
        if session.remote.address == far.address and session.interface == interface:
            yield session
