"""The rule of paths on rings: can a frame run round for ever."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from netaudit.citation import PLAN
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.place import cable_place, device_place
from netaudit.network.loops import Loop
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule


class Mesh(NamedTuple):
    """Loops that hang together, told by one of them."""

    loop: Loop
    """The shortest that is unprotected, or else the first."""
    others: int
    """Loops beside it."""


def _meshes(facts: Facts) -> Iterable[Mesh]:
    loops: dict[int, list[Loop]] = {}
    for loop in facts.topology.loops:
        loops.setdefault(loop.mesh, []).append(loop)
    for mesh in loops.values():
        bare = [loop for loop in mesh if loop.unprotected]
        yield Mesh(min(bare, key=lambda loop: len(loop.links), default=mesh[0]), len(mesh) - 1)


def _judge_loop(mesh: Mesh, facts: Facts) -> Judgement:
    loop = mesh.loop
    if not loop.unprotected:
        return None
    others = [name for name in loop.devices if name not in loop.unprotected]
    cables = [cable for link in loop.links if link.channel is not None for cable in link.channel.cables]
    named = [network for network in loop.networks if network is not None]
    ring = f"A cord leads from {loop.devices[0]} back into itself" if len(loop.devices) == 1 else (
        f"Frames can run in a ring through {listed(loop.devices)}"
    )  # fmt: skip
    where = f" in {listed(named)}" if named else ""
    more = (
        f"; {mesh.others} more such {'ring hangs' if mesh.others == 1 else 'rings hang'} on it" if mesh.others else ""
    )
    return LOOP_UNPROTECTED.finding(
        *(device_place(name) for name in (*loop.unprotected, *others)),
        *(link.place for link in loop.links),
        *(cable_place(cable.name) for cable in cables),
        message=f"{ring}{where}, and {listed(loop.unprotected)} "
        f"{'does' if len(loop.unprotected) == 1 else 'do'} not run a spanning tree{more}",
        remedy=f"Take out {cables[0].name if cables else loop.links[0].place}"
        + (", bond the links if both ends can," if len(loop.devices) == 2 else "")
        + f" or switch the spanning tree on in {listed(loop.unprotected)} and say so with `spanning_tree: true`.",
        source=PLAN,
    )


LOOP_UNPROTECTED = Rule(
    name="loop-unprotected",
    family="paths",
    severity="fail",
    subjects=_meshes,
    judge=_judge_loop,
    what="A ring of switches, access points or bridging computers in one network, not all running a spanning tree.",
    why="One broadcast frame then runs round for ever, and every seat stops at once.",
    todo="Break the ring, bond the links, or run a spanning tree on every device of it.",
)
