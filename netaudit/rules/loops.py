"""The rule of paths on rings: can a frame run round for ever."""

from __future__ import annotations

from collections.abc import Iterable

from netaudit.citation import PLAN
from netaudit.model.finding import Judgement
from netaudit.model.place import Place, cable_place
from netaudit.network.loops import Loop
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule
from netaudit.rules.words import listed


def _loops(facts: Facts) -> Iterable[Loop]:
    return facts.topology.loops


def _judge_loop(loop: Loop, facts: Facts) -> Judgement:
    if not loop.unprotected:
        return None
    others = [name for name in loop.devices if name not in loop.unprotected]
    cables = [cable for link in loop.links if link.channel is not None for cable in link.channel.cables]
    named = [network for network in loop.networks if network is not None]
    ring = f"A cord leads from {loop.devices[0]} back into itself" if len(loop.devices) == 1 else (
        f"Frames can run in a ring through {listed(loop.devices)}"
    )  # fmt: skip
    where = f" in {listed(named)}" if named else ""
    return LOOP_UNPROTECTED.finding(
        *(Place("device", name) for name in (*loop.unprotected, *others)),
        *(link.place for link in loop.links),
        *(cable_place(cable.name) for cable in cables),
        message=f"{ring}{where}, and {listed(loop.unprotected)} "
        f"{'does' if len(loop.unprotected) == 1 else 'do'} not run a spanning tree",
        remedy=f"Take out {cables[0].name if cables else loop.links[0].place}"
        + (", bond the links if both ends can," if len(loop.devices) == 2 else "")
        + f" or switch the spanning tree on in {listed(loop.unprotected)} and say so with `spanning_tree: true`.",
        source=PLAN,
    )


LOOP_UNPROTECTED = Rule(
    name="loop-unprotected",
    family="paths",
    severity="fail",
    subjects=_loops,
    judge=_judge_loop,
    what="A ring of switches, access points or bridging computers in one network, not all running a spanning tree.",
    why="One broadcast frame then runs round for ever, and every seat stops at once.",
    todo="Break the ring, bond the links, or run a spanning tree on every device of it.",
)
