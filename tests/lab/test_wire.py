"""The probe talks to the storage, and to whoever has to be asked for the way to it, and to nobody else.

The watcher stands at the switch's side of every cable of the station, so nothing that leaves it goes unseen.
"""

from __future__ import annotations

from collections.abc import Collection
from ipaddress import ip_address

import pytest
import servers
from healthy import HEALTHY
from room import EDIT_AIR, EDIT_WIRE, STORE_FAST, STORE_SLOW, Fitting
from scenarios import SCENARIOS
from stage import Stage
from wire import Frame, Watcher

MULTICAST_DNS = ("224.0.0.251", "ff02::fb")
"""RFC 6762, section 3."""
KERNEL_KINDS = ("igmp", "icmpv6")
"""What the kernel itself tells its switch and its neighbours by multicast: groups that it joins, addresses that it
takes (RFC 3376, 3810, 4861)."""


def strangers(frames: Collection[Frame], allowed: Collection[str]) -> set[Frame]:
    """Frames to somebody else than those allowed, name resolution and the kernel's own multicast aside."""
    return {
        frame
        for frame in frames
        if frame.to not in allowed
        and not (frame.to in MULTICAST_DNS and frame.to_port == 5353)
        and not (frame.kind in KERNEL_KINDS and ip_address(frame.to).is_multicast)
    }


@pytest.mark.parametrize(
    ("name", "others"),
    [
        ("idle", ()),
        ("without_a_plan", ()),
        ("name_by_multicast_dns", ()),
        ("name_in_the_hosts_file", ()),
        ("ipv4_and_ipv6_of_one_port", ("fd44:20::10",)),
        ("default_gateway_on_wifi", ()),
        ("storage_that_lists_a_management_port_elsewhere", ()),
        ("storage_with_aliases_of_one_port", ()),
        ("mounted_folder", ()),
        ("storage_is_behind_a_router", ("10.44.21.1",)),
        ("name_gives_the_office_address_first", (STORE_SLOW,)),
        ("storage_is_switched_off", ()),
        ("a_stranger_has_the_storages_address", ()),
    ],
)
def test_nothing_is_sent_to_another_host(stage: Stage, name: str, others: tuple[str, ...]) -> None:
    target, *options = {**HEALTHY, **SCENARIOS}[name].stage(stage)
    ports = [f"p-{port}" for port in stage.room.counts(stage.edit) if port in ("en5", "wlan0")]
    with Watcher(stage.room.sw, ports) as watcher:
        stage.probe(target, "--seconds", "0.5", *options)
    assert set() == strangers(watcher.frames, {STORE_FAST, EDIT_WIRE, EDIT_AIR, *others})
    assert any(frame.to == STORE_FAST for frame in watcher.frames)


def test_another_host_in_the_room_is_not_even_asked_for(stage: Stage) -> None:
    """A bystander in the office network hears broadcasts at most."""
    HEALTHY["default_gateway_on_wifi"].stage(stage)
    bystander = stage.room.guest("bystander")
    stage.room.plug(bystander, Fitting("far", ("192.168.44.1/24",)))
    stage.until_closed(servers.serve(bystander, "mute", 445))
    with Watcher(stage.room.sw, ["p-en5", "p-wlan0", "p-far"]) as watcher:
        stage.probe(STORE_FAST, "--seconds", "0.5")
    assert not [frame for frame in watcher.frames if frame.to == "192.168.44.1"]
    assert not [frame for frame in watcher.frames if frame.port == "p-far" and frame.kind not in KERNEL_KINDS]


def test_no_more_is_sent_than_a_few_hundred_small_packets(stage: Stage) -> None:
    """Nothing is flooded: an idle room carries little for a probe without --read and --write."""
    HEALTHY["idle"].stage(stage)
    moved = stage.moved(stage.edit, lambda: stage.probe(STORE_FAST, "--seconds", "0.5"))
    assert moved["en5"][0] < 300_000
    assert moved["wlan0"][0] < 5_000


def test_the_watcher_sees_a_stranger_being_talked_to(stage: Stage) -> None:
    """What the other tests rest on: a frame to somebody else does not escape it."""
    HEALTHY["idle"].stage(stage)
    with Watcher(stage.room.sw, ["p-en5", "p-wlan0"]) as watcher:
        stage.room.shout(stage.edit, "10.44.20.99", count=1, octets=10)
        stage.room.shout(stage.edit, "192.168.44.10", count=1, octets=10)
    seen = strangers(watcher.frames, {STORE_FAST})
    assert {("arp", "10.44.20.99"), ("udp", "192.168.44.10")} <= {(frame.kind, frame.to) for frame in seen}
