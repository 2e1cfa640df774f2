"""Which port carries the storage's traffic: not Wi-Fi where a cable is meant, and no other cable than the planned one."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Interface, IPv4Network

import pytest
from deskwork import found, gaps, only, passes, places, planned_port, silent

from netaudit.citation import OBSERVED
from netaudit.model.machine_state import Channel, Interface, Route
from netaudit.model.observation import Observation
from netaudit.model.situation import Situation, Use
from netaudit.rules.live.desk import (
    BY_WIRE,
    EN5,
    EN6,
    EXPECTED,
    FAR,
    MOVED,
    OLD_SESSION,
    SEEN,
    SESSION,
    SLOW_FAR,
    UNSEEN,
    VAULT,
    WLAN0,
    with_far,
    with_growth,
    with_interface,
    with_wire,
)
from netaudit.rules.live.examples import example_of
from netaudit.rules.live.route import TRAFFIC_ON_OTHER_PORT, TRAFFIC_ON_WIRELESS
from netaudit.rules.rule import Rule
from netaudit.standards.metrics import service_ranks

ON_AIR = example_of("traffic-on-wireless").seen
ON_BACK = example_of("traffic-on-other-port").seen


def routed(route: Route, seen: Observation = SEEN) -> Observation:
    """A desk without a session, whose new connections would take a route."""
    return with_far(seen._replace(sessions=(), timings=()), route=route)


def test_traffic_through_the_air_beside_a_live_cable_is_told_with_both_rates() -> None:
    finding = only(TRAFFIC_ON_WIRELESS, ON_AIR)

    assert ["interface wlan0", "interface en5"] == places(finding)
    assert (
        "the traffic to vault goes through the air, by wlan0 (cut-1/air), Wi-Fi at 866 Mb/s (108 MB/s), while en5 "
        "(cut-1/wire) at 10 Gb/s (1250 MB/s) stands idle on its cable; that is where a new connection would go"
        == finding.message
    )
    assert OBSERVED == finding.source


def test_wifi_is_left_on_by_the_first_advice_and_goes_back_to_its_own_network() -> None:
    assert only(TRAFFIC_ON_WIRELESS, ON_AIR).remedy.startswith(
        "Leave Wi-Fi on, but in its own network (office, 192.168.44.0/24): it has an address in the subnet of vault, "
        "where the plan has only the cable. Then eject the share and mount it again by 10.44.20.10. Or let en5 win: "
    )


def test_without_a_plan_a_subnet_is_proposed_that_nobody_uses() -> None:
    remedy = only(TRAFFIC_ON_WIRELESS, ON_AIR, None).remedy

    assert remedy.startswith(
        "Leave Wi-Fi on for the internet, and give vault a way that only the cable has: a subnet of its own without a "
        "gateway, such as 10.55.30.0/24, with 10.55.30.10 on the storage's fast port and 10.55.30.11 on en5 (`nmcli "
    )
    assert "; then eject the share and mount it again by 10.55.30.10." in remedy


@pytest.mark.parametrize(
    ("change", "strikes"),
    [
        ({}, True),
        ({"carrier": False}, False),
        ({"carrier": None}, False),
        ({"addresses": ()}, False),
        ({"addresses": (IPv4Interface("169.254.9.9/16"),)}, True),
        ({"medium": "virtual"}, False),
    ],
)
def test_without_a_plan_only_a_cable_that_is_alive_and_has_an_address_is_missed(
    change: dict[str, object], strikes: bool
) -> None:
    seen = with_wire(ON_AIR, **change)
    seen = with_interface(EN6._replace(carrier=False), seen)

    assert strikes == bool(found(TRAFFIC_ON_WIRELESS, seen, None))


def test_the_fastest_of_several_cables_is_named() -> None:
    slow_first = ON_AIR._replace(interfaces={name: ON_AIR.interfaces[name] for name in ("en6", "en5", "wlan0")})

    assert ["interface wlan0", "interface en5"] == places(only(TRAFFIC_ON_WIRELESS, slow_first, None))


def test_a_port_that_the_plan_calls_radio_is_wireless_whatever_the_system_says() -> None:
    seen = with_interface(ON_AIR.interfaces["wlan0"]._replace(medium="wired"), ON_AIR)

    assert found(TRAFFIC_ON_WIRELESS, seen)
    assert not found(TRAFFIC_ON_WIRELESS, seen, None)


def test_a_vlan_on_wifi_is_through_the_air_too() -> None:
    vlan = Interface("wlan0.20", medium="wired", carrier=True, parent="wlan0")
    seen = routed(Route("wlan0.20", prefix=BY_WIRE.prefix), with_interface(vlan))

    assert ["interface wlan0.20", "interface en5"] == places(only(TRAFFIC_ON_WIRELESS, seen))


def test_a_road_that_is_planned_through_the_air_is_left_alone() -> None:
    assert not found(TRAFFIC_ON_WIRELESS, ON_AIR, planned_port("wire", radio=True))


def test_traffic_on_the_planned_cable_passes_both_rules() -> None:
    assert passes(TRAFFIC_ON_WIRELESS, SEEN)
    assert passes(TRAFFIC_ON_OTHER_PORT, SEEN)


@pytest.mark.parametrize(
    ("seen", "evidence"),
    [
        (
            SEEN._replace(client=SEEN.client._replace(channels=(Channel("media", "wlan0", None, VAULT),))),
            "the file client itself reports it",
        ),
        (
            SEEN._replace(sessions=(OLD_SESSION,)),
            "the living session from 192.168.44.101 to 10.44.20.10 runs there",
        ),
        (ON_AIR, "that is where a new connection would go"),
    ],
)
def test_the_surest_evidence_is_named(seen: Observation, evidence: str) -> None:
    assert only(TRAFFIC_ON_WIRELESS, seen).message.endswith(f"; {evidence}")


def test_a_channel_that_stands_by_is_no_use() -> None:
    channels = (Channel("media", "wlan0", active=False), Channel("media", "en5"))

    assert passes(TRAFFIC_ON_WIRELESS, SEEN._replace(client=SEEN.client._replace(channels=channels)))


def test_a_planned_port_that_is_not_there_is_asked_for() -> None:
    seen = ON_AIR._replace(interfaces={"wlan0": ON_AIR.interfaces["wlan0"], "en6": EN6})
    finding = only(TRAFFIC_ON_WIRELESS, seen)

    assert ", and not by cut-1/wire as planned; " in finding.message
    assert (
        "No interface of this machine is recognised as cut-1/wire: plug in its adapter and its cable, and leave Wi-Fi on. "
        "If it is there already, give cut-1/wire its `interface:` or its `mac:` in the plan (en6 is on a cable here)."
        == finding.remedy
    )


@pytest.mark.parametrize("change", [{"carrier": False}, {"up": False}])
def test_a_dead_cable_comes_before_every_other_advice(change: dict[str, object]) -> None:
    finding = only(TRAFFIC_ON_WIRELESS, with_wire(ON_AIR, **change))

    assert ", while en5 (cut-1/wire) has no link; " in finding.message
    assert "Bring the link of en5 back first; the traffic can only follow it." == finding.remedy


def test_a_rate_that_is_not_known_or_made_up_is_not_told() -> None:
    seen = with_wire(with_interface(WLAN0._replace(rate_bit_per_s=None), ON_AIR), made_up_rate=True)

    assert (
        "by wlan0 (cut-1/air), Wi-Fi, while en5 (cut-1/wire) stands idle on its cable;"
        in only(TRAFFIC_ON_WIRELESS, seen).message
    )


def test_a_route_to_the_host_alone_is_named_before_all_else() -> None:
    route = Route("wlan0", gateway=IPv4Address("192.168.44.1"), prefix=IPv4Network("10.44.20.10/32"))

    assert only(TRAFFIC_ON_WIRELESS, routed(route)).remedy.startswith(
        "A route of its own to this one host leads to wlan0: which program made it is not known, and VPN clients do so; "
        "`sudo ip route del 10.44.20.10/32 via 192.168.44.1 dev wlan0` takes it out. Should it still go astray after that: leave Wi-Fi on"
    )


def test_a_policy_rule_is_named_by_its_table() -> None:
    remedy = only(TRAFFIC_ON_WIRELESS, routed(Route("wlan0", prefix=BY_WIRE.prefix, table="102"))).remedy

    assert remedy.startswith("A policy rule sends it there by table 102: find it with `ip rule show`")
    assert "Or let en5 win" not in remedy


@pytest.mark.parametrize("table", [None, "main", "254"])
def test_the_main_table_is_no_policy(table: str | None) -> None:
    remedy = only(TRAFFIC_ON_WIRELESS, routed(Route("wlan0", prefix=BY_WIRE.prefix, table=table))).remedy

    assert remedy.startswith("Leave Wi-Fi on")


def test_where_wifi_shares_no_subnet_the_planned_address_is_mounted() -> None:
    default = Route("wlan0", gateway=IPv4Address("192.168.44.1"), prefix=IPv4Network("0.0.0.0/0"))
    remedy = only(TRAFFIC_ON_WIRELESS, routed(default)).remedy

    assert remedy.startswith(
        "Leave Wi-Fi on, and use the planned address of vault: run `sudo umount /mnt/media`, then `sudo mount -t cifs "
        "//10.44.20.10/media /mnt/media` with the options it had."
    )


def test_a_port_that_leads_nowhere_near_the_storage_is_not_told_to_win() -> None:
    """The name gave an address in the office, where the cable has none: no metric would help."""
    remedy = only(TRAFFIC_ON_WIRELESS, SEEN._replace(sessions=(), addresses=(SLOW_FAR,))).remedy

    assert remedy.startswith("Leave Wi-Fi on, and use the planned address of vault: ")
    assert "en5 win" not in remedy


def test_a_port_with_one_address_of_several_near_the_storage_is_told_to_win() -> None:
    two = with_wire(ON_AIR, addresses=(*EN5.addresses, IPv4Interface("172.20.0.2/24")))

    assert "Or let en5 win: " in only(TRAFFIC_ON_WIRELESS, two).remedy


def test_another_cable_with_a_route_of_its_own_to_the_host_is_dealt_with_by_that_route_first() -> None:
    route = Route("en6", prefix=IPv4Network("10.44.20.10/32"))
    remedy = only(TRAFFIC_ON_OTHER_PORT, with_far(ON_BACK._replace(sessions=(), timings=()), route=route)).remedy

    assert remedy.startswith("A route of its own to this one host leads to en6")
    assert "Or let en5 win" not in remedy


def on_a_mac(order: tuple[str, ...]) -> Observation:
    return ON_AIR._replace(system="macos", manager=None, service_order=order)


def test_macos_is_told_why_its_service_order_did_not_help() -> None:
    finding = only(TRAFFIC_ON_WIRELESS, on_a_mac(("en5", "wlan0")))

    assert (
        "The service order did not help because macOS ranks a service without a router last, its subnet's route "
        "included: in a subnet that wlan0 shares, en5 loses wherever it stands in the order." in finding.remedy
    )
    assert service_ranks()[False].source == finding.source
    assert "read" == finding.source.standing


@pytest.mark.parametrize("order", [("wlan0", "en5"), ("en5",), ("wlan0",), ()])
def test_ranks_explain_nothing_where_the_order_itself_prefers_wifi_or_is_not_known(order: tuple[str, ...]) -> None:
    finding = only(TRAFFIC_ON_WIRELESS, on_a_mac(order))

    assert "ranks" not in finding.remedy
    assert OBSERVED == finding.source


def test_ranks_explain_nothing_in_different_subnets() -> None:
    seen = with_interface(WLAN0, on_a_mac(("en5", "wlan0")))

    assert "ranks" not in only(TRAFFIC_ON_WIRELESS, seen).remedy


def test_another_cable_than_the_planned_one_fails_and_both_are_named() -> None:
    finding = only(TRAFFIC_ON_OTHER_PORT, ON_BACK)

    assert ["interface en6", "interface en5"] == places(finding)
    assert (
        "the traffic to vault goes by en6 (cut-1/back) at 1 Gb/s (125 MB/s) instead of en5 (cut-1/wire) at 10 Gb/s "
        "(1250 MB/s), which is planned; that is where a new connection would go" == finding.message
    )
    assert finding.remedy.startswith(
        "Keep en6 out of the subnet of vault, and eject the share and mount it again by 10.44.20.10. Or let en5 win: "
    )


@pytest.mark.parametrize("expected", [None, EXPECTED._replace(road=None)])
def test_without_a_planned_road_no_cable_is_the_wrong_one(expected: object) -> None:
    assert silent(TRAFFIC_ON_OTHER_PORT, ON_BACK, expected)  # type: ignore[arg-type]


def test_wifi_and_tunnels_are_not_another_cable() -> None:
    assert silent(TRAFFIC_ON_OTHER_PORT, ON_AIR)
    assert silent(TRAFFIC_ON_OTHER_PORT, example_of("tunnel-takes-route").seen)


def test_where_the_air_is_planned_a_cable_is_welcome() -> None:
    assert silent(TRAFFIC_ON_OTHER_PORT, ON_BACK, planned_port("wire", radio=True))


@pytest.mark.parametrize("name", ["en5.20", "br0"])
def test_a_vlan_or_a_bridge_on_the_planned_port_is_the_planned_port(name: str) -> None:
    above = Interface(name, medium="virtual", carrier=True, parent="en5")
    seen = routed(Route(name, prefix=BY_WIRE.prefix), with_interface(above))

    assert passes(TRAFFIC_ON_OTHER_PORT, seen)


def test_a_bridge_that_bears_the_planned_address_is_recognised_by_it() -> None:
    bridge = Interface("br0", medium="virtual", addresses=EN5.addresses)
    seen = routed(Route("br0", prefix=BY_WIRE.prefix), with_interface(bridge, with_wire(addresses=())))

    assert passes(TRAFFIC_ON_OTHER_PORT, seen, planned_port("wire", interface=None))


def test_an_interface_that_the_plan_does_not_recognise_is_not_judged_where_the_planned_one_is_not_either() -> None:
    expected = planned_port("wire", interface="en7", addresses=())
    (gap,) = gaps(TRAFFIC_ON_OTHER_PORT, SEEN, expected)

    assert ["interface en5", "port cut-1/wire"] == places(gap)
    assert "Which interface of this machine is cut-1/wire does not follow from the plan" == gap.reason
    assert "give cut-1/wire its `interface:` or its `mac:` in the plan (en5 and en6 are on a cable here)" == gap.decides


def test_another_port_of_the_plan_is_the_wrong_one_even_where_the_planned_one_is_not_recognised() -> None:
    finding = only(TRAFFIC_ON_OTHER_PORT, ON_BACK, planned_port("wire", interface="en7", addresses=()))

    assert ["interface en6"] == places(finding)
    assert "instead of cut-1/wire, which is planned" in finding.message
    assert "Plug in cut-1/wire, or mount again once it is there." == finding.remedy


def test_an_unknown_interface_is_the_wrong_one_where_the_planned_one_is_recognised() -> None:
    seen = routed(Route("en9", prefix=BY_WIRE.prefix), with_interface(EN6._replace(name="en9")))

    assert ["interface en9", "interface en5"] == places(only(TRAFFIC_ON_OTHER_PORT, seen))


def test_by_an_unplanned_address_the_planned_one_is_the_way_back() -> None:
    other = IPv4Address("192.168.44.10")
    seen = SEEN._replace(
        sessions=(SESSION._replace(interface="en6", remote=SESSION.remote._replace(address=other)),), timings=()
    )

    assert only(TRAFFIC_ON_OTHER_PORT, seen).remedy.startswith("Mount vault by its planned address: run `sudo umount ")


def test_a_storage_that_is_this_machine_itself_leaves_by_no_port() -> None:
    seen = routed(Route("lo", local=True), with_interface(Interface("lo", medium="virtual")))

    assert silent(TRAFFIC_ON_WIRELESS, seen)
    assert silent(TRAFFIC_ON_OTHER_PORT, seen)


def by_counters(name: str, **system: object) -> Observation:
    """The look-up names the wire, and of 40 packets due there 3 left; the others left by another port."""
    seen = UNSEEN._replace(moved=MOVED._replace(sessions={}), **system)
    return with_growth(name, with_growth("en5", seen, sent_packets=3), sent_packets=50)


@pytest.mark.parametrize(("name", "rule"), [("en6", TRAFFIC_ON_OTHER_PORT), ("wlan0", TRAFFIC_ON_WIRELESS)])
def test_counters_prove_another_port_against_the_look_up(name: str, rule: Rule[Use, Situation]) -> None:
    finding = only(rule, by_counters(name))

    assert [f"interface {name}", "interface en5"] == places(finding)
    assert finding.message.endswith(
        "; the counters prove it: the look-up names en5, but of 40 packets due there 3 packets left, and 50 packets by "
        f"{name} and 60 packets by {'wlan0' if name == 'en6' else 'en6'}"
    )
    assert finding.remedy.startswith(
        f"Something beside the routes sends it out by {name}, most often a packet filter's mark: look in `sudo nft list "
        "ruleset`"
    )


def test_the_planned_address_that_is_to_be_mounted_instead_may_lead_into_a_tunnel_itself() -> None:
    tunnel = Interface("tun0", medium="tunnel", parent="wlan0")
    far = FAR._replace(route=Route("tun0", prefix=IPv4Network("10.44.0.0/16")))
    slow = SLOW_FAR._replace(route=Route("en6"))
    remedy = only(TRAFFIC_ON_OTHER_PORT, with_interface(tunnel, UNSEEN._replace(addresses=(slow, far)))).remedy
    by_air = only(TRAFFIC_ON_WIRELESS, with_interface(tunnel, UNSEEN._replace(addresses=(SLOW_FAR, far)))).remedy

    for text in (remedy, by_air):
        assert text.startswith("First: 10.44.20.10 itself leads into the tunnel tun0. Take 10.44.0.0/16 out of")
    assert "After that: Mount vault by its planned address" in remedy
    assert "After that: Leave Wi-Fi on" in by_air
