"""Causes: which finding explains which, so that the one to deal with stands first."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

from netaudit.model.diagnosis import Cause
from netaudit.model.finding import GRAVITY, Finding
from netaudit.model.observation import FarAddress
from netaudit.model.situation import Situation
from netaudit.rules.live.roads import watched, wires

_ROADS = ("traffic-on-wireless", "traffic-on-other-port")
_TROUBLE = ("service-refused", "retransmits-high", "storage-stalls")
_SILENCE = ("no-answer", *_TROUBLE)
_SLOWNESS = ("signing-or-encryption", "not-the-network")
_PORTS = ("name-gives-many-addresses", "one-hardware-address-twice", "storage-offers-slower-port")
_FRAMES = ("large-frames-lost", "frame-sizes-differ")
_BEYOND = (*_TROUBLE, *_SLOWNESS, *_PORTS, *_FRAMES, "replies-on-other-port")
"""What looks wrong beyond a port at an address that should not be used at all."""
_ANY_ADDRESS = (*_BEYOND, "link-full", "receive-errors")
"""The same with what looks wrong at a port that should not be used either."""
_ANY_ROAD = ("no-answer", *_ANY_ADDRESS)
"""What looks wrong on a road that should not be used at all."""
_OF_A_PORT = ("frame-sizes-differ", "link-full", "receive-errors")
"""What a port may show of itself, whatever road the traffic takes: a setting, its load, its wire."""


def _always(_: Situation) -> bool:
    return True


def _not_of_the_planned_port(_: Finding, follows: Finding, situation: Situation) -> bool:
    """Anything but what the planned port shows of itself: no road and no far end sets it, fills it or damages it."""
    name = _interface(follows)
    return follows.rule not in _OF_A_PORT or name is None or not situation.is_planned(name)


def _on_one_link(root: Finding, follows: Finding, situation: Situation) -> bool:
    """Both at one interface, or at what stands on it; what is seen at an address is seen by the interfaces in use."""
    near, far = (_links(finding, situation) for finding in (root, follows))
    return not near.isdisjoint(far)


def _from_the_planned_port(root: Finding, follows: Finding, situation: Situation) -> bool:
    """Only where the planned port is at fault is another road its consequence; without a plan any port may be."""
    name = _interface(root)
    meant = not situation.planned_names or name is None or situation.is_planned(name)
    return meant and _not_of_the_planned_port(root, follows, situation)


def _interface(finding: Finding) -> str | None:
    """The interface at which something was found; None where it was found at an address or a session."""
    first = finding.where[0]
    return first.name if first.kind == "interface" else None


def _links(finding: Finding, situation: Situation) -> frozenset[str]:
    name = _interface(finding)
    names = situation.used_names if name is None else (name,)
    return frozenset(each for one in names for each in situation.kin(one))


class Follows(NamedTuple):
    """What follows from what one rule found, and where it does."""

    root: str
    consequences: tuple[str, ...]
    holds: Callable[[Situation], bool] = _always
    between: Callable[[Finding, Finding, Situation], bool] = _not_of_the_planned_port
    """Whether the second finding can follow from the first one, by the places of the two."""


def _keeps_coming(situation: Situation) -> bool:
    """Whether a planned or used link came and went, rather than only went."""
    growths = {} if situation.seen.moved is None else situation.seen.moved.interfaces
    links = (growths.get(state.name) for state in watched(situation))
    return any((growth.carrier_changes or 0) > 1 for growth in links if growth is not None)


def _wire_could(situation: Situation) -> bool:
    """Whether the right wired port has an address in the subnet of the storage's address in use."""
    names = situation.planned_names or tuple(state.name for state in wires(situation))
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
    wanted = situation.planned_names
    return any(
        situation.through_air(route.interface) or (wanted != () and route.interface not in wanted) for route in routes
    )


def _address_decides(situation: Situation) -> bool:
    return not _planned_end_by_air(situation)


CONSEQUENCES = (
    Follows("link-flapping", ("carrier-lost", "no-answer"), _keeps_coming, _on_one_link),
    Follows("link-flapping", ("no-route", *_ROADS, *_ANY_ROAD), _keeps_coming, _from_the_planned_port),
    Follows(
        "link-flapping",
        ("receive-errors", "retransmits-high", "link-below-plan", "link-below-capability"),
        between=_on_one_link,
    ),
    Follows("carrier-lost", ("no-route", *_ANY_ROAD)),
    Follows("carrier-lost", ("receive-errors",), between=_on_one_link),
    Follows(
        "carrier-lost",
        ("router-between", "tunnel-takes-route", "address-not-planned", *_ROADS),
        between=_from_the_planned_port,
    ),
    Follows("no-route", ("address-not-planned", *_ROADS, "router-between", *_ANY_ROAD)),
    Follows("no-answer", ("address-not-planned",), _planned_end_was_asked),
    Follows("no-answer", _PORTS),
    Follows("tunnel-takes-route", ("router-between", *_ROADS, *_ANY_ROAD)),
    Follows("session-on-other-port", (*_ROADS, "address-not-planned", *_ANY_ROAD)),
    Follows("address-not-planned", (*_ROADS, "router-between", *_ANY_ADDRESS), _address_decides),
    Follows("address-not-planned", ("no-answer",), _planned_end_was_not_asked),
    Follows("traffic-on-wireless", ("address-not-planned",), _planned_end_by_air),
    Follows("traffic-on-other-port", ("address-not-planned",), _planned_end_by_air),
    Follows("router-between", _ROADS, _wire_could_not),
    Follows("traffic-on-wireless", ("router-between", "traffic-on-other-port"), _wire_could),
    Follows("traffic-on-other-port", ("router-between",), _wire_could),
    Follows("traffic-on-wireless", ("no-answer",), _address_is_meant),
    Follows("traffic-on-wireless", _ANY_ADDRESS),
    Follows("traffic-on-other-port", ("no-answer",), _address_is_meant),
    Follows("traffic-on-other-port", _ANY_ADDRESS),
    Follows("router-between", ("no-answer",), _address_is_meant),
    Follows("router-between", _BEYOND),
    Follows("two-answers-for-address", (*_SILENCE, *_SLOWNESS, *_PORTS, *_FRAMES)),
    Follows("one-hardware-address-twice", ("storage-offers-slower-port", "name-gives-many-addresses", *_SLOWNESS)),
    Follows("replies-on-other-port", (*_SLOWNESS, "retransmits-high", *_FRAMES, "link-full")),
    Follows(
        "link-below-plan", ("link-below-capability", "link-full", *_SLOWNESS, "retransmits-high"), between=_on_one_link
    ),
    Follows("link-below-capability", ("link-full", *_SLOWNESS), between=_on_one_link),
    Follows("large-frames-lost", ("retransmits-high", "frame-sizes-differ", "storage-stalls", *_SLOWNESS)),
    Follows("receive-errors", ("retransmits-high",), between=_on_one_link),
    Follows("adapter-bus-below-link", _SLOWNESS, between=_on_one_link),
    Follows("link-full", ("large-frames-lost", "retransmits-high", "storage-stalls", *_SLOWNESS), between=_on_one_link),
    Follows("storage-offers-slower-port", _SLOWNESS),
    Follows("storage-stalls", _SLOWNESS),
    Follows("signing-or-encryption", ("not-the-network",)),
)
"""Root to consequences, the most upstream first: a broken link bends the road, a wrong road makes the rest look bad."""
UPSTREAM = tuple(dict.fromkeys(each.root for each in CONSEQUENCES))
"""The order in which causes of one severity are told."""


def rank(findings: Sequence[Finding], situation: Situation) -> tuple[Cause, ...]:
    """The causes behind some findings, the likeliest first.

    What another finding explains is no cause of its own: its message joins the evidence of that one.
    """
    explains = {at: _explained_by(finding, findings, situation) for at, finding in enumerate(findings)}
    explained = {at for consequences in explains.values() for at in consequences}
    roots = [at for at in explains if at not in explained]
    names = list(dict.fromkeys(findings[at].rule for at in roots))
    names.sort(
        key=lambda name: (
            min(GRAVITY[findings[at].severity] for at in roots if findings[at].rule == name),
            _place(name),
        )
    )
    return tuple(
        Cause(name, tuple(_evidence([at for at in roots if findings[at].rule == name], explains, findings)))
        for name in names
    )


def _explained_by(root: Finding, findings: Sequence[Finding], situation: Situation) -> tuple[int, ...]:
    """Where among some findings those stand that follow from one of them."""
    rows = [each for each in CONSEQUENCES if each.root == root.rule and each.holds(situation)]
    return tuple(
        at
        for at, finding in enumerate(findings)
        if any(finding.rule in row.consequences and row.between(root, finding, situation) for row in rows)
    )


def _place(name: str) -> int:
    return UPSTREAM.index(name) if name in UPSTREAM else len(UPSTREAM)


def _evidence(
    roots: Sequence[int], explains: Mapping[int, Sequence[int]], findings: Sequence[Finding]
) -> Iterator[str]:
    """The messages of some findings, then of all that follows from them, nearest first."""
    order: dict[int, None] = {}
    due = list(roots)
    while due:
        at = due.pop(0)
        if at not in order:
            order[at] = None
            due += explains[at]
    return (findings[at].message for at in order)
