"""Channels: all cables between two active ports, through the passive ports on the way."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from netaudit.model.place import PortRef
from netaudit.model.plan import Cable, Plan


@dataclass(frozen=True, slots=True)
class Channel:
    """The cables from one active port to another."""

    near: PortRef
    """The end that comes first in the plan."""
    far: PortRef
    cables: tuple[Cable, ...]
    """From the near end to the far one."""
    joints: tuple[PortRef, ...]
    """Passive ports on the way; one connection each."""
    lanes: int = 1
    """Ends among which a breakout shares the rate."""


@dataclass(frozen=True, slots=True)
class Cabling:
    """Every channel of a plan, and what leads nowhere."""

    channels: tuple[Channel, ...]
    dead_ends: Mapping[PortRef, PortRef]
    """Active port to the passive port at which its cables stop."""
    cables_at: Mapping[PortRef, Sequence[Cable]]
    """Port to the cables plugged into it, in file order."""


def find_channels(plan: Plan) -> Cabling:
    """Follow every cable from each active port until it meets another one, or stops."""
    cables_at: dict[PortRef, list[Cable]] = defaultdict(list)
    for cable in plan.cables.values():
        for end in cable.ends:
            cables_at[end].append(cable)
    passive = {device.name for device in plan.devices.values() if device.passive}
    channels: dict[tuple[frozenset[PortRef], frozenset[str]], Channel] = {}
    dead_ends: dict[PortRef, PortRef] = {}
    for device in plan.devices.values():
        if device.passive:
            continue
        for name in device.ports:
            port = PortRef(device.name, name)
            for cable in cables_at.get(port, ()):
                for channel in _follow(port, cable, cables_at, passive):
                    if channel.far.device in passive:
                        dead_ends[port] = channel.far
                        continue
                    key = (frozenset((port, channel.far)), frozenset(part.name for part in channel.cables))
                    channels.setdefault(key, channel)
    return Cabling(tuple(channels.values()), dead_ends, dict(cables_at))


def _follow(
    start: PortRef, first: Cable, cables_at: Mapping[PortRef, Sequence[Cable]], passive: set[str]
) -> Iterator[Channel]:
    """Every channel that leaves a port by a cable; its far end is passive where the cables stop.

    A cable is never entered twice, so a ring of passive ports ends as well.
    """
    open_ends: list[tuple[PortRef, Cable, tuple[Cable, ...], tuple[PortRef, ...], int]] = [(start, first, (), (), 1)]
    while open_ends:
        port, cable, cables, joints, lanes = open_ends.pop()
        cables = (*cables, cable)
        lanes = max(lanes, len(cable.to_ports))
        for end in reversed(cable.to_ports if port == cable.from_port else (cable.from_port,)):
            onward = None
            if end.device in passive:
                onward = next((other for other in cables_at[end] if other not in cables), None)
            if onward is None:
                yield Channel(start, end, cables, joints if end.device not in passive else (*joints, end), lanes)
            else:
                open_ends.append((end, onward, cables, (*joints, end), lanes))
