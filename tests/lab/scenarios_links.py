"""Faults of the wire: its rate, its carrier, its frames, a tunnel beside it, loss and load."""

from __future__ import annotations

import servers
from room import STORE_FAST, Fitting
from scenario import WIRE, Words, patched, staged
from stage import Stage, two_networks

# The link.


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


@staged("link-flapping", seconds="1")
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


@staged("retransmits-high", seconds="2")
def idle_wire_loses_frames(stage: Stage) -> Words:
    patched(stage, 10_000, offload=False)
    stage.samba()
    stage.room.tell_cable("en5", "loss 0.1")
    return (STORE_FAST,)


@staged("retransmits-high", seconds="1")
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


@staged("link-full", seconds="1")
def a_copy_from_the_storage_fills_the_wire(stage: Stage) -> Words:
    """The wire was planned at 1 Gb/s, and another copy has all of it."""
    stage.plan = stage.plan and stage.plan._replace(rates="up to 1G", wants="1G")
    patched(stage, 1000, cap=1000)
    stage.samba()
    stage.until_closed(servers.serve(stage.store, "source", 5001))
    stage.until_closed(servers.copy(stage.edit, "get", STORE_FAST, 5001))
    return (STORE_FAST,)


@staged("link-full", seconds="1")
def a_copy_to_the_storage_fills_the_wire(stage: Stage) -> Words:
    stage.plan = stage.plan and stage.plan._replace(rates="up to 1G", wants="1G")
    patched(stage, 1000, cap=1000)
    stage.samba()
    stage.until_closed(servers.serve(stage.store, "sink", 5001))
    stage.until_closed(servers.copy(stage.edit, "put", STORE_FAST, 5001))
    return (STORE_FAST,)
