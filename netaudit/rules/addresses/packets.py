"""Rules about the largest packet: does what both ends send fit through everything between them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from netaudit.citation import PLAN
from netaudit.listing import listed
from netaudit.model.finding import Judgement, Measure
from netaudit.model.path import Path
from netaudit.model.place import PortRef, device_place, port_place
from netaudit.model.ports import LEAST_MTU
from netaudit.network.forwarding import port_mtu
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule

OCTETS = "octets"
HEADERS = (14, 18, 22)
"""What a driver may count besides the packet [octets]: addresses and type (IEEE 802.3 clause 3.1.1), with the check
sequence behind, and with the tag of IEEE 802.1Q as well."""


class Ends(NamedTuple):
    """A planned path, and the largest packet of each of its two ends where that is given [octets]."""

    path: Path
    near: PortRef
    near_mtu: int | None
    far: PortRef
    far_mtu: int | None

    @property
    def known(self) -> tuple[int, ...]:
        """The packets that are given [octets]."""
        return tuple(mtu for mtu in (self.near_mtu, self.far_mtu) if mtu is not None)

    @property
    def silent(self) -> PortRef | None:
        """The end whose packet is not given."""
        return self.near if self.near_mtu is None else self.far if self.far_mtu is None else None


def _ends(facts: Facts) -> Iterable[Ends]:
    """The planned paths at one end of which a largest packet is given."""
    for path in facts.planned:
        near, far = path.from_port, path.to_port
        if near is not None and far is not None:
            ends = Ends(path, near, _mtu(near, facts), far, _mtu(far, facts))
            if ends.known:
                yield ends


def _mtu(port: PortRef, facts: Facts) -> int | None:
    return port_mtu(facts.plan.devices[port.device], port.port)


def _between(path: Path) -> Sequence[PortRef]:
    """The ports between both ends, in the direction of the storage."""
    ports = [port for hop in path.hops for port in (hop.from_port, hop.to_port)]
    return [port for port in ports if port not in (path.from_port, path.to_port)]


def _bare(path: Path, facts: Facts) -> Sequence[PortRef]:
    """Those between both ends whose largest packet is not given."""
    return [port for port in _between(path) if _mtu(port, facts) is None]


def _judge_mixed(ends: Ends, facts: Facts) -> Judgement:
    used = min(ends.known)
    mtus = [(port, _mtu(port, facts)) for port in _between(ends.path)]
    tight = [(port, mtu) for port, mtu in mtus if mtu is not None and mtu < used]
    bare = _bare(ends.path, facts)
    is_open = used > LEAST_MTU and bool(bare) and not _planned_for(ends.path, used, facts)
    if ends.silent is not None and (tight or is_open):
        return _silent_end(MTU_MIXED, ends, ends.silent)
    if tight:
        return _too_tight(ends, used, tight)
    return _silent_between(ends, used, bare) if is_open else None


def _planned_for(path: Path, used: int, facts: Facts) -> Sequence[str]:
    """The networks on a path, if all are planned for packets of a size [octets]: what stands in them then counts so."""
    ends = (path.from_port, path.to_port) if path.routed else ()
    carried = (facts.topology.forwarding.carried[port] for port in ends if port is not None)
    every = (path.network, *(name for each in carried for name in (each.untagged, *sorted(each.tagged))))
    names = list(dict.fromkeys(name for name in every if name is not None))
    mtus = (facts.plan.networks[name].mtu for name in names)
    return names if all(mtu is not None and mtu >= used for mtu in mtus) else []


def _too_tight(ends: Ends, used: int, tight: Sequence[tuple[PortRef, int]]) -> Judgement:
    narrowest, least = min(tight, key=lambda each: each[1])
    ports = [port for port, _ in tight]
    return MTU_MIXED.finding(
        ends.path.place,
        *map(port_place, dict.fromkeys((narrowest, *ports))),
        message=f"{ends.near} and {ends.far} send packets of {used} octets, and {narrowest} between them passes "
        f"{least} at the most",
        remedy=f"Let {listed(ports)} pass {used} octets or more, or set {ends.near} and {ends.far} to {least}.",
        source=PLAN,
        measured=Measure(least, OCTETS),
        limit=Measure(used, OCTETS),
    )


def _silent_end(rule: Rule[Ends, Facts], ends: Ends, silent: PortRef) -> Judgement:
    other = ends.far if silent == ends.near else ends.near
    return rule.not_checked(
        ends.path.place,
        port_place(silent),
        reason=f"The largest packet of {silent} is not given",
        decides=f"read it in the settings of {silent} and write it down as `mtu`: {other} uses {ends.known[0]} octets",
    )


def _silent_between(ends: Ends, used: int, bare: Sequence[PortRef]) -> Judgement:
    devices = list(dict.fromkeys(port.device for port in bare))
    return MTU_MIXED.not_checked(
        ends.path.place,
        *map(device_place, devices),
        reason=f"The largest packet that {listed(devices)} {'passes' if len(devices) == 1 else 'pass'} is not given",
        decides=f"read the largest frame in the settings of {listed(devices)}: packets of {used} octets must pass",
    )


MTU_MIXED = Rule(
    name="mtu-mixed",
    family="addresses",
    severity="fail",
    subjects=_ends,
    judge=_judge_mixed,
    what="A port between a seat and its storage that passes smaller packets than both ends send.",
    why="Large packets are dropped without a word: the share mounts and lists, and hangs when a picture is opened.",
    todo="Let everything between pass more than the ends send, or set both ends to 1500, which passes everywhere.",
)


def _judge_differs(ends: Ends, facts: Facts) -> Judgement:
    if ends.silent is not None:
        return _silent_end(MTU_DIFFERS, ends, ends.silent) if ends.known[0] > LEAST_MTU else None
    least, most = sorted(ends.known)
    if least == most:
        return None
    clause, remedy = _header_counted(ends, least, most) if most - least in HEADERS else _apart(ends, least, most)
    return MTU_DIFFERS.finding(
        ends.path.place,
        port_place(ends.near),
        port_place(ends.far),
        message=f"{ends.near} uses packets of {ends.near_mtu} octets and {ends.far} of {ends.far_mtu}: {clause}",
        remedy=remedy,
        source=PLAN,
        measured=Measure(least, OCTETS),
        limit=Measure(most, OCTETS),
    )


def _apart(ends: Ends, least: int, most: int) -> tuple[str, str]:
    """What two sizes [octets] come to, as a clause, and the step."""
    remedy = f"Set {ends.near} and {ends.far} to the same: {most} if everything between them passes it, or {least}."
    return f"they settle on {least}", remedy


def _header_counted(ends: Ends, least: int, most: int) -> tuple[str, str]:
    """The same where one may be the other with a header: to set both to the larger would part them anew."""
    larger = ends.near if ends.near_mtu == most else ends.far
    remedy = (
        f"{most} is how some drivers write {least}, the header counted in: "
        f"if so, write `mtu: {least}` for {larger}; if not, set it to {least}."
    )
    return f"{most - least} octets apart, as much as an Ethernet header takes", remedy


MTU_DIFFERS = Rule(
    name="mtu-differs",
    family="addresses",
    severity="warn",
    subjects=_ends,
    judge=_judge_differs,
    what="A seat and its storage that are set to packets of different size.",
    why="They settle on the smaller one, so the larger setting gains nothing, and what does not settle it is lost.",
    todo="Set both ends to the same. Some makers count the header: what they call 9014 is the 9000 of others.",
)


def taken_for_granted(facts: Facts) -> Iterator[str]:
    """What passes large packets only because its network is planned for them, in a sentence for each size and network.

    A switch that gives no size of its own counts as planned.
    """
    through: dict[tuple[int, tuple[str, ...]], dict[str, None]] = {}
    for ends in _ends(facts):
        used = min(ends.known)
        bare = _bare(ends.path, facts) if used > LEAST_MTU else ()
        planned = _planned_for(ends.path, used, facts) if bare else ()
        if planned:
            devices = through.setdefault((used, tuple(planned)), {})
            devices.update(dict.fromkeys(port.device for port in bare))
    for (used, networks), devices in through.items():
        yield f"packets of {used} octets through {listed(devices)}, as planned for {listed(networks)}"
