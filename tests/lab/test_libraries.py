"""Where libraries and the kernel disagree about a machine: each disagreement is staged, so that a mended library shows.

The truth is what the counters of the ports say while connections are made; netaudit's own machine has to agree with it.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from asking import asked
from room import (
    EDIT_AIR_FLAT,
    EDIT_WIRE,
    STORE_FAST,
)
from scenario import MEDIA, seat
from scenarios import SCENARIOS
from stage import Stage, two_networks

WIRE, AIR = ["en5", EDIT_WIRE], ["wlan0", EDIT_AIR_FLAT]
ROUTER, OFF_SUBNET = "10.44.20.1", "10.44.99.10"


class Road(NamedTuple):
    """A road, and who is wrong about it."""

    stage: Callable[[Stage], object]
    truth: list[str]
    """Interface and source."""
    wrong: Mapping[str, list[str | None]]
    """Library to what it says instead."""
    address: str = STORE_FAST


def host_route_with_another_ports_source(stage: Stage) -> None:
    seat(stage, "wlan0", wire_metric=100, other_metric=600)
    stage.room.route(stage.edit, f"{STORE_FAST}/32", "wlan0", prefsrc=EDIT_WIRE)


def rule_on_destination(stage: Stage) -> None:
    seat(stage, "wlan0", wire_metric=100, other_metric=600)
    stage.room.rule(stage.edit, "wlan0", MEDIA, dst=STORE_FAST)


def behind_a_gateway(stage: Stage, *defaults: tuple[str, int]) -> None:
    """Two ports in one subnet, a router there, and default routes: interface and metric."""
    seat(stage, "wlan0", wire_metric=100, other_metric=600)
    stage.room.set_up(stage.store, "s10g", f"{ROUTER}/24", 9000)
    for name, metric in defaults:
        stage.room.route(stage.edit, "0.0.0.0/0", name, gateway=ROUTER, priority=metric)


def default_by_wifi(stage: Stage) -> None:
    behind_a_gateway(stage, ("wlan0", 100))


def two_defaults(stage: Stage) -> None:
    behind_a_gateway(stage, ("en5", 100), ("wlan0", 50))


def dead_wire_that_is_ignored(stage: Stage) -> None:
    """The kernel is told to pass by routes of a port without carrier (ip-sysctl: ignore_routes_with_linkdown)."""
    seat(stage, "wlan0", wire_metric=100, other_metric=600)
    stage.edit.sysctl("ipv4/conf/en5/ignore_routes_with_linkdown", 1)
    stage.room.pull("en5")
    stage.wait(0.1)


ROADS = {
    "host route, source of another port": Road(
        host_route_with_another_ports_source, ["wlan0", EDIT_WIRE], {"udp": WIRE}
    ),
    "host route": Road(SCENARIOS["wlan0_wins_by_host_route"].stage, AIR, {"scapy": ["wlan0", "0.0.0.0"]}),  # noqa: S104
    "rule on the destination": Road(rule_on_destination, AIR, {"scapy": WIRE}),
    "rule on the source": Road(
        SCENARIOS["wlan0_wins_by_rule_on_source"].stage,
        ["wlan0", EDIT_WIRE],
        {"scapy": WIRE, "udp": WIRE, "pyroute2": WIRE},
    ),
    "rule on the port": Road(
        SCENARIOS["wlan0_wins_by_rule_on_port"].stage,
        AIR,
        {"scapy": WIRE, "udp": WIRE, "pyroute2": WIRE, "pyroute2 with port": WIRE},
    ),
    "default route": Road(default_by_wifi, AIR, {"scapy": ["wlan0", EDIT_WIRE]}, OFF_SUBNET),
    "two default routes": Road(two_defaults, AIR, {"scapy": ["wlan0", EDIT_WIRE]}, OFF_SUBNET),
    "dead wire that the kernel passes by": Road(dead_wire_that_is_ignored, AIR, {"scapy": WIRE}),
}


@pytest.mark.parametrize("name", ROADS)
def test_netaudit_knows_the_road_that_a_library_gets_wrong(stage: Stage, name: str) -> None:
    road = ROADS[name]
    road.stage(stage)
    assert road.truth[0] == stage.carrying(road.address)[0]
    said = asked(stage, "route", road.address)
    assert road.truth == said["netaudit"]
    assert road.wrong == {who: said[who] for who in road.wrong}


def test_a_rule_on_the_user_is_followed_for_the_user_who_asks(stage: Stage) -> None:
    """scapy's table knows no rules; netaudit asks as the user it runs as."""
    seat(stage, "wlan0", wire_metric=100, other_metric=600)
    stage.room.rule(stage.edit, "wlan0", MEDIA, FRA_UID_RANGE="1000:1000")
    knock = f"import socket\nfor _ in range(40): socket.create_connection(('{STORE_FAST}', 445), 5).close()"
    moved = stage.moved(stage.edit, lambda: stage.edit.run([sys.executable, "-c", knock], uid=1000))
    assert moved["wlan0"][0] > 40 * 54 > moved["en5"][0]
    said = asked(stage, "route", STORE_FAST, uid=1000)
    assert (AIR, WIRE) == (said["netaudit"], said["scapy"])
    assert WIRE == asked(stage, "route", STORE_FAST)["netaudit"]


def test_of_two_equal_roads_scapy_names_none(stage: Stage) -> None:
    """A multipath route: flows to one host take one road by the kernel's hash of addresses."""
    behind_a_gateway(stage)

    def add(ip: Any) -> None:
        hops = [{"gateway": ROUTER, "oif": ip.link_lookup(ifname=name)[0]} for name in ("en5", "wlan0")]
        ip.route("add", dst="0.0.0.0/0", multipath=hops)

    stage.edit.netlink(add)
    truth, _ = stage.carrying(OFF_SUBNET)
    said = asked(stage, "route", OFF_SUBNET)
    assert truth == said["netaudit"][0]
    assert ["", "0.0.0.0"] == said["scapy"]  # noqa: S104


def test_a_link_local_address_names_its_port_and_scapy_ignores_it(stage: Stage) -> None:
    """RFC 4007: the zone behind the address chooses the link; pyroute2 does not take it."""
    two_networks(stage)
    address = "fe80::1044%wlan0"
    said = asked(stage, "route", address)
    assert "wlan0" == said["netaudit"][0]
    assert "en5" == said["scapy"][0]
    assert None is said["pyroute2"][1]


def test_a_dead_wire_still_wins_its_own_subnet_and_only_its_carrier_tells(stage: Stage) -> None:
    """Every look-up names the dead port, the kernel's own included; nothing leaves there."""
    two_networks(stage)
    stage.samba()
    stage.room.pull("en5")
    assert (None, None) == stage.carrying()
    said = asked(stage, "route", STORE_FAST)
    assert {"en5"} == {said[who][0] for who in ("scapy", "udp", "pyroute2", "netaudit")}
    assert [None, True, False, True] == asked(stage, "links")["netaudit"]["en5"]


def test_netifaces_has_nothing_to_say_about_a_storage_on_the_link(stage: Stage) -> None:
    """It knows default routes alone; with several it names each, and none of them may matter."""
    two_networks(stage)
    assert [] == asked(stage, "route", STORE_FAST)["netifaces"]
    stage.room.route(stage.edit, "0.0.0.0/0", "wlan0", gateway="192.168.44.10")
    said = asked(stage, "route", STORE_FAST)
    assert (["wlan0"], WIRE) == (said["netifaces"], said["netaudit"])


STALE = f"""
import json, sys
sys.path.insert(0, {str(Path(__file__).parent)!r})
import ask
before = ask.scapy_route({STORE_FAST!r})
print("ready", flush=True)
sys.stdin.readline()
print(json.dumps([before, ask.scapy_route({STORE_FAST!r}), ask.netaudit_route({STORE_FAST!r})]))
"""


def test_scapys_table_is_as_old_as_its_import(stage: Stage) -> None:
    """A route that appears later is not in it; netaudit asks anew each time."""
    import subprocess

    seat(stage, "wlan0", wire_metric=100, other_metric=600)
    with stage.edit.start([sys.executable, "-c", STALE], stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert "ready\n" == process.stdout.readline()
        stage.room.route(stage.edit, f"{STORE_FAST}/32", "wlan0", prefsrc=EDIT_AIR_FLAT)
        said, _ = process.communicate("\n", timeout=20)
    assert [WIRE, WIRE, AIR] == json.loads(said)
