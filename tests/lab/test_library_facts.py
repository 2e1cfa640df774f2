"""Where libraries and the kernel disagree about sessions, neighbours, links, mounts and names."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import servers
from asking import asked
from room import EDIT_WIRE, MACS, STORE_FAST, STORE_SLOW_FLAT
from scenario import seat
from scenarios import SCENARIOS
from stage import Stage, two_networks


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
