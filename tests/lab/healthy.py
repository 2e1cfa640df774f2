"""Rooms in which all is as it should be, however odd they look: a probe may raise nothing in any of them."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import servers
from plans import FLAT_SEAT, RoomPlan
from room import EDIT_AIR, EDIT_AIR_FLAT, EDIT_WIRE, STORE_FAST, STORE_SLOW, Fitting
from scenario import Words, patched
from stage import Stage, two_networks


class Healthy(NamedTuple):
    """A room, and as whom it is probed."""

    stage: Callable[[Stage], Words]
    uid: int = 0


HEALTHY: dict[str, Healthy] = {}


def healthy(uid: int = 0) -> Callable[[Callable[[Stage], Words]], Callable[[Stage], Words]]:
    """Add a room under its function's name."""

    def add(function: Callable[[Stage], Words]) -> Callable[[Stage], Words]:
        HEALTHY[function.__name__] = Healthy(function, uid)
        return function

    return add


@healthy()
def idle(stage: Stage) -> Words:
    two_networks(stage)
    stage.samba()
    return (STORE_FAST,)


@healthy()
def without_a_plan(stage: Stage) -> Words:
    idle(stage)
    stage.plan = None
    return (STORE_FAST,)


@healthy(uid=1000)
def asked_without_any_privilege(stage: Stage) -> Words:
    return idle(stage)


@healthy()
def playing_from_the_storage(stage: Stage) -> Words:
    """A paced read of 2 Gb/s, a fifth of the wire."""
    idle(stage)
    stage.until_closed(servers.serve(stage.store, "source", 5001))
    stage.until_closed(servers.copy(stage.edit, "get", STORE_FAST, 5001, 2000))
    return (STORE_FAST,)


@healthy()
def ingesting_to_the_storage(stage: Stage) -> Words:
    idle(stage)
    stage.until_closed(servers.serve(stage.store, "sink", 5001))
    stage.until_closed(servers.copy(stage.edit, "put", STORE_FAST, 5001, 2000))
    return (STORE_FAST,)


@healthy()
def playing_over_a_wire_of_1g_that_was_planned_so(stage: Stage) -> Words:
    """A fifth of a 1 Gb/s wire in use."""
    stage.plan = RoomPlan(rates="up to 1G", wants="1G")
    patched(stage, 1000, cap=1000)
    stage.samba()
    stage.until_closed(servers.serve(stage.store, "source", 5001))
    stage.until_closed(servers.copy(stage.edit, "get", STORE_FAST, 5001, 200))
    return (STORE_FAST,)


@healthy()
def wifi_switched_off(stage: Stage) -> Words:
    idle(stage)
    stage.room.switch(stage.edit, "wlan0", "down")
    return (STORE_FAST,)


@healthy()
def sync_running_over_wifi(stage: Stage) -> Words:
    """Something else, from somewhere else, fills the Wi-Fi."""
    idle(stage)
    cloud = stage.room.guest("cloud")
    stage.room.plug(cloud, Fitting("far", ("192.168.44.1/24",)))
    stage.until_closed(servers.serve(cloud, "source", 5001))
    stage.until_closed(servers.copy(stage.edit, "get", "192.168.44.1", 5001))
    return (STORE_FAST,)


@healthy()
def sync_from_the_storages_slow_port_over_wifi(stage: Stage) -> Words:
    """Another program talks with the same storage by its office address."""
    idle(stage)
    stage.until_closed(servers.serve(stage.store, "source", 5001))
    stage.until_closed(servers.copy(stage.edit, "get", STORE_SLOW, 5001))
    return (STORE_FAST,)


@healthy()
def default_gateway_on_wifi(stage: Stage) -> Words:
    idle(stage)
    stage.room.route(stage.edit, "0.0.0.0/0", "wlan0", gateway="192.168.44.1")
    return (STORE_FAST,)


@healthy()
def wifi_in_the_storages_subnet_and_the_wire_wins(stage: Stage) -> Words:
    stage.plan = FLAT_SEAT
    room = stage.room
    room.plug(stage.edit, Fitting("en5", (f"{EDIT_WIRE}/24",), 9000, metric=100))
    room.plug(stage.edit, Fitting("wlan0", (f"{EDIT_AIR_FLAT}/24",), cap_mbit_per_s=300, metric=600))
    room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
    stage.samba()
    return (STORE_FAST,)


@healthy()
def storage_with_aliases_of_one_port(stage: Stage) -> Words:
    """One port of the storage has three addresses, as with a VLAN each; it offers all of them."""
    addresses = (STORE_FAST, "10.44.30.10", "10.44.40.10")
    two_networks(stage)
    for address in addresses[1:]:
        stage.room.set_up(stage.store, "s10g", f"{address}/24", 9000)
    offers = [servers.Offered(address, 10_000_000_000) for address in addresses]
    stage.samba(f"interfaces = {' '.join(map(str, offers))}")
    return (STORE_FAST, "--user", servers.USER)


@healthy()
def ipv4_and_ipv6_of_one_port(stage: Stage) -> Words:
    stage.plan = RoomPlan(
        media=("10.44.20.0/24", "fd44:20::/64"), wire=(EDIT_WIRE, "fd44:20::21"), fast=(STORE_FAST, "fd44:20::10")
    )
    two_networks(stage)
    stage.room.set_up(stage.edit, "en5", "fd44:20::21/64", 9000)
    stage.room.set_up(stage.store, "s10g", "fd44:20::10/64", 9000)
    stage.samba()
    stage.edit.names({"store": ["fd44:20::10", STORE_FAST]})
    return ("store",)


@healthy()
def storage_that_lists_a_management_port_elsewhere(stage: Stage) -> Words:
    two_networks(stage)
    stage.room.set_up(stage.store, "s1g", "172.31.44.10/24")
    offers = (servers.Offered(STORE_FAST, 10_000_000_000), servers.Offered("172.31.44.10", 1_000_000_000))
    stage.samba(f"interfaces = {' '.join(map(str, offers))}")
    return (STORE_FAST, "--user", servers.USER)


@healthy()
def something_else_than_smb_on_its_port(stage: Stage) -> Words:
    two_networks(stage)
    stage.until_closed(servers.serve(stage.store, "babbler", 445))
    return (STORE_FAST,)


@healthy()
def another_service_by_its_port(stage: Stage) -> Words:
    two_networks(stage)
    stage.until_closed(servers.serve(stage.store, "mute", 8445))
    return (STORE_FAST, "--port", "8445")


@healthy()
def old_errors_that_do_not_grow(stage: Stage) -> Words:
    """The wire dropped frames once, when the switch's port was narrow for a while."""
    two_networks(stage)
    stage.samba()
    stage.room.real_frames(stage.edit, "en5")
    stage.room.mtu(stage.room.sw, "p-en5", 1500)
    stage.room.shout(stage.edit, STORE_FAST, count=200, octets=8000)
    assert stage.room.dropped(stage.edit, "en5") >= 200
    stage.room.mtu(stage.room.sw, "p-en5", 9000)
    return (STORE_FAST,)


@healthy()
def replugged_once_this_morning(stage: Stage) -> Words:
    idle(stage)
    stage.room.pull("en5")
    stage.wait(1.1)
    stage.room.put_back("en5")
    stage.wait(1.1)
    return (STORE_FAST,)


@healthy()
def name_in_the_hosts_file(stage: Stage) -> Words:
    idle(stage)
    stage.edit.names({"store": [STORE_FAST]})
    return ("store",)


@healthy()
def name_that_gives_the_address_of_both_ends_containers_too(stage: Stage) -> Words:
    idle(stage)
    for host in (stage.store, stage.edit):
        host.netlink(lambda ip: ip.link("add", ifname="box0", kind="bridge", state="up"))
        stage.room.set_up(host, "box0", "172.17.0.1/16")
    stage.edit.names({"store": ["172.17.0.1", STORE_FAST]})
    return ("store",)


@healthy()
def name_by_multicast_dns(stage: Stage) -> Words:
    idle(stage)
    stage.until_closed(servers.announce(stage.store, "store", STORE_FAST))
    return ("store.local",)


@healthy()
def mounted_folder(stage: Stage) -> Words:
    idle(stage)
    folder = stage.mounted()
    stage.edit.run(["ls", str(folder)])
    return (str(folder),)


@healthy()
def two_switches_for_two_networks(stage: Stage) -> Words:
    """Wire and Wi-Fi never meet; the storage answers loosely for all its addresses, which nobody can hear."""
    room = stage.room
    room.bridge("br1")
    room.strict(stage.store, answers_for_itself=False)
    room.plug(stage.edit, Fitting("en5", (f"{EDIT_WIRE}/24",), 9000))
    room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
    room.plug(stage.edit, Fitting("wlan0", (f"{EDIT_AIR}/24",), bridge="br1", cap_mbit_per_s=300))
    room.plug(stage.store, Fitting("s1g", (f"{STORE_SLOW}/24",), bridge="br1", cap_mbit_per_s=1000))
    stage.samba()
    return (STORE_FAST,)


@healthy()
def plain_frames_as_planned(stage: Stage) -> Words:
    stage.plan = RoomPlan(mtu=1500)
    two_networks(stage, wire_mtu=1500)
    stage.samba()
    return (STORE_FAST,)


@healthy()
def tunnel_beside_for_something_else(stage: Stage) -> Words:
    idle(stage)
    stage.room.patch(stage.edit, "tun0", stage.room.guest("elsewhere"), "tun9", ["--tunnel"])
    stage.room.set_up(stage.edit, "tun0", "10.99.0.2/30")
    stage.room.route(stage.edit, "172.20.0.0/16", "tun0")
    return (STORE_FAST,)
