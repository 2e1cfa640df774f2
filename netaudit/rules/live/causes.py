"""Causes: which finding explains which, so that the one to deal with stands first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from netaudit.model.diagnosis import Cause
from netaudit.model.finding import GRAVITY, Finding
from netaudit.model.observation import FarAddress
from netaudit.rules.live.roads import planned_names, through_air, wires
from netaudit.rules.situation import Situation

_ROADS = ("traffic-on-wireless", "traffic-on-other-port")
_TROUBLE = ("service-refused", "retransmits-high", "storage-stalls")
_SILENCE = ("no-answer", *_TROUBLE)
_SLOWNESS = ("signing-or-encryption", "not-the-network")
_PORTS = ("name-gives-many-addresses", "one-hardware-address-twice", "storage-offers-slower-port")
_FRAMES = ("large-frames-lost", "frame-sizes-differ")
_ANY_ADDRESS = (*_TROUBLE, *_SLOWNESS, *_PORTS, *_FRAMES, "link-full", "receive-errors", "replies-on-other-port")
"""What looks wrong at an address that should not be used at all."""
_ANY_ROAD = ("no-answer", *_ANY_ADDRESS)
"""What looks wrong on a road that should not be used at all."""


def _always(_: Situation) -> bool:
    return True


class Explanation(NamedTuple):
    """What one rule explains of others, and where."""

    root: str
    consequences: tuple[str, ...]
    holds: Callable[[Situation], bool] = _always


def _keeps_coming(situation: Situation) -> bool:
    """Whether a planned or used link came and went, rather than only went."""
    growths = {} if situation.seen.moved is None else situation.seen.moved.interfaces
    return any((growth.carrier_changes or 0) > 1 for growth in growths.values())


def _wire_could(situation: Situation) -> bool:
    """Whether the right wired port has an address in the subnet of the storage's address in use."""
    names = planned_names(situation) or tuple(state.name for state in wires(situation))
    subnets = [each.network for name in names for each in situation.seen.interfaces[name].addresses]
    return any(far.address in subnet for far in situation.used_addresses for subnet in subnets)


def _wire_could_not(situation: Situation) -> bool:
    return not _wire_could(situation)


def _planned_end(situation: Situation) -> list[FarAddress]:
    expected = situation.expected
    planned = () if expected is None else expected.planned_addresses
    return [far for address in planned if (far := situation.address(address)) is not None]


def _address_is_meant(situation: Situation) -> bool:
    """Whether the addresses in use are those of the planned end, or none is planned."""
    expected = situation.expected
    planned = () if expected is None else expected.planned_addresses
    return not planned or all(far.address in planned for far in situation.used_addresses)


def _planned_end_was_asked(situation: Situation) -> bool:
    return bool(_planned_end(situation))


def _planned_end_was_not_asked(situation: Situation) -> bool:
    return not _planned_end(situation)


def _planned_end_by_air(situation: Situation) -> bool:
    """Whether even the planned address would be reached by another interface than the planned one."""
    routes = [far.route for far in _planned_end(situation) if far.route is not None]
    wanted = planned_names(situation)
    return any(
        through_air(route.interface, situation) or (wanted != () and route.interface not in wanted) for route in routes
    )


def _address_decides(situation: Situation) -> bool:
    return not _planned_end_by_air(situation)


EXPLANATIONS = (
    Explanation("link-flapping", ("carrier-lost", "no-answer", "no-route", *_ROADS, *_ANY_ROAD), _keeps_coming),
    Explanation("link-flapping", ("receive-errors", "retransmits-high", "link-below-plan", "link-below-capability")),
    Explanation(
        "carrier-lost",
        ("no-route", "no-answer", "router-between", "tunnel-takes-route", "address-not-planned", *_ROADS, *_ANY_ROAD),
    ),
    Explanation("no-route", ("address-not-planned", *_ROADS, "router-between", *_ANY_ROAD)),
    Explanation("no-answer", ("address-not-planned",), _planned_end_was_asked),
    Explanation("no-answer", _PORTS),
    Explanation("tunnel-takes-route", ("router-between", *_ROADS, *_ANY_ROAD)),
    Explanation("session-on-other-port", (*_ROADS, "address-not-planned", *_ANY_ROAD)),
    Explanation("address-not-planned", (*_ROADS, "router-between", *_ANY_ADDRESS), _address_decides),
    Explanation("address-not-planned", ("no-answer",), _planned_end_was_not_asked),
    Explanation("traffic-on-wireless", ("address-not-planned",), _planned_end_by_air),
    Explanation("traffic-on-other-port", ("address-not-planned",), _planned_end_by_air),
    Explanation("router-between", _ROADS, _wire_could_not),
    Explanation("traffic-on-wireless", ("router-between", "traffic-on-other-port"), _wire_could),
    Explanation("traffic-on-other-port", ("router-between",), _wire_could),
    Explanation("traffic-on-wireless", ("no-answer",), _address_is_meant),
    Explanation("traffic-on-wireless", _ANY_ADDRESS),
    Explanation("traffic-on-other-port", ("no-answer",), _address_is_meant),
    Explanation("traffic-on-other-port", _ANY_ADDRESS),
    Explanation("router-between", ("no-answer",), _address_is_meant),
    Explanation("router-between", _ANY_ADDRESS),
    Explanation("two-answers-for-address", (*_SILENCE, *_SLOWNESS, *_PORTS, *_FRAMES)),
    Explanation("one-hardware-address-twice", ("storage-offers-slower-port", "name-gives-many-addresses", *_SLOWNESS)),
    Explanation("replies-on-other-port", (*_SLOWNESS, "retransmits-high", *_FRAMES, "link-full")),
    Explanation("link-below-plan", ("link-below-capability", "link-full", *_SLOWNESS, "retransmits-high")),
    Explanation("link-below-capability", ("link-full", *_SLOWNESS)),
    Explanation("large-frames-lost", ("retransmits-high", "frame-sizes-differ", "storage-stalls", *_SLOWNESS)),
    Explanation("receive-errors", ("retransmits-high",)),
    Explanation("adapter-bus-below-link", _SLOWNESS),
    Explanation("link-full", ("large-frames-lost", "retransmits-high", "storage-stalls", *_SLOWNESS)),
    Explanation("storage-offers-slower-port", _SLOWNESS),
    Explanation("storage-stalls", _SLOWNESS),
    Explanation("signing-or-encryption", ("not-the-network",)),
)
"""Root to consequences, the most upstream first: a broken link bends the road, a wrong road makes the rest look bad."""
UPSTREAM = tuple(dict.fromkeys(each.root for each in EXPLANATIONS))
"""The order in which causes of one severity are told."""


def rank(findings: Sequence[Finding], situation: Situation) -> tuple[Cause, ...]:
    """The causes behind some findings, the likeliest first.

    What another finding explains is no cause of its own: its message joins the evidence of that one.
    """
    names = tuple(dict.fromkeys(finding.rule for finding in findings))
    explains = {name: _explained_by(name, names, situation) for name in names}
    explained = {each for consequences in explains.values() for each in consequences}
    roots = [name for name in names if name not in explained]
    roots.sort(key=lambda name: (_gravity(name, findings), _place(name)))
    return tuple(Cause(root, _evidence(root, explains, findings)) for root in roots)


def _explained_by(root: str, present: Iterable[str], situation: Situation) -> tuple[str, ...]:
    """What a rule explains of those that struck."""
    consequences = {
        consequence
        for each in EXPLANATIONS
        if each.root == root and each.holds(situation)
        for consequence in each.consequences
    }
    return tuple(name for name in present if name in consequences)


def _gravity(name: str, findings: Iterable[Finding]) -> int:
    return min(GRAVITY[finding.severity] for finding in findings if finding.rule == name)


def _place(name: str) -> int:
    return UPSTREAM.index(name) if name in UPSTREAM else len(UPSTREAM)


def _evidence(root: str, explains: dict[str, tuple[str, ...]], findings: Sequence[Finding]) -> tuple[str, ...]:
    """The messages of a root, then of all that follows from it, nearest first."""
    order: dict[str, None] = {}
    due = [root]
    while due:
        name = due.pop(0)
        if name not in order:
            order[name] = None
            due += explains[name]
    return tuple(_messages(order, findings))


def _messages(order: Iterable[str], findings: Sequence[Finding]) -> Iterator[str]:
    for name in order:
        yield from (finding.message for finding in findings if finding.rule == name)
