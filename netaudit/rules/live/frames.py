"""Live rules about frame sizes: do large ones arrive, and do both ends use the same."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from netaudit.citation import OBSERVED
from netaudit.model.finding import Judgement, Measure
from netaudit.model.observation import FarAddress, FrameTest
from netaudit.model.ports import LEAST_MTU
from netaudit.model.situation import Situation
from netaudit.rules.live.gaps import gap
from netaudit.rules.live.packets import ALIKE_SHARE, far_mtu, own_mtu, told_mtu
from netaudit.rules.live.remedies import far_end_of
from netaudit.rules.live.settings import set_mtu, show_mtu
from netaudit.rules.live.sources import observed
from netaudit.rules.rule import Rule
from netaudit.rules.situation import address_place, interface_place


def _tested(situation: Situation) -> Iterator[FarAddress]:
    return (far for far in situation.seen.addresses if far.frames and not far.is_here)


def _judge_lost(far: FarAddress, situation: Situation) -> Judgement:
    own, road = own_mtu(far, situation), situation.planned_road
    planned = None if road is None else road.mtu
    limit = min((size for size in (own, planned) if size is not None), default=None)
    where = address_place(far.address)
    lost = [test for test in far.frames if test.passed is False and (limit is None or test.size_octets <= limit)]
    if not any(test.passed for test in far.frames):
        told = gap(
            LARGE_FRAMES_LOST.name,
            situation,
            f"No packet that asks {far.address} for an echo comes back, not even a small one",
            "let the storage answer to ping, and probe again",
        )
        return LARGE_FRAMES_LOST.not_checked(where, reason=told.reason, decides=told.decides) if far.answers else None
    pair = next((pair for test in lost if (pair := _beside(test, far)) is not None), None)
    if pair is None or far_mtu(far, situation) is not None or told_mtu(far, situation) is not None:
        return None
    return _lost(far, *pair, situation)


def _beside(lost: FrameTest, far: FarAddress) -> tuple[FrameTest, FrameTest] | None:
    """A packet that was lost, and the largest smaller one that passed in the same way."""
    passed = [
        test
        for test in far.frames
        if test.passed and test.method == lost.method and test.size_octets < lost.size_octets
    ]
    return (lost, max(passed)) if passed else None


def _lost(far: FarAddress, lost: FrameTest, passed: FrameTest, situation: Situation) -> Judgement:
    interface = "" if far.route is None else far.route.interface
    return LARGE_FRAMES_LOST.finding(
        address_place(far.address),
        *((interface_place(interface),) if interface else ()),
        message=f"packets of {lost.size_octets} octets to {far.address} vanish without a word, those of "
        f"{passed.size_octets} pass: something between the two ends takes no large frames",
        remedy=f"Folders that hang while small files open are this. Both ends are set right, and something between is "
        f"not: set every switch port on the way to {far.address} to large frames (9216 or more), in the switch's own "
        f"pages; what stands at {far_end_of(situation, interface)} comes first. {_small_ends(interface, situation)}",
        source=OBSERVED,
        measured=Measure(passed.size_octets, "octets"),
        limit=Measure(lost.size_octets, "octets"),
    )


def _small_ends(interface: str, situation: Situation) -> str:
    """How to do without large packets, and what that costs."""
    cost = "at 10 Gb/s that costs 5 % at the most"
    if not interface:
        return f"Until then, or if in doubt for good, set both ends to {LEAST_MTU}: {cost}."
    return (
        f"Until then, or if in doubt for good, set {situation.storage_name} and {interface} to {LEAST_MTU}: {cost}. "
        f"`{show_mtu(situation, interface)}` shows what {interface} is set to. "
        f"{set_mtu(situation, interface, LEAST_MTU)}."
    )


LARGE_FRAMES_LOST = Rule(
    name="large-frames-lost",
    family="live",
    severity="fail",
    subjects=_tested,
    judge=_judge_lost,
    what="Large packets that vanish on the way while small ones pass, although both ends use the large size.",
    why="Everything small works, so the share mounts; the first large file hangs, and nobody on a local network says "
    "why.",
    todo="Set every switch on the way to large frames, or both ends to 1500.",
    sources=observed,
)


class Sizes(NamedTuple):
    """The packet sizes of an address in use."""

    far: FarAddress
    own: int


def _sizes(situation: Situation) -> Iterator[Sizes]:
    for far in situation.used_addresses:
        own = own_mtu(far, situation)
        if own is not None and not far.is_here and situation.seen.complete:
            yield Sizes(far, own)


def _judge_sizes(sizes: Sizes, situation: Situation) -> Judgement:
    far, own = sizes
    told, theirs = told_mtu(far, situation), far_mtu(far, situation)
    name = "" if far.route is None else far.route.interface
    if told is not None:
        return _differ(
            far,
            told,
            own,
            f"something on the way to {far.address} names {told} octets as the most it passes",
            situation,
        )
    if theirs is not None:
        return _differ(
            far,
            theirs,
            own,
            f"{situation.storage_name} takes packets of about {theirs} octets at {far.address}",
            situation,
        )
    planned = situation.planned_port
    port = situation.expected_port(name)
    if port is None or planned is None or port.port != planned.port or port.mtu is None or _alike(own, port.mtu):
        return None
    return FRAME_SIZES_DIFFER.finding(
        interface_place(name),
        message=f"{situation.named(name)} is set to packets of {own} octets, and {port.mtu} is planned",
        remedy=f"{set_mtu(situation, name, port.mtu)}, as all ports of that subnet have it; "
        f"`{show_mtu(situation, name)}` shows it.",
        source=OBSERVED,
        measured=Measure(own, "octets"),
        limit=Measure(port.mtu, "octets"),
    )


def _alike(one: int, other: int) -> bool:
    return min(one, other) >= ALIKE_SHARE * max(one, other)


def _differ(far: FarAddress, size: int, own: int, why: str, situation: Situation) -> Judgement:
    name = "" if far.route is None else far.route.interface
    return FRAME_SIZES_DIFFER.finding(
        address_place(far.address),
        interface_place(name),
        message=f"{why}, and {situation.named(name)} is set to {own}: the connection settles on the smaller",
        remedy=f"Give both ends one size: {own} at {situation.storage_name} and on every switch between, or "
        f"{_lower_first(set_mtu(situation, name, size))}. Large frames gain 5 % at the most; 1500 everywhere is the "
        "safe choice.",
        source=OBSERVED,
        measured=Measure(size, "octets"),
        limit=Measure(own, "octets"),
    )


def _lower_first(text: str) -> str:
    return text[:1].lower() + text[1:]


FRAME_SIZES_DIFFER = Rule(
    name="frame-sizes-differ",
    family="live",
    severity="warn",
    subjects=_sizes,
    judge=_judge_sizes,
    what="Two ends, or this end and the plan, with different sizes of their largest packet.",
    why="TCP settles on the smaller size, so nothing breaks, but large frames are then set up for nothing.",
    todo="Use one size in the whole subnet; in doubt 1500.",
    sources=observed,
)
