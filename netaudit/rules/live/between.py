"""Live rules about what stands between: a tunnel that takes the route, a router on the way."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.citation import OBSERVED
from netaudit.listing import listed
from netaudit.model.finding import Judgement
from netaudit.model.machine_state import Route
from netaudit.model.observation import FarAddress
from netaudit.model.situation import Situation, Use
from netaudit.model.vocabulary import Address
from netaudit.rules.live.remedies import (
    is_host_route,
    own_route_text,
    planned_mount,
    special_route,
    without_host_route,
)
from netaudit.rules.live.roads import evidence_text, leaving, with_rate
from netaudit.rules.live.sources import observed
from netaudit.rules.rule import Rule
from netaudit.rules.situation import address_place, interface_place


def _judge_tunnel(use: Use, situation: Situation) -> Judgement:
    if not situation.through_tunnel(use.interface):
        return None
    under = situation.seen.interfaces[use.interface].parent
    over = "" if under is None else f" over {under}"
    return TUNNEL_TAKES_ROUTE.finding(
        interface_place(use.interface),
        message=f"the traffic to {situation.storage_name} goes into the tunnel {use.interface}{over} instead of "
        f"straight to the storage; {evidence_text(use)}",
        remedy=_past_the_tunnel(use.remote, situation),
        source=OBSERVED,
    )


def _past_the_tunnel(remote: Address | None, situation: Situation) -> str:
    far = situation.address(remote)
    route = None if far is None else far.route
    if route is not None and is_host_route(route, situation):
        return _past_the_host_route(route, situation)
    prefix = None if route is None else route.prefix
    whole = prefix is None or prefix.prefixlen == 0
    what = str(remote or situation.storage_name) if whole else str(prefix)
    return (
        f"Take {what} out of what the VPN carries, in its own settings (split tunnel, excluded networks), and connect "
        "it again; what lies there can then be reached only in this room. Switching the VPN off while you edit does it "
        "too, at the cost of all that needs it: mail, licences, remote drives, and the protection it gives."
    )


def _past_the_host_route(route: Route, situation: Situation) -> str:
    """How to take out a route to the storage alone, which the tunnel's own program need not have made."""
    host = "" if route.prefix is None else str(route.prefix.network_address)
    return (
        f"{own_route_text(route)}. If somebody made it by hand, {without_host_route(route, situation)}; if it comes "
        f"back, take {host} out of what the program behind {route.interface} carries, in its own settings (split "
        "tunnel, excluded networks)."
    )


def way_first(address: Address | None, situation: Situation) -> str:
    """What to do before an address can be used that is itself routed astray; empty where it goes the right way."""
    far = situation.address(address)
    if far is None or far.route is None or far.is_here:
        return ""
    name, planned = far.route.interface, situation.planned_names
    if situation.through_tunnel(name):
        return (
            f"First: {address} itself leads into the tunnel {name}. {_past_the_tunnel(address, situation)} After that: "
        )
    if not planned or situation.is_planned(name):
        return ""
    special = special_route(situation, far.route)
    what = special or f"Bring {situation.planned_way} to life with an address beside it, and keep {name} out of there. "
    return f"First: {address} itself leads out by {with_rate(name, situation)}. {what}After that: "


TUNNEL_TAKES_ROUTE = Rule(
    name="tunnel-takes-route",
    family="live",
    severity="fail",
    subjects=leaving,
    judge=_judge_tunnel,
    what="The storage's traffic going into a VPN or another tunnel that the plan does not mean.",
    why="A tunnel's narrow or equal route beats the cable on the desk, and the pictures travel by way of its far end.",
    todo="Take the storage's subnet out of what the tunnel carries; leave the tunnel itself on.",
    sources=observed,
)


def _roads_used(situation: Situation) -> Iterator[FarAddress]:
    """Addresses in use whose way may be direct: any but those that the plan itself reaches through a router."""
    road = situation.planned_road
    if road is not None and road.routed:
        return
    for far in situation.used_addresses:
        if not far.is_here and (road is not None or far.address.is_private):
            yield far


def _judge_router(far: FarAddress, situation: Situation) -> Judgement:
    gateway = None if far.route is None else far.route.gateway
    routers = far.routers or (() if gateway is None else (gateway,))
    if not routers or far.route is None:
        return None
    name = far.route.interface
    which = "a router stands" if len(routers) == 1 else f"{len(routers)} routers stand"
    return ROUTER_BETWEEN.finding(
        address_place(far.address),
        interface_place(name),
        message=f"{which} between this machine and {far.address}: {listed(routers)}, reached by "
        f"{with_rate(name, situation)}",
        remedy=_round_the_router(far, situation),
        source=OBSERVED,
    )


def _round_the_router(far: FarAddress, situation: Situation) -> str:
    port, planned = situation.planned_port, planned_mount(situation)
    if port is not None and port.addresses:
        own = listed(port.addresses)
        return (
            f"Give {situation.planned_way} its planned address {own}, in the storage's own subnet"
            f"{'' if planned in (None, far.address) else f', and mount by {planned}'}: then no router is needed."
        )
    return (
        f"Put this machine and the storage in one subnet: give the wired port an address in that of {far.address}, or "
        "the storage one here. Look too whether both are in the same VLAN of the switch."
    )


ROUTER_BETWEEN = Rule(
    name="router-between",
    family="live",
    severity="warn",
    subjects=_roads_used,
    judge=_judge_router,
    what="A router on the way to a storage of this room that should be reached directly.",
    why="Most routers of a small room forward less than 1 Gb/s, and everybody's traffic meets in them.",
    todo="Give both ends addresses in one subnet, and look whether both are in the same VLAN.",
    sources=observed,
)
