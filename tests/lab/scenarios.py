"""What goes wrong in a room, staged: each scenario breaks one thing and names the cause that a probe has to put first."""

from __future__ import annotations

import socket
from collections.abc import Callable
from typing import NamedTuple

import servers
from plans import FLAT, FLAT_SEAT
from room import (
    EDIT_AIR_FLAT,
    EDIT_SPARE_FLAT,
    EDIT_WIRE,
    MACS,
    STORE_FAST,
    STORE_SLOW,
    STORE_SLOW_FLAT,
    Fitting,
)
from stage import Stage, two_networks

MEDIA = "10.44.20.0/24"
WIRE, AIR, SPARE = f"{EDIT_WIRE}/24", f"{EDIT_AIR_FLAT}/24", f"{EDIT_SPARE_FLAT}/24"
FLAT_ADDRESS = {"wlan0": AIR, "en6": SPARE}

Words = tuple[str, ...]
"""The target and the options of the probe."""


class Scenario(NamedTuple):
    """A fault, and what the probe has to make of it."""

    stage: Callable[[Stage], Words]
    causes: tuple[str, ...]
    """The cause that has to stand first; several where the fault allows each of them."""
    leaves_by: str | None = None
    """The station's port by which a new connection really leaves, where that is the fault."""
    answers_by: str | None = None
    """The port by which its answer really comes in."""


SCENARIOS: dict[str, Scenario] = {}


def staged(*causes: str, **truth: str) -> Callable[[Callable[[Stage], Words]], Callable[[Stage], Words]]:
    """Add a scenario under its function's name."""

    def add(function: Callable[[Stage], Words]) -> Callable[[Stage], Words]:
        SCENARIOS[function.__name__] = Scenario(function, causes, **truth)
        return function

    return add


# Two ports of the station in the storage's subnet, and the wrong one wins.


def seat(stage: Stage, other: str, wire_metric: int | None = None, other_metric: int | None = None) -> None:
    """A station with two ports in the storage's subnet."""
    stage.plan = FLAT_SEAT
    cap = {"wlan0": 300, "en6": 1000}[other]
    stage.room.plug(stage.edit, Fitting("en5", (WIRE,), 9000, metric=wire_metric))
    stage.room.plug(stage.edit, Fitting(other, (FLAT_ADDRESS[other],), cap_mbit_per_s=cap, metric=other_metric))
    stage.room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
    stage.samba()


def by_metric(stage: Stage, other: str) -> Words:
    seat(stage, other, wire_metric=600, other_metric=100)
    return (STORE_FAST,)


def after_a_bounce(stage: Stage, other: str) -> Words:
    """Of two routes with one metric the older wins; the wire's is the younger once it has been down."""
    seat(stage, other)
    for state in ("down", "up"):
        stage.edit.netlink(lambda ip: ip.link("set", index=ip.link_lookup(ifname="en5")[0], state=state))  # noqa: B023
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


def flat(stage: Stage) -> None:
    """The storage's two ports in one subnet, each answering for itself alone."""
    stage.plan = FLAT
    room = stage.room
    room.plug(stage.edit, Fitting("en5", (WIRE,), 9000))
    room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
    room.plug(stage.store, Fitting("s1g", (f"{STORE_SLOW_FLAT}/24",), 9000, cap_mbit_per_s=1000))
    for name, address in (("s10g", STORE_FAST), ("s1g", STORE_SLOW_FLAT)):
        room.answer_from_itself(stage.store, name, address, MEDIA)


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


@staged("replies-on-other-port", leaves_by="en5", answers_by="wlan0")
def replies_come_in_by_wifi(stage: Stage) -> Words:
    stale_neighbour(stage)
    return (STORE_FAST,)


@staged("replies-on-other-port", leaves_by="en5", answers_by="wlan0")
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


# The link.


def patched(stage: Stage, agreed_mbit_per_s: int, cap: int | None = None, offload: bool = True) -> None:
    """A room whose wire is a patch cable, which says what it agreed on."""
    wire = Fitting("en5", (WIRE,), 9000, cap_mbit_per_s=cap, agreed_mbit_per_s=agreed_mbit_per_s, offload=offload)
    stage.room.plug(stage.edit, wire)
    stage.room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))


@staged("link-below-plan")
def wire_agreed_on_1g(stage: Stage) -> Words:
    patched(stage, 1000, cap=1000)
    stage.samba()
    return (STORE_FAST,)


@staged("carrier-lost")
def wire_lost_its_carrier_and_kept_its_address(stage: Stage) -> Words:
    two_networks(stage)
    stage.samba()
    stage.room.pull("en5")
    return (STORE_FAST,)


@staged("carrier-lost")
def patch_cable_is_dead(stage: Stage) -> Words:
    patched(stage, 10_000)
    stage.samba()
    stage.room.tell_cable("en5", "carrier 0")
    return (STORE_FAST,)


@staged("link-flapping")
def link_flaps(stage: Stage) -> Words:
    """The cable loses touch for a moment, again and again."""
    patched(stage, 10_000)
    stage.samba()

    def flap() -> None:
        stage.room.tell_cable("en5", "carrier 0")
        stage.room.tell_cable("en5", "carrier 1")

    for _ in range(6):
        flap()
    stage.again_and_again(flap, 0.4)
    return (STORE_FAST,)


# Frames.


@staged("large-frames-lost")
def switch_port_passes_1500_under_ends_of_9000(stage: Stage) -> Words:
    two_networks(stage)
    stage.samba()
    for host, name in ((stage.edit, "en5"), (stage.store, "s10g")):
        stage.room.real_frames(host, name)
    stage.room.mtu(stage.room.sw, "p-s10g", 1500)
    return (STORE_FAST,)


@staged("large-frames-lost")
def trunk_passes_1500_under_ends_of_9000(stage: Stage) -> Words:
    """Both ports that the hosts see pass 9000; a cable between two switches does not."""
    room = stage.room
    room.bridge("br1")
    room.plug(stage.edit, Fitting("en5", (WIRE,), 9000))
    room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000, bridge="br1"))
    room.trunk("br0", "br1", 1500)
    for host, name in ((stage.edit, "en5"), (stage.store, "s10g")):
        room.real_frames(host, name)
    stage.samba()
    return (STORE_FAST,)


@staged("frame-sizes-differ")
def storage_alone_is_at_1500(stage: Stage) -> Words:
    two_networks(stage)
    stage.room.mtu(stage.store, "s10g", 1500)
    stage.samba()
    return (STORE_FAST,)


# Tunnels.


def tunnel(stage: Stage, far_end: str) -> None:
    """A tunnel of the station that takes the storage's address, and leads to the storage or to nowhere."""
    two_networks(stage)
    stage.samba()
    room = stage.room
    far = stage.store if far_end == "storage" else room.guest("elsewhere")
    room.patch(stage.edit, "tun0", far, "tun9", ["--tunnel"])
    room.set_up(stage.edit, "tun0", "10.99.0.2/30")
    room.set_up(far, "tun9", "10.99.0.1/30")
    room.route(stage.edit, f"{STORE_FAST}/32", "tun0")


@staged("tunnel-takes-route", leaves_by="tun0", answers_by="tun0")
def tunnel_takes_the_route(stage: Stage) -> Words:
    tunnel(stage, "storage")
    return (STORE_FAST,)


@staged("tunnel-takes-route", leaves_by="tun0")
def tunnel_takes_the_route_and_leads_nowhere(stage: Stage) -> Words:
    tunnel(stage, "nowhere")
    return (STORE_FAST,)


# Load and loss.


@staged("retransmits-high")
def wire_loses_frames_while_a_copy_writes(stage: Stage) -> Words:
    patched(stage, 10_000, offload=False)
    stage.until_closed(servers.serve(stage.store, "sink", 445))
    stage.until_closed(servers.copy(stage.edit, "put", STORE_FAST, 445))
    stage.room.tell_cable("en5", "loss 0.02")
    return (STORE_FAST,)


@staged("retransmits-high")
def wire_loses_frames_while_the_probe_writes(stage: Stage) -> Words:
    patched(stage, 10_000, offload=False)
    stage.samba()
    folder = stage.mounted()
    stage.edit.run(["ls", str(folder)])
    stage.room.tell_cable("en5", "loss 0.01")
    return (str(folder), "--write")


@staged("link-full")
def a_copy_from_the_storage_fills_the_wire(stage: Stage) -> Words:
    """The wire was planned at 1 Gb/s, and another copy has all of it."""
    stage.plan = stage.plan and stage.plan._replace(rates="up to 1G", wants="1G")
    patched(stage, 1000, cap=1000)
    stage.samba()
    stage.until_closed(servers.serve(stage.store, "source", 5001))
    stage.until_closed(servers.copy(stage.edit, "get", STORE_FAST, 5001))
    return (STORE_FAST,)


@staged("link-full")
def a_copy_to_the_storage_fills_the_wire(stage: Stage) -> Words:
    stage.plan = stage.plan and stage.plan._replace(rates="up to 1G", wants="1G")
    patched(stage, 1000, cap=1000)
    stage.samba()
    stage.until_closed(servers.serve(stage.store, "sink", 5001))
    stage.until_closed(servers.copy(stage.edit, "put", STORE_FAST, 5001))
    return (STORE_FAST,)


# The storage.


@staged("storage-stalls")
def storage_stalls_while_the_network_is_fine(stage: Stage) -> Words:
    two_networks(stage)
    samba = stage.samba()
    folder = stage.mounted()
    stage.edit.run(["ls", str(folder)])

    def stand_still() -> None:
        samba.stall()
        stage.wait(0.6)
        samba.go_on()

    stage.again_and_again(stand_still, 0.3)
    return (str(folder), "--read")


@staged("storage-offers-slower-port")
def storage_offers_its_slow_port_in_this_subnet(stage: Stage) -> Words:
    flat(stage)
    offers = (servers.Offered(STORE_FAST, 10_000_000_000), servers.Offered(STORE_SLOW_FLAT, 1_000_000_000))
    stage.samba(f"interfaces = {' '.join(map(str, offers))}")
    return (STORE_FAST, "--user", servers.USER)


@staged("signing-or-encryption")
def encryption_costs_the_rate(stage: Stage) -> Words:
    two_networks(stage)
    stage.samba("server smb encrypt = required")
    folder = stage.mounted()
    stage.edit.run(["ls", str(folder)])
    return (str(folder), "--read", "--user", servers.USER)


@staged("signing-or-encryption")
def signing_costs_the_rate(stage: Stage) -> Words:
    two_networks(stage)
    stage.samba("server signing = required")
    folder = stage.mounted()
    stage.edit.run(["ls", str(folder)])
    return (str(folder), "--read")


# Nothing there.


@staged("service-refused", leaves_by="en5", answers_by="en5")
def storage_refuses_the_service(stage: Stage) -> Words:
    two_networks(stage)
    return (STORE_FAST,)


@staged("no-answer")
def storage_is_switched_off(stage: Stage) -> Words:
    two_networks(stage)
    stage.store.netlink(lambda ip: ip.link("set", index=ip.link_lookup(ifname="s10g")[0], state="down"))
    return (STORE_FAST,)


@staged("no-route")
def station_has_no_address_and_no_gateway(stage: Stage) -> Words:
    stage.room.plug(stage.edit, Fitting("en5", (), 9000))
    stage.room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
    stage.samba()
    return (STORE_FAST,)


@staged("no-route")
def a_route_forbids_the_storage(stage: Stage) -> Words:
    two_networks(stage)
    stage.samba()
    stage.room.route(stage.edit, f"{STORE_FAST}/32", type="unreachable")
    return (STORE_FAST,)
