"""What stands between: a tunnel that takes the route, a router on the way."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Network, IPv6Address

import pytest
from deskwork import found, only, passes, places, planned, planned_port, silent, situation

from netaudit.model.machine_state import Interface, Route
from netaudit.rules.live.between import ROUTER_BETWEEN, TUNNEL_TAKES_ROUTE, way_first
from netaudit.rules.live.desk import BY_WIRE, EXPECTED, SEEN, VAULT, with_far, with_interface
from netaudit.rules.live.examples import example_of

DUG = example_of("tunnel-takes-route").seen
ROUTED = example_of("router-between").seen
GATE = IPv4Address("10.44.21.1")


def test_a_tunnel_that_takes_the_route_is_told_with_the_port_beneath() -> None:
    finding = only(TUNNEL_TAKES_ROUTE, DUG)

    assert ["interface tun0"] == places(finding)
    assert (
        "the traffic to vault goes into the tunnel tun0 over wlan0 instead of straight to the storage; that is where a "
        "new connection would go" == finding.message
    )
    assert finding.remedy.startswith("Take 10.44.0.0/16 out of what the VPN carries")
    assert "at the cost of all that needs it" in finding.remedy


def test_a_route_to_the_storage_alone_is_not_called_the_vpns() -> None:
    """Anybody may have made it: it is told as what it is, with the step that takes it out."""
    narrow = Route("tun0", prefix=IPv4Network("10.44.20.10/32"))
    by_hand = with_far(DUG, route=narrow)

    assert (
        "A route of its own to this one host leads to tun0: which program made it is not known, and VPN clients do so. If "
        "somebody made it by hand, `sudo ip route del 10.44.20.10/32 dev tun0` takes it out; if it comes back, take "
        "10.44.20.10 out of what the program behind tun0 carries, in its own settings (split tunnel, excluded networks)."
        == only(TUNNEL_TAKES_ROUTE, by_hand).remedy
    )
    windows = only(TUNNEL_TAKES_ROUTE, by_hand._replace(system="windows", manager=None)).remedy
    assert "`route delete 10.44.20.10`, as administrator, takes it out" in windows


def test_macos_makes_routes_to_single_hosts_by_itself() -> None:
    narrow = Route("tun0", prefix=IPv4Network("10.44.20.10/32"))
    seen = with_far(DUG, route=narrow)._replace(system="macos", manager=None)

    assert only(TUNNEL_TAKES_ROUTE, seen).remedy.startswith("Take 10.44.20.10/32 out of what the VPN carries")


def test_a_tunnel_strikes_without_a_plan_too() -> None:
    assert found(TUNNEL_TAKES_ROUTE, DUG, None)


def test_a_tunnel_that_takes_everything_is_asked_to_leave_out_the_storage_alone() -> None:
    tunnel = Interface("utun4", medium="tunnel")
    seen = with_far(with_interface(tunnel, DUG), route=Route("utun4", prefix=IPv4Network("0.0.0.0/0")))
    finding = only(TUNNEL_TAKES_ROUTE, seen)

    assert "the tunnel utun4 instead" in finding.message
    assert finding.remedy.startswith("Take 10.44.20.10 out of what")


def test_a_tunnel_to_an_address_that_nobody_routed_is_told_by_that_address() -> None:
    inside = SEEN.sessions[0]._replace(interface="tun0")
    for far in ((), (DUG.addresses[0]._replace(route=None),)):
        seen = DUG._replace(sessions=(inside,), addresses=far)
        assert only(TUNNEL_TAKES_ROUTE, seen).remedy.startswith("Take 10.44.20.10 out of what")


def test_a_tunnel_that_the_plan_means_is_left_alone() -> None:
    assert passes(TUNNEL_TAKES_ROUTE, DUG, planned_port("wire", interface="tun0"))


def test_a_tunnel_over_the_planned_port_is_not_the_planned_port() -> None:
    seen = with_interface(DUG.interfaces["tun0"]._replace(parent="en5"), DUG)

    assert found(TUNNEL_TAKES_ROUTE, seen)


def test_a_tunnel_beside_is_nobodys_business() -> None:
    assert passes(TUNNEL_TAKES_ROUTE, with_interface(Interface("tun0", medium="tunnel", parent="en5")))


def test_a_router_on_the_way_is_named_with_the_port_towards_it() -> None:
    finding = only(ROUTER_BETWEEN, ROUTED)

    assert ["address 10.44.20.10", "interface en5"] == places(finding)
    assert (
        "a router stands between this machine and 10.44.20.10: 10.44.21.1, reached by en5 (cut-1/wire) at 10 Gb/s "
        "(1250 MB/s)" == finding.message
    )
    assert (
        "Give en5 (cut-1/wire) its planned address 10.44.20.11, in the storage's own subnet: then no router is needed."
        == finding.remedy
    )


def test_several_routers_are_counted_and_named() -> None:
    seen = with_far(ROUTED, routers=(GATE, IPv4Address("10.44.22.1")))

    assert (
        "2 routers stand between this machine and 10.44.20.10: 10.44.21.1 and 10.44.22.1,"
        in only(ROUTER_BETWEEN, seen).message
    )


@pytest.mark.parametrize("routers", [None, ()])
def test_a_gateway_alone_is_enough(routers: tuple[()] | None) -> None:
    assert "10.44.21.1" in only(ROUTER_BETWEEN, with_far(ROUTED, routers=routers)).message


def test_a_direct_way_passes() -> None:
    assert passes(ROUTER_BETWEEN, SEEN)
    assert passes(ROUTER_BETWEEN, with_far(routers=None))


def test_a_way_that_the_plan_routes_is_not_judged() -> None:
    assert silent(ROUTER_BETWEEN, ROUTED, planned(routed=True))


def test_without_a_plan_only_a_private_address_should_be_near() -> None:
    assert found(ROUTER_BETWEEN, ROUTED, None)
    public = ROUTED._replace(addresses=(ROUTED.addresses[0]._replace(address=IPv4Address("203.0.114.9")),))
    assert silent(ROUTER_BETWEEN, public, None)
    unique_local = IPv6Address("fd44:20::10")
    assert found(ROUTER_BETWEEN, ROUTED._replace(addresses=(ROUTED.addresses[0]._replace(address=unique_local),)), None)


def test_without_a_plan_one_subnet_is_advised() -> None:
    assert only(ROUTER_BETWEEN, ROUTED, None).remedy.startswith("Put this machine and the storage in one subnet: ")


def test_by_another_address_the_planned_one_is_named() -> None:
    other = IPv4Address("10.99.0.10")
    seen = ROUTED._replace(addresses=(ROUTED.addresses[0]._replace(address=other),))

    assert f", and mount by {VAULT}: then no router is needed." in only(ROUTER_BETWEEN, seen).remedy


def test_this_machine_itself_lies_behind_no_router() -> None:
    assert silent(ROUTER_BETWEEN, with_far(route=BY_WIRE._replace(local=True)))
    assert silent(ROUTER_BETWEEN, SEEN._replace(addresses=(), sessions=()), EXPECTED)


def test_an_address_that_is_itself_in_a_tunnel_needs_that_out_of_the_way_first() -> None:
    first = way_first(VAULT, situation(DUG))

    assert first.startswith(
        "First: 10.44.20.10 itself leads into the tunnel tun0. Take 10.44.0.0/16 out of what the VPN"
    )
    assert first.endswith("After that: ")
    assert first == way_first(VAULT, situation(DUG, None))


def test_an_address_that_is_itself_routed_by_another_port_is_brought_home_first() -> None:
    seen = with_far(route=Route("en6", prefix=IPv4Network("10.44.20.0/24")))

    assert (
        "First: 10.44.20.10 itself leads out by en6 (cut-1/back) at 1 Gb/s (125 MB/s). Bring en5 (cut-1/wire) to life "
        "with an address beside it, and keep en6 out of there. After that: " == way_first(VAULT, situation(seen))
    )
    assert "" == way_first(VAULT, situation(seen, None))
    narrow = with_far(route=Route("en6", prefix=IPv4Network("10.44.20.10/32")))
    assert "`sudo ip route del 10.44.20.10/32 dev en6` takes it out" in way_first(VAULT, situation(narrow))


@pytest.mark.parametrize("change", [{}, {"route": None}, {"route": Route("lo", local=True)}])
def test_an_address_that_goes_the_right_way_needs_nothing_first(change: dict[str, object]) -> None:
    assert "" == way_first(VAULT, situation(with_far(**change))) == way_first(GATE, situation(SEEN))
