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
import servers
from room import (
    EDIT_AIR_FLAT,
    EDIT_WIRE,
    MACS,
    STORE_FAST,
    STORE_SLOW_FLAT,
)
from scenarios import MEDIA, SCENARIOS, seat
from stage import Stage, two_networks

ASK = str(Path(__file__).with_name("ask.py"))
WIRE, AIR = ["en5", EDIT_WIRE], ["wlan0", EDIT_AIR_FLAT]
ROUTER, OFF_SUBNET = "10.44.20.1", "10.44.99.10"


def asked(stage: Stage, *words: str, uid: int = 0) -> Any:
    """What everybody says within the station."""
    said = stage.edit.run([sys.executable, ASK, *words], uid)
    assert said.returncode == 0, said.stderr
    return json.loads(said.stdout)


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


def test_a_session_keeps_its_source_and_its_packets_leave_elsewhere(stage: Stage) -> None:
    """A host route added later moves a living session at once; its own address, which libraries show, does not tell."""
    seat(stage, "wlan0", wire_metric=100, other_metric=600)
    stage.until_closed(servers.serve(stage.store, "mute", 2049))
    peer = stage.held(STORE_FAST, 2049)
    stage.room.route(stage.edit, f"{STORE_FAST}/32", "wlan0")
    moved = stage.moved(stage.edit, lambda: [peer.send(b"\0" * 1000) and stage.wait(0.01) for _ in range(5)])
    assert moved["wlan0"][0] > 5000 > moved["en5"][0]
    said = asked(stage, "sessions", STORE_FAST, "2049")
    assert [EDIT_WIRE] == [address for address, _ in said["psutil"]]
    assert [[EDIT_WIRE, "wlan0"]] == said["netaudit"]


def test_a_session_of_another_user_is_seen_whole_without_any_privilege(stage: Stage) -> None:
    """psutil does not know whose it is; the kernel tells a user without privileges of every session."""
    seat(stage, "wlan0", wire_metric=100, other_metric=600)
    stage.held(STORE_FAST)
    said = asked(stage, "sessions", STORE_FAST, "445", uid=1000)
    assert [[EDIT_WIRE, None]] == said["psutil"]
    assert [[EDIT_WIRE, "en5"]] == said["netaudit"]


def test_scapy_hears_the_second_answer_only_when_it_is_told_to_wait(stage: Stage) -> None:
    SCENARIOS["both_ports_answer_and_the_slow_one_is_faster"].stage(stage)
    said = asked(stage, "answers", STORE_FAST, "en5")
    assert 1 == len(said["scapy"])
    assert sorted([MACS["s10g"], MACS["s1g"]]) == said["scapy told to wait"]
    answer = stage.probe(STORE_FAST, "--seconds", "0.5")
    (far,) = [each for each in answer.data["addresses"] if each["address"] == STORE_FAST]
    assert sorted([MACS["s10g"], MACS["s1g"]]) == sorted(far["hardware_addresses"])


def test_a_rate_that_nobody_knows_is_zero_to_psutil_and_unknown_to_netaudit(stage: Stage) -> None:
    """The kernel refuses the rate of a bridge that is down, and a virtual pair makes its rate up."""
    two_networks(stage)
    stage.edit.netlink(lambda ip: ip.link("add", ifname="lone", kind="bridge"))
    said = asked(stage, "links")
    assert 0 == said["psutil"]["lone"][0]
    assert None is said["netaudit"]["lone"][0]
    assert [10_000, True] == [said["psutil"]["en5"][0], said["netaudit"]["en5"][1]]


def test_psutil_leaves_out_network_file_systems_unless_it_is_told_not_to(stage: Stage) -> None:
    two_networks(stage)
    stage.samba()
    folder = stage.mounted()
    listed = (
        "import json, psutil; print(json.dumps([[each.mountpoint for each in psutil.disk_partitions(all=every)]"
        " for every in (False, True)]))"
    )
    physical, every = json.loads(stage.edit.run([sys.executable, "-c", listed]).stdout)
    point = str(folder.parents[1])
    assert (False, True) == (point in physical, point in every)
    answer = stage.probe(str(folder), "--seconds", "0.5")
    assert point == answer.data["mount"]["folder"]


def test_sysfs_shows_another_namespace_where_it_was_not_mounted_anew(stage: Stage) -> None:
    """As with nsenter --net: sysfs belongs to whoever mounted it; netlink, and so netaudit, sees where it stands."""
    two_networks(stage)

    def from_outside() -> tuple[bool, bool]:
        from netaudit.machine.this import this_machine

        return Path("/sys/class/net/wlan0").exists(), "wlan0" in this_machine().interfaces()

    assert (False, True) == stage.edit.inside(from_outside)


def test_the_two_ways_to_say_a_name_by_multicast_differ(stage: Stage) -> None:
    """The C library's resolver knows no .local name without a module for it; zeroconf asks the link."""
    SCENARIOS["name_is_answered_with_two_addresses"].stage(stage)
    resolver = "import socket\ntry: print(socket.gethostbyname('store.local'))\nexcept OSError: print('unknown')"
    assert "unknown" == stage.edit.run([sys.executable, "-c", resolver]).stdout.strip()
    answer = stage.probe("store.local", "--seconds", "0.5")
    found = {each["address"]: each["from"] for each in answer.data["addresses"]}
    assert {STORE_FAST: "mdns", STORE_SLOW_FLAT: "mdns"} == found
