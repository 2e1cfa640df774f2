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
    lanes: int
    """Ends among which a breakout shares the rate."""

    @property
    def trunk(self) -> PortRef | None:
        """The end whose rate a breakout shares among lanes; None without one."""
        for entered, cable in zip((self.near, *self.joints), self.cables, strict=False):
            if len(cable.to_ports) > 1:
                return self.near if entered == cable.from_port else self.far
        return None


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

    A cable is never entered twice, so a ring of passive ports ends as well, and lanes that meet again go on as one.
    """
    entered = {first.name}
    open_ends: list[tuple[PortRef, Cable, dict[str, Cable], list[PortRef]]] = [(start, first, {}, [])]
    while open_ends:
        port, cable, cables, joints = open_ends.pop()
        cables[cable.name] = cable
        ends = cable.to_ports if port == cable.from_port else (cable.from_port,)
        for end in reversed(ends):
            walked, passed = (cables, joints) if len(ends) == 1 else (dict(cables), list(joints))
            onward = None
            if end.device in passive:
                passed.append(end)
                onward = next((other for other in cables_at[end] if other.name not in walked), None)
            if onward is None:
                lanes = max(len(each.to_ports) for each in walked.values())
                yield Channel(start, end, tuple(walked.values()), tuple(passed), lanes)
            elif onward.name not in entered:
                entered.add(onward.name)
                open_ends.append((end, onward, walked, passed))
