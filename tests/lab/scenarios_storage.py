"""Faults of the storage, and a storage that is not there."""

from __future__ import annotations

import servers
from room import STORE_FAST, STORE_SLOW_FLAT, Fitting
from scenario import Words, flat, staged
from stage import Stage, two_networks

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
    stage.room.switch(stage.store, "s10g", "down")
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
