"""Live rules about the road: which port carries the storage's traffic, and what stands in between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from netaudit.citation import OBSERVED
from netaudit.model.finding import Judgement
from netaudit.model.machine_state import Interface
from netaudit.model.observation import FarAddress
from netaudit.model.place import port_place
from netaudit.model.situation import Situation, Use
from netaudit.rules.live.between import way_first
from netaudit.rules.live.remedies import (
    marked,
    only_the_cable,
    planned_mount,
    plug_in,
    prefer,
    rank_explained,
    remount,
    special_route,
)
from netaudit.rules.live.roads import evidence_text, leaving, wires, with_rate
from netaudit.rules.live.sources import observed
from netaudit.rules.rule import Rule
from netaudit.rules.situation import interface_place
from netaudit.standards.metrics import service_ranks


def _uses(situation: Situation) -> Iterable[Use]:
    return leaving(situation)


def _judge_wireless(use: Use, situation: Situation) -> Judgement:
    if not situation.through_air(use.interface):
        return None
    port = situation.planned_port
    if port is not None and port.radio:
        return None
    wire = _better_wire(situation)
    if port is None and wire is None:
        return None
    far = situation.address(use.remote)
    ranks = rank_explained(situation, wire, use.interface)
    return TRAFFIC_ON_WIRELESS.finding(
        interface_place(use.interface),
        *(() if wire is None else (interface_place(wire.name),)),
        message=f"the traffic to {situation.storage_name} goes through the air, by "
        f"{with_rate(use.interface, situation)}, {_beside(wire, situation)}; {evidence_text(use)}",
        remedy=_off_the_air(use, wire, far, situation, ranks=ranks),
        source=service_ranks()[False].source if ranks else OBSERVED,
    )


def _better_wire(situation: Situation) -> Interface | None:
    """The wired interface that should carry the traffic: the planned one, else one that is alive."""
    if situation.planned_road is not None:
        return situation.planned_interface
    return max(wires(situation), key=lambda state: state.rate_bit_per_s or 0, default=None)


def _beside(wire: Interface | None, situation: Situation) -> str:
    if wire is None:
        return f"and not by {situation.planned_way} as planned"
    if wire.carrier is False or wire.up is False:
        return f"while {situation.named(wire.name)} has no link"
    return f"while {with_rate(wire.name, situation)} stands idle on its cable"


def _off_the_air(use: Use, wire: Interface | None, far: FarAddress | None, situation: Situation, *, ranks: bool) -> str:
    special = _special(use, far, situation)
    if wire is None:
        return (
            f"No interface of this machine is recognised as {situation.planned_way}: plug in its adapter and its "
            f"cable, and leave Wi-Fi on. If it is there already, {plug_in(situation)}."
        )
    why = (
        f" The service order did not help because macOS ranks a service without a router last, its subnet's route "
        f"included: in a subnet that {use.interface} shares, {wire.name} loses wherever it stands in the order."
        if ranks
        else ""
    )
    if wire.carrier is False or wire.up is False:
        return f"Bring the link of {wire.name} back first; the traffic can only follow it."
    settled = f" {prefer(situation, wire.name, use.interface)}" if not special and _leads_to(far, wire) else ""
    planned = planned_mount(situation)
    first = way_first(planned, situation) if planned != use.remote else ""
    return f"{first}{_first(special, only_the_cable(situation, wire, use.interface))}{why}{settled}"


def _leads_to(far: FarAddress | None, wire: Interface) -> bool:
    """Whether an interface has an address in the subnet of the storage's, so that it could win against another."""
    return far is not None and any(far.address in each.network for each in wire.addresses)


def _special(use: Use, far: FarAddress | None, situation: Situation) -> str:
    """What sends the traffic there beside the table of routes, and how to take it out; empty where nothing does."""
    route = None if far is None else far.route
    return marked(situation, use.interface) if use.evidence == "counters" else special_route(situation, route)


def _first(special: str, rest: str) -> str:
    """A remedy behind the step that takes a special route out, which may be enough."""
    return f"{special}Should it still go astray after that: {rest[0].lower()}{rest[1:]}" if special else rest


TRAFFIC_ON_WIRELESS = Rule(
    name="traffic-on-wireless",
    family="live",
    severity="fail",
    subjects=_uses,
    judge=_judge_wireless,
    what="The storage's traffic going through the air while a cable is planned, or is plugged in and alive.",
    why="Wi-Fi carries a part of what it promises, shares it with every phone, and stutters when somebody walks past.",
    todo="Leave Wi-Fi on, give the storage a subnet that only the cable has, and mount it by its address there.",
    sources=lambda: (OBSERVED, service_ranks()[False].source),
)


def _wired_uses(situation: Situation) -> Iterator[Use]:
    """Uses of a cable, where the plan means a cable too."""
    port = situation.planned_port
    for use in leaving(situation):
        beside = situation.through_air(use.interface) or situation.through_tunnel(use.interface)
        if port is not None and not port.radio and not beside:
            yield use


def _judge_port(use: Use, situation: Situation) -> Judgement:
    if situation.is_planned(use.interface):
        return None
    if not situation.planned_names and use.interface not in situation.plan_ports:
        port = situation.planned_port
        places = (interface_place(use.interface), *(() if port is None else (port_place(port.port),)))
        return TRAFFIC_ON_OTHER_PORT.not_checked(
            *places,
            reason=f"Which interface of this machine is {situation.planned_way} does not follow from the plan",
            decides=plug_in(situation),
        )
    planned = situation.planned_interface
    far = situation.address(use.remote)
    special = _special(use, far, situation)
    return TRAFFIC_ON_OTHER_PORT.finding(
        interface_place(use.interface),
        *(() if planned is None else (interface_place(planned.name),)),
        message=f"the traffic to {situation.storage_name} goes by {with_rate(use.interface, situation)} instead of "
        f"{situation.planned_way if planned is None else with_rate(planned.name, situation)}, which is planned; "
        f"{evidence_text(use)}",
        remedy=_first(special, _to_the_planned(use, planned, situation, prefers=not special)),
        source=OBSERVED,
    )


def _to_the_planned(use: Use, planned: Interface | None, situation: Situation, *, prefers: bool) -> str:
    expected = situation.expected
    address = planned_mount(situation)
    if expected is not None and address is not None and use.remote not in expected.planned_addresses:
        first = way_first(address, situation)
        return f"{first}Mount {situation.storage_name} by its planned address: {remount(situation, address)}."
    if planned is None:
        return f"Plug in {situation.planned_way}, or mount again once it is there."
    apart = f"Keep {use.interface} out of the subnet of {situation.storage_name}, and {remount(situation, address)}."
    wins = prefers and _leads_to(situation.address(use.remote), planned)
    return f"{apart} {prefer(situation, planned.name, use.interface)}" if wins else apart


TRAFFIC_ON_OTHER_PORT = Rule(
    name="traffic-on-other-port",
    family="live",
    severity="fail",
    subjects=_wired_uses,
    judge=_judge_port,
    what="The storage's traffic going by another wired port of this machine than the plan means.",
    why="A 1 Gb/s port at the back carries a tenth of the fast one, and nothing on the screen tells which is used.",
    todo="Keep the other port out of the storage's subnet, and mount again by the planned address.",
    sources=observed,
)
