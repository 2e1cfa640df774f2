"""The spanning tree: which links the switches that run one leave blocked, by the published tie-breaks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from netaudit.model.plan import Plan, Switch
from netaudit.network.election import BridgeId, Outcome, Wire, elect, possible_roots
from netaudit.network.forwarding import Edge, Forwarding, bond_of
from netaudit.network.islands import Islands
from netaudit.network.links import Link
from netaudit.network.rings import find_rings
from netaudit.standards.trees import default_priority, tree_cost

MOST_ROOTS = 32
"""Switches that may each be the root; of more than that every outcome is taken to be possible."""

Why = Literal["root", "cost", "bond"]


@dataclass(frozen=True, slots=True)
class Blocked:
    """A link that the tree keeps closed."""

    link: Link
    detour: tuple[Link, ...]
    """The links by which frames go instead; empty for a cord from a switch back into itself."""


@dataclass(frozen=True, slots=True)
class OpenMesh:
    """Rings that hang together, in which the plan does not settle what is blocked."""

    links: tuple[Link, ...]
    devices: tuple[str, ...]
    why: Why
    """root: the plan does not tell the switches apart · cost: the rate of a link is unknown, or the scale of costs has
    none for it · bond: makers count the cost of a bond in two ways, and it matters."""
    closed: tuple[Link, ...] = ()
    """Those of its links that are blocked whatever is unknown."""


@dataclass(frozen=True, slots=True)
class Tree:
    """What the spanning trees of a plan do to its rings."""

    blocked: tuple[Blocked, ...] = ()
    open: tuple[OpenMesh, ...] = ()

    @property
    def closed(self) -> tuple[Link, ...]:
        """Every link that no frame passes, whatever is unknown."""
        return (*(one.link for one in self.blocked), *(link for mesh in self.open for link in mesh.closed))


def find_tree(plan: Plan, graph: Forwarding) -> Tree:
    """One tree for each part of a plan whose switches all run one, whatever networks its links carry.

    A ring on which any other device forwards has no tree; frames go round it.
    """
    wires = list(_wires(plan, graph))
    rings = find_rings([(wire.near, wire.far) for wire in wires])
    if not rings:
        return Tree()
    parts: Islands[int] = Islands()
    for wire in wires:
        parts.join(wire.near, wire.far)
    of_part: dict[int, list[Wire]] = {}
    for wire in wires:
        of_part.setdefault(parts.of(wire.near), []).append(wire)
    ids = _identities(plan, graph)
    outcomes: dict[int, Sequence[tuple[Outcome, ...]]] = {}
    blocked: list[Blocked] = []
    still_open: list[OpenMesh] = []
    for mesh in _meshes(rings):
        part = parts.of(wires[mesh[0]].near)
        if part not in outcomes:
            outcomes[part] = _outcomes(of_part[part], ids)
        settled = _settled([wires[number] for number in mesh], outcomes[part])
        if isinstance(settled, frozenset):
            blocked.extend(_blocked([wires[number] for number in mesh], settled))
        else:
            still_open.append(_open_mesh(graph, [wires[number] for number in mesh], settled, outcomes[part]))
    return Tree(tuple(blocked), tuple(still_open))


def _wires(plan: Plan, graph: Forwarding) -> Iterator[Wire]:
    """The links between switches that run a spanning tree, each once."""
    treed = [isinstance(device := plan.devices[name], Switch) and device.spanning_tree is True for name in graph.names]
    numbers = {
        (name, port): number
        for name, runs in zip(graph.names, treed, strict=True)
        if runs
        for number, port in enumerate(plan.devices[name].ports, 1)
    }
    seen: set[int] = set()
    for own, edges in enumerate(graph.edges):
        for edge in edges if treed[own] else ():
            other = edge.bridge
            if other is None or not treed[other] or id(edge.link) in seen:
                continue
            number = len(seen)
            seen.add(id(edge.link))
            alone, together = _costs(plan, edge)
            yield Wire(
                number=number,
                link=edge.link,
                near=own,
                far=other,
                near_port=numbers[edge.out_port],
                far_port=numbers[edge.in_port],
                cost=alone,
                bond_cost=together,
            )


def _costs(plan: Plan, edge: Edge) -> tuple[int | None, int | None]:
    """The cost of a link by its own rate and, where it stands for a bond, by that of all members together."""
    rate = edge.link.agreed_bit_per_s
    if rate is None:
        return None, None
    members = min(_bonded(plan, port.device, port.port) for port in (edge.out_port, edge.in_port))
    return tree_cost(rate, plan.tree_costs), tree_cost(rate * members, plan.tree_costs)


def _bonded(plan: Plan, device: str, port: str) -> int:
    """Members of the bond that a port is in; 1 without one."""
    bond = bond_of(plan.devices[device]).get(port)
    return 1 if bond is None else len(plan.devices[device].bonds[bond].ports)


def _identities(plan: Plan, graph: Forwarding) -> Mapping[int, BridgeId]:
    found = {}
    for bridge, name in enumerate(graph.names):
        device = plan.devices[name]
        if isinstance(device, Switch):
            priority = default_priority().count if device.priority is None else device.priority
            found[bridge] = BridgeId(priority, device.mac)
    return found


def _meshes(rings: Iterable[Sequence[int]]) -> Iterable[Sequence[int]]:
    """The numbers of the links of rings that share any, in order."""
    islands: Islands[int] = Islands()
    numbers: dict[int, None] = {}
    for ring in rings:
        for number in ring:
            numbers[number] = None
            islands.join(number, ring[0])
    meshes: dict[int, list[int]] = {}
    for number in sorted(numbers):
        meshes.setdefault(islands.of(number), []).append(number)
    return meshes.values()


def _outcomes(wires: Sequence[Wire], ids: Mapping[int, BridgeId]) -> Sequence[tuple[Outcome, ...]]:
    """What may come of the elections in one part: with each way of counting bonds, an outcome for each possible root.

    Empty where too many switches may be the root.
    """
    members = {bridge for wire in wires for bridge in (wire.near, wire.far)}
    roots = possible_roots({bridge: ids[bridge] for bridge in members})
    if len(roots) > MOST_ROOTS:
        return ()
    together = [wire._replace(cost=wire.bond_cost) for wire in wires]
    countings = [wires] if together == list(wires) else [wires, together]
    return [tuple(elect(counting, ids, root) for root in roots) for counting in countings]


def _settled(mesh: Sequence[Wire], countings: Sequence[tuple[Outcome, ...]]) -> frozenset[int] | Why:
    """The numbers of the links that stay open to frames whatever is unknown, or why that does not follow."""
    if any(wire.cost is None or wire.bond_cost is None for wire in mesh):
        return "cost"
    numbers = frozenset(wire.number for wire in mesh)
    active = [_agreed(numbers, outcomes) for outcomes in countings]
    if not active or None in active:
        return "root"
    return active[0] or frozenset() if len(set(active)) == 1 else "bond"


def _agreed(numbers: frozenset[int], outcomes: Sequence[Outcome]) -> frozenset[int] | None:
    """The links of a mesh that are active in every outcome; None where outcomes differ."""
    sure = {numbers & outcome.sure for outcome in outcomes}
    doubtful = any(numbers & outcome.maybe for outcome in outcomes)
    return None if doubtful or len(sure) > 1 else sure.pop()


def _blocked(mesh: Sequence[Wire], active: frozenset[int]) -> Iterator[Blocked]:
    onward: dict[int, list[tuple[int, Link]]] = {}
    for wire in mesh:
        if wire.number in active:
            onward.setdefault(wire.near, []).append((wire.far, wire.link))
            onward.setdefault(wire.far, []).append((wire.near, wire.link))
    for wire in mesh:
        if wire.number not in active:
            yield Blocked(wire.link, _way(onward, wire.near, wire.far))


def _way(onward: Mapping[int, Sequence[tuple[int, Link]]], start: int, goal: int) -> tuple[Link, ...]:
    """The links of a tree from one bridge to another."""
    reached: dict[int, tuple[Link, ...]] = {start: ()}
    front = [start]
    while goal not in reached:
        bridge = front.pop()
        for other, link in onward.get(bridge, ()):
            if other not in reached:
                reached[other] = (*reached[bridge], link)
                front.append(other)
    return reached[goal]


def _open_mesh(graph: Forwarding, mesh: Sequence[Wire], why: Why, countings: Sequence[tuple[Outcome, ...]]) -> OpenMesh:
    bridges = dict.fromkeys(bridge for wire in mesh for bridge in (wire.near, wire.far))
    passed = {number for outcomes in countings for outcome in outcomes for number in (*outcome.sure, *outcome.maybe)}
    known = bool(countings) and why != "cost"
    closed = tuple(wire.link for wire in mesh if known and wire.number not in passed)
    return OpenMesh(tuple(wire.link for wire in mesh), tuple(graph.names[bridge] for bridge in bridges), why, closed)
