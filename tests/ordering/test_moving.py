"""Moving day: the order of plugs from the inside out, and what to do before the first one is pulled."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from strategies import plans
from wiring import aerial, cable, cage, device, jack, many, panel, seat, switch, vault, wired

from netaudit.model.plan import Plan, Port, Rack, RackPosition
from netaudit.network.topology import build_topology
from netaudit.ordering.moving import GROUPS, move_remarks, plug_order, unplug_order

RACKS = {"bay": Rack("bay", 12), "loft": Rack("loft", 6)}


def shown(plan: Plan) -> list[str]:
    """Every step of plugging in, in words."""
    steps = plug_order(plan, build_topology(plan))
    return [f"{step.group}: {step.cable} {step.first} > {', '.join(map(str, step.then))}" for step in steps]


ROOM = wired(
    seat("cut-1"), seat("cut-2"), device("plate", "outlet", many(4, Port(connector="rj45"))), panel("bay-panel"),
    switch("core", rack=RackPosition("bay", 9)), switch("attic"),
    vault(rack=RackPosition("bay", 4, 2)), vault("archive", rack=RackPosition("bay", 6, 2)),
    device("router", "router", {"lan": jack(), "wan": jack()}), device("internet", "internet", {"line": jack()}),
    cable("C01", "cut-1/wire", "plate/1"), cable("C02", "cut-2/wire", "plate/2"),
    cable("W01", "plate/1", "bay-panel/1", installed=True), cable("W02", "plate/2", "bay-panel/2", installed=True),
    cable("W03", "plate/3", "bay-panel/3"),
    cable("P01", "bay-panel/1", "core/1"), cable("P02", "core/2", "bay-panel/2"),
    cable("U01", "attic/1", "core/5"), cable("R01", "core/6", "router/lan"), cable("I01", "internet/line", "router/wan"),
    cable("D01", "core/7", "vault/fast"), cable("D02", "core/8", "archive/fast"),
    racks=RACKS,
)  # fmt: skip


def test_plugs_go_in_from_the_storage_outwards_and_the_top_of_the_rack_comes_first() -> None:
    expected = [
        "storage: D02 archive/fast > core/8",
        "storage: D01 vault/fast > core/7",
        "between switches: U01 core/5 > attic/1",
        "between switches: R01 core/6 > router/lan",
        "internet and office: I01 router/wan > internet/line",
        "seats: P01 core/1 > bay-panel/1",
        "seats: C01 plate/1 > cut-1/wire",
        "seats: P02 core/2 > bay-panel/2",
        "seats: C02 plate/2 > cut-2/wire",
    ]

    assert expected == shown(ROOM)


def test_racks_come_in_the_order_of_the_plan_and_before_what_is_in_none() -> None:
    plan = wired(
        vault("shelf"), vault("up", rack=RackPosition("loft", 6)), vault("low", rack=RackPosition("bay", 1)), switch("core"),
        cable("D1", "core/1", "shelf/fast"), cable("D2", "core/2", "up/fast"), cable("D3", "core/3", "low/fast"),
        racks=RACKS,
    )  # fmt: skip

    assert [step.cable for step in plug_order(plan, build_topology(plan))] == ["D3", "D2", "D1"]


def test_a_breakout_is_plugged_once_from_its_inner_end() -> None:
    plan = wired(
        switch("core", {"q": cage(40)}), vault("a", {"x": cage(10)}), vault("b", {"x": cage(10)}),
        cable("B01", "core/q", ["a/x", "b/x"], "twinax", 1.0),
    )  # fmt: skip

    assert shown(plan) == ["storage: B01 a/x > core/q, b/x"]


def test_a_seats_own_cable_to_a_storage_or_by_an_adapter_belongs_to_the_seats() -> None:
    plug, socket = Port(connector="thunderbolt"), Port(connector="thunderbolt")
    dock = device("dock", "adapter", {"host": plug, "net": jack()})
    plan = wired(
        seat("cut-1", {"wire": jack(), "tb": socket}), dock, vault(), switch("core"),
        cable("T01", "cut-1/tb", "dock/host", "thunderbolt", 0.5), cable("C01", "dock/net", "core/1"),
        cable("X01", "cut-1/wire", "vault/fast"),
    )  # fmt: skip

    assert {step.group for step in plug_order(plan, build_topology(plan))} == {"seats"}


def test_a_cord_whose_run_leads_nowhere_goes_with_the_machine_at_its_end() -> None:
    plan = wired(
        seat("cut-1"), vault(), switch("core"), panel("plate"),
        cable("C01", "cut-1/wire", "plate/1"), cable("C02", "vault/fast", "plate/2"), cable("C03", "core/1", "plate/3"),
    )  # fmt: skip

    assert shown(plan) == [
        "storage: C02 vault/fast > plate/2",
        "spare runs: C03 core/1 > plate/3",
        "seats: C01 plate/1 > cut-1/wire",
    ]


@settings(max_examples=40, deadline=None)
@given(plans())
def test_every_loose_cable_of_any_plan_is_plugged_once_and_unplugged_in_reverse(plan: Plan) -> None:
    topology = build_topology(plan)
    plug, unplug = plug_order(plan, topology), unplug_order(plan, topology)
    loose = {name: one for name, one in plan.cables.items() if not one.installed}

    assert sorted(loose) == sorted(step.cable for step in plug)
    assert [step[1:] for step in unplug] == [step[1:] for step in reversed(plug)]
    assert list(range(1, len(plug) + 1)) == [step.number for step in plug] == [step.number for step in unplug]
    assert all({step.first, *step.then} == set(loose[step.cable].ends) for step in plug)
    groups = [GROUPS.index(step.group) for step in plug]
    assert groups == sorted(groups)


def test_a_storage_is_shut_down_by_its_menu_after_the_seats_and_before_any_plug_is_pulled() -> None:
    told = move_remarks(ROOM)
    seats, storage = (
        next(told.index(one) for one in told if word in one) for word in ("shut down the seats", "its own menu")
    )

    assert seats < storage
    assert any("temporary label on both ends" in one for one in told)
    assert any("licensed practice and the local code" in one for one in told)


def test_cautions_are_told_only_where_they_apply() -> None:
    copper = wired(
        seat("cut-1", {"wire": jack(), "air": aerial()}), switch("core"), cable("C01", "cut-1/wire", "core/1")
    )
    light = replace(copper, cables={"F01": cable("F01", "cut-1/wire", "core/1", "OM4")})
    still = replace(copper, cables={"W01": cable("W01", "cut-1/wire", "core/1", installed=True)})

    assert not any(word in one for one in move_remarks(copper) for word in ("fibre", "two people", "storage"))
    assert any("never look into a fibre" in one for one in move_remarks(light))
    assert move_remarks(still) == ()
