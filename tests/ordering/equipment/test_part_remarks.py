"""What to know or to ask before parts are ordered."""

from __future__ import annotations

from typing import Any

import pytest
from wiring import aerial, cable, cage, device, jack, panel, seat, switch, vault, wired

from netaudit.model.plan import Bus, HostCable, Pool, Port
from netaudit.network.topology import build_topology
from netaudit.ordering.equipment.part_remarks import part_remarks
from netaudit.ordering.shop.shopping import shopping


def remarks(*things: Any) -> tuple[str, ...]:
    plan = wired(*things)
    return part_remarks(plan, build_topology(plan), shopping(plan).bulk)


def asked(word: str, *things: Any) -> list[str]:
    """The remarks that hold a word."""
    return [remark for remark in remarks(*things) if word in remark]


def core(**fields: Any) -> Any:
    return switch("core", **{"owned": True, **fields})


def tray(name: str = "tray", connector: Any = "lc", **fields: Any) -> Any:
    return device(name, "panel", {"1": Port(connector), "2": Port(connector)}, **fields)


def test_whether_new_panels_and_plates_come_with_jacks_is_asked() -> None:
    plate = device("plate", "outlet", {"1": Port("rj45"), "2": Port("rj45")})
    run = cable("W1", "plate/1", "panel/1")
    assert ("Ask whether plate and panel come with jacks: the bill has a jack for each end of a new run.",) == remarks(
        plate, panel("panel"), run
    )
    assert ("Ask whether panel comes with jacks: the bill has a jack for each end of a new run.",) == remarks(
        device("plate", "outlet", plate.ports, owned=True), panel("panel"), run
    )
    assert () == remarks(plate, panel("panel"))


@pytest.mark.parametrize("connector", ["lc", "sc", "mpo"])
def test_panels_for_fibre_are_asked_for_couplers_and_not_for_jacks(connector: str) -> None:
    run = cable("W1", "a/1", "b/1")
    assert (
        "Ask whether a and b come with jacks: the bill has a jack for each end of a new run.",
        "Ask whether tray comes with couplers for fibre: the bill has none.",
    ) == remarks(panel("a"), panel("b"), tray(connector=connector), run)
    assert () == remarks(tray(connector=connector, owned=True), tray("plain", "rj45"))


def test_an_adapter_that_names_its_cable_is_asked_whether_it_comes_with_it() -> None:
    two = {"wire": jack(owned=False, host_cable=HostCable(2.0, active=True))}
    one = {"wire": jack(owned=False, host_cable=HostCable(0.5))}
    dock = device("dock", "adapter", {"in": Port("usb-c", host_cable=HostCable(0.5))})
    there = seat("cut-4", {"wire": jack(host_cable=HostCable(2.0))})
    assert (
        "Ask whether the adapters for cut-1/wire and cut-2/wire come with their active cables of 2 m: the bill has none.",
        "Ask whether the adapters for cut-3/wire and dock/in come with their cables of 0.5 m: the bill has none.",
    ) == remarks(seat("cut-1", two), seat("cut-2", two), seat("cut-3", one), dock, there)
    assert ("Ask whether the adapter for cut-3/wire comes with its cable of 0.5 m: the bill has none.",) == remarks(
        seat("cut-3", one)
    )


def test_two_new_ports_on_one_bus_may_be_one_card() -> None:
    on_dock = Bus("thunderbolt", 3, via="dock")
    ports = {
        "a": jack(owned=False, bus=on_dock),
        "b": jack(owned=False, bus=on_dock),
        "c": jack(bus=on_dock),
        "d": jack(owned=False, bus=Bus("pcie", 3, 8)),
        "e": jack(owned=False, bus=Bus("pcie", 3, 8)),
    }
    other = seat("cut-2", {"a": jack(owned=False, bus=on_dock)})
    assert (
        "cut-1/a and cut-1/b are two ports on one bus (dock): is it one card with two ports? The bill has two adapters.",
    ) == remarks(seat("cut-1", ports), other)


def test_an_access_point_on_a_switch_that_is_there_may_be_fed_over_the_cable() -> None:
    beacon = device("beacon", "access-point", {"1": jack(), "air": aerial()}, owned=True)
    eye = device("eye", "other", {"1": jack(1)})
    mixer = device("mixer", "other", {"1": jack(1), "2": jack(1)})
    lines = [cable(f"C{n}", f"{name}/1", f"core/{n}") for n, name in enumerate(("beacon", "eye", "mixer", "cut-1"), 1)]
    seats = seat("cut-1", {"1": jack()})
    assert (
        "Ask whether beacon is to be fed over the cable, with how many watts, and whether core gives them; "
        "otherwise each needs an injector or a power supply, and the bill has none."
    ) == "".join(asked("fed", beacon, eye, mixer, seats, core(), *lines))
    assert [] == asked("fed", beacon, eye, mixer, seats, core(owned=False), *lines)


def test_an_access_point_on_fibre_is_not_fed_over_it() -> None:
    beacon = device("beacon", "access-point", {"1": cage(module="10GBASE-SR")}, owned=True)
    uplink = switch("core", {"1": cage(module="10GBASE-SR")}, owned=True)
    assert [] == asked("fed", beacon, uplink, cable("F1", "beacon/1", "core/1", "OM4"))


def test_what_the_plan_does_not_say_is_still_to_be_bought_is_told_the_first_few_by_name() -> None:
    others = [device(f"ap-{n}", "access-point", {}) for n in range(1, 5)]
    assert (
        "vault, gate, ap-1, ap-2 and 2 more are not on this bill: the plan does not say that they are still to be "
        "bought (`owned: false`)."
    ) == "".join(remarks(core(), vault(), device("gate", "router", {}), seat("cut-1"), *others))
    assert (
        "vault is not on this bill: the plan does not say that it is still to be bought (`owned: false`).",
    ) == remarks(core(owned=False), vault())
    assert () == remarks(core(owned=False), vault(owned=True), device("ups", "ups", {}, owned=True), seat("cut-1"))


def test_a_storage_to_be_bought_is_bought_with_its_disks() -> None:
    full = vault(owned=False, pools={"main": Pool(drives=8), "fast": Pool(drives=4)})
    unknown = vault(owned=False, pools={"main": Pool()})

    assert [
        "vault is on the bill without its disks: order 12 drives of its pools with it, and spares.",
        "vault is on the bill without its disks: order the drives of its pools with it, and spares.",
    ] == [one for room in (full, unknown) for one in remarks(room) if "disks" in one]
