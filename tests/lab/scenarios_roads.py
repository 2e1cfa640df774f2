"""Faults of the road: another port wins, an address or a name leads astray, a session or its answers go another way."""

from __future__ import annotations

import socket
from collections.abc import Callable

import servers
from plans import FLAT, FLAT_SEAT
from room import EDIT_AIR_FLAT, EDIT_WIRE, MACS, STORE_FAST, STORE_SLOW, STORE_SLOW_FLAT, Fitting
from scenario import AIR, MEDIA, SCENARIOS, WIRE, Scenario, Words, flat, seat, staged
from stage import Stage, two_networks

# Two ports of the station in the storage's subnet, and the wrong one wins.


def by_metric(stage: Stage, other: str) -> Words:
    seat(stage, other, wire_metric=600, other_metric=100)
    return (STORE_FAST,)


def after_a_bounce(stage: Stage, other: str) -> Words:
    """Of two routes with one metric the older wins; the wire's is the younger once it has been down."""
    seat(stage, other)
    for state in ("down", "up"):
        stage.room.switch(stage.edit, "en5", state)
    return (STORE_FAST,)


def by_host_route(stage: Stage, other: str) -> Words:
    seat(stage, other, wire_metric=100, other_metric=600)
    stage.room.route(stage.edit, f"{STORE_FAST}/32", other)
    return (STORE_FAST,)


def by_rule_on_source(stage: Stage, other: str) -> Words:
    seat(stage, other, wire_metric=100, other_metric=600)
    stage.room.rule(stage.edit, other, MEDIA, src=EDIT_WIRE)
    return (STORE_FAST,)


def by_rule_on_port(stage: Stage, other: str) -> Words:
    seat(stage, other, wire_metric=100, other_metric=600)
    stage.room.rule(stage.edit, other, MEDIA, ip_proto=socket.IPPROTO_TCP, FRA_DPORT_RANGE="445:445")
    return (STORE_FAST,)


WAYS_TO_WIN = (by_metric, after_a_bounce, by_host_route, by_rule_on_source, by_rule_on_port)
for way in WAYS_TO_WIN:
    for port, cause in (("wlan0", "traffic-on-wireless"), ("en6", "traffic-on-other-port")):

        def win(stage: Stage, way: Callable[[Stage, str], Words] = way, port: str = port) -> Words:
            return way(stage, port)

        SCENARIOS[f"{port}_wins_{way.__name__}"] = Scenario(win, (cause,), leaves_by=port)


def marked(stage: Stage, other: str) -> Words:
    """A packet filter marks what goes to the file service, and a rule on the mark sends it out by another port.

    No look-up sees the mark: the filter sets it on each packet (nft(8), `meta mark set` in a chain of type route).
    """
    seat(stage, other, wire_metric=100, other_metric=600)
    stage.room.rule(stage.edit, other, MEDIA, fwmark=44)
    chain = "chain out { type route hook output priority mangle; tcp dport 445 meta mark set 44; };"
    stage.edit.run(["nft", f"table ip lab {{ {chain} }}"]).check_returncode()
    return (STORE_FAST,)


@staged("traffic-on-other-port", leaves_by="en6", answers_by="en5")
def a_mark_sends_it_out_by_the_spare_port(stage: Stage) -> Words:
    return marked(stage, "en6")


@staged("traffic-on-wireless", leaves_by="wlan0", answers_by="en5")
def a_mark_sends_it_out_by_wifi(stage: Stage) -> Words:
    return marked(stage, "wlan0")


@staged("traffic-on-wireless", leaves_by="wlan0")
def wire_was_never_plugged_in(stage: Stage) -> Words:
    """The station is in the storage's subnet by Wi-Fi alone."""
    stage.plan = FLAT_SEAT
    stage.room.plug(stage.edit, Fitting("wlan0", (AIR,), cap_mbit_per_s=300))
    stage.room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
    stage.samba()
    return (STORE_FAST,)


# Addresses and names.


@staged("router-between")
def storage_is_behind_a_router(stage: Stage) -> Words:
    """The wire has an address of another subnet, so that a router carries every frame."""
    room, router = stage.room, stage.room.guest("router")
    room.bridge("br1")
    room.plug(stage.edit, Fitting("en5", ("10.44.21.21/24",), bridge="br1"))
    room.plug(router, Fitting("r1", ("10.44.21.1/24",), bridge="br1"))
    room.plug(router, Fitting("r0", ("10.44.20.1/24",)))
    room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",)))
    router.sysctl("ipv4/ip_forward", 1)
    room.route(stage.edit, "0.0.0.0/0", gateway="10.44.21.1")
    room.route(stage.store, "0.0.0.0/0", gateway="10.44.20.1")
    stage.samba()
    return (STORE_FAST,)


@staged("address-not-planned", "name-gives-many-addresses")
def name_gives_the_slow_address_first(stage: Stage) -> Words:
    """Whatever a hosts file says first, the address with more leading bits of the station's own comes first (RFC 6724)."""
    flat(stage)
    stage.samba()
    stage.edit.names({"store": [STORE_SLOW_FLAT, STORE_FAST]})
    return ("store",)


@staged("address-not-planned", "name-gives-many-addresses")
def name_gives_the_office_address_first(stage: Stage) -> Words:
    """The name leads to the storage's slow port in the office network, and so through the Wi-Fi."""
    two_networks(stage)
    stage.samba()
    stage.edit.names({"store": [STORE_SLOW, STORE_FAST]})
    return ("store",)


@staged("address-not-planned", "name-gives-many-addresses")
def name_is_answered_with_two_addresses(stage: Stage) -> Words:
    flat(stage)
    stage.samba()
    stage.until_closed(servers.announce(stage.store, "store", STORE_SLOW_FLAT, STORE_FAST))
    return ("store.local",)


@staged("no-answer", "address-not-planned")
def name_gives_the_slow_address_and_a_tunnel_has_the_fast_one(stage: Stage) -> Words:
    flat(stage)
    stage.samba()
    stage.room.patch(stage.edit, "tun0", stage.room.guest("elsewhere"), "tun9", ["--tunnel"])
    stage.room.set_up(stage.edit, "tun0", "10.99.0.2/30")
    stage.room.route(stage.edit, f"{STORE_FAST}/32", "tun0")
    stage.edit.names({"store": [STORE_SLOW_FLAT, STORE_FAST]})
    return ("store",)


@staged("address-not-planned")
def share_is_mounted_by_the_slow_address(stage: Stage) -> Words:
    flat(stage)
    stage.samba()
    folder = stage.mounted(STORE_SLOW_FLAT)
    stage.edit.run(["ls", str(folder)])
    return (str(folder),)


# Sessions and answers that go their own way.


@staged("session-on-other-port")
def session_is_older_than_the_cable(stage: Stage) -> Words:
    """The share was opened by Wi-Fi; the cable came later, and only new connections take it."""
    stage.plan = FLAT_SEAT
    room = stage.room
    room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
    room.plug(stage.edit, Fitting("wlan0", (AIR,), cap_mbit_per_s=300, metric=600))
    room.answer_from_itself(stage.edit, "wlan0", EDIT_AIR_FLAT, MEDIA)
    stage.samba()
    folder = stage.mounted()
    stage.edit.run(["ls", str(folder)])
    room.plug(stage.edit, Fitting("en5", (WIRE,), 9000, metric=100))
    return (STORE_FAST,)


@staged("session-on-other-port")
def mounted_folder_is_older_than_the_cable(stage: Stage) -> Words:
    session_is_older_than_the_cable(stage)
    return (str(stage.folder / "mount" / STORE_FAST / servers.SHARE),)


def stale_neighbour(stage: Stage) -> None:
    """The storage holds on to the Wi-Fi's hardware address for the wire's address."""
    two_networks(stage)
    stage.samba()
    stage.room.speak(stage.edit, "wlan0")
    stage.room.neighbour(stage.store, "s10g", EDIT_WIRE, MACS["wlan0"])


@staged("replies-on-other-port", seconds="1", leaves_by="en5", answers_by="wlan0")
def replies_come_in_by_wifi(stage: Stage) -> Words:
    stale_neighbour(stage)
    return (STORE_FAST,)


@staged("replies-on-other-port", seconds="1", leaves_by="en5", answers_by="wlan0")
def replies_come_in_by_wifi_where_a_name_gives_addresses_by_both_ports(stage: Stage) -> Words:
    stale_neighbour(stage)
    stage.edit.names({"store": [STORE_FAST, STORE_SLOW]})
    return ("store",)


@staged("replies-on-other-port", seconds="1", leaves_by="en5", answers_by="wlan0")
def replies_come_in_by_wifi_while_a_copy_runs(stage: Stage) -> Words:
    stale_neighbour(stage)
    stage.until_closed(servers.serve(stage.store, "source", 5001))
    stage.until_closed(servers.copy(stage.edit, "get", STORE_FAST, 5001))
    return (STORE_FAST,)


@staged("two-answers-for-address")
def both_ports_answer_and_the_slow_one_is_faster(stage: Stage) -> Words:
    """Linux lets every port answer for every address of its host unless it is told not to (ip-sysctl: arp_ignore)."""
    stage.plan = FLAT
    room = stage.room
    room.strict(stage.store, answers_for_itself=False)
    room.plug(stage.edit, Fitting("en5", (WIRE,), 9000))
    room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
    room.plug(stage.store, Fitting("s1g", (f"{STORE_SLOW_FLAT}/24",), cap_mbit_per_s=1000))
    stage.samba()
    return (STORE_FAST,)


@staged("two-answers-for-address")
def a_stranger_has_the_storages_address(stage: Stage) -> Words:
    two_networks(stage)
    stage.samba()
    stage.room.plug(stage.room.guest("stranger"), Fitting("far", (f"{STORE_FAST}/24",)))
    return (STORE_FAST,)
