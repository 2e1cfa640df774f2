"""The order of plugs: from the inside out when they go in, and back for those that are plugged already."""

from __future__ import annotations

from hypothesis import given, settings
from strategies import plans
from wiring import cable, cage, device, jack, many, panel, seat, switch, vault, wired

from netaudit.model.plan import COPPER_CATEGORIES, Cable, Plan, Port, Rack, RackPosition
from netaudit.network.topology import build_topology
from netaudit.ordering.day.plug_order import GROUPS, plug_order, unplug_order
from netaudit.ordering.shop.shopping import is_laid

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


def test_the_top_of_a_device_counts_however_high_it_is() -> None:
    plan = wired(
        switch("low", rack=RackPosition("bay", 1)), switch("core", rack=RackPosition("bay", 2, 4)), switch("attic"),
        cable("U1", "low/1", "attic/1"), cable("U2", "core/1", "attic/2"), racks=RACKS,
    )  # fmt: skip

    assert ["U2", "U1"] == [step.cable for step in plug_order(plan, build_topology(plan))]


def test_of_two_ends_alike_the_device_that_the_plan_names_first_is_gone_to_first() -> None:
    plan = wired(switch("b"), switch("a"), cable("U1", "b/1", "a/1"), cable("U2", "a/2", "b/2"))

    assert ["between switches: U1 b/1 > a/1", "between switches: U2 b/2 > a/2"] == shown(plan)


def test_a_link_takes_the_place_of_its_first_cable() -> None:
    plan = wired(
        seat("cut-1"), seat("cut-2"), panel("plate"), switch("core"),
        cable("C1", "cut-1/wire", "plate/1"), cable("C2", "cut-2/wire", "plate/2"), cable("C3", "plate/2", "core/2"),
        cable("C4", "plate/1", "core/1"),
    )  # fmt: skip

    assert ["C4", "C1", "C3", "C2"] == [step.cable for step in plug_order(plan, build_topology(plan))]


def test_a_breakout_is_plugged_once_from_its_inner_end() -> None:
    plan = wired(
        switch("core", {"q": cage(40)}), vault("a", {"x": cage(10)}), vault("b", {"x": cage(10)}),
        cable("B01", "core/q", ["a/x", "b/x"], "twinax", 1.0),
    )  # fmt: skip

    assert shown(plan) == ["storage: B01 a/x > core/q, b/x"]


def test_a_breakout_that_is_reached_by_a_later_tail_goes_in_there_first_then_its_trunk_then_the_other_tails() -> None:
    plan = wired(
        switch("old", {"q": cage(40)}), switch("core", {"1": cage(10)}), vault("vault", {"f3": cage(10)}),
        cable("B01", "old/q", ["core/1", "vault/f3"], "twinax", 1.0),
    )  # fmt: skip

    assert ["storage: B01 vault/f3 > old/q, core/1"] == shown(plan)


def test_what_hangs_on_the_tails_of_a_breakout_is_plugged_in_the_order_of_the_tails() -> None:
    plan = wired(
        switch("core", {"q": cage(40)}), panel("bay"), seat("cut-1", {"x": cage(10)}), seat("cut-2", {"x": cage(10)}),
        cable("B01", "core/q", ["bay/1", "bay/2"], "OM4", 1.0),
        cable("C02", "bay/2", "cut-2/x", "OM4", 1.0), cable("C01", "bay/1", "cut-1/x", "OM4", 1.0),
    )  # fmt: skip

    assert ["B01", "C01", "C02"] == [step.cable for step in plug_order(plan, build_topology(plan))]


def test_a_seats_own_cable_to_a_storage_or_by_an_adapter_belongs_to_the_seats() -> None:
    plug, socket = Port(connector="thunderbolt"), Port(connector="thunderbolt")
    dock = device("dock", "adapter", {"host": plug, "net": jack()})
    plan = wired(
        seat("cut-1", {"wire": jack(), "tb": socket}), dock, vault(), switch("core"),
        cable("T01", "cut-1/tb", "dock/host", "thunderbolt", 0.5), cable("C01", "dock/net", "core/1"),
        cable("X01", "cut-1/wire", "vault/fast"),
    )  # fmt: skip

    assert {step.group for step in plug_order(plan, build_topology(plan))} == {"seats"}


def test_a_seat_stays_a_seat_beside_its_adapter() -> None:
    plug = Port(connector="thunderbolt")
    plan = wired(
        seat("cut-1", {"wire": jack(), "tb": plug}), device("dock", "adapter", {"host": plug}), switch("core"),
        cable("T01", "cut-1/tb", "dock/host", "thunderbolt", 0.5), cable("X01", "cut-1/wire", "core/1"),
    )  # fmt: skip

    assert ["seats: T01 dock/host > cut-1/tb", "seats: X01 core/1 > cut-1/wire"] == shown(plan)


def test_a_seat_stays_a_seat_beside_a_storage_that_hangs_on_it() -> None:
    plug = Port(connector="thunderbolt")
    plan = wired(
        seat("cut-1", {"wire": jack(), "tb": plug}), vault(ports={"host": plug}), switch("core"),
        cable("T01", "cut-1/tb", "vault/host", "thunderbolt", 0.5), cable("X01", "cut-1/wire", "core/1"),
    )  # fmt: skip

    assert {"seats"} == {step.group for step in plug_order(plan, build_topology(plan))}


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


def is_in_the_wall(plan: Plan, one: Cable) -> bool:
    """Whether a cable is twisted pair from panel or outlet to panel or outlet, and no cord."""
    roles = {plan.devices[end.device].role for end in one.ends}
    return roles <= {"panel", "outlet"} and one.category in COPPER_CATEGORIES and one.cord_awg is None


def test_only_what_is_owned_is_unplugged() -> None:
    plan = wired(
        seat("cut-1"), seat("cut-2"), vault(), switch("core"), panel("plate"), panel("bay"),
        cable("D01", "core/3", "vault/fast", owned=True), cable("C01", "cut-1/wire", "core/1", owned=True),
        cable("C02", "cut-2/wire", "plate/1", owned=False), cable("W01", "plate/1", "bay/1", owned=True),
        cable("P01", "bay/1", "core/2"), cable("W02", "plate/2", "bay/2", installed=True, owned=True),
    )  # fmt: skip
    topology = build_topology(plan)

    assert ["D01", "C01", "P01", "C02"] == [step.cable for step in plug_order(plan, topology)]
    assert [(1, "seats", "C01"), (2, "storage", "D01")] == [step[:3] for step in unplug_order(plan, topology)]
    assert () == unplug_order(ROOM, build_topology(ROOM))


@settings(max_examples=40, deadline=None)
@given(plans())
def test_every_loose_cable_of_any_plan_is_plugged_once_and_unplugged_in_reverse_if_owned(plan: Plan) -> None:
    topology = build_topology(plan)
    plug, unplug = plug_order(plan, topology), unplug_order(plan, topology)
    passive = {each.name for each in plan.devices.values() if each.passive}
    loose = {name: one for name, one in plan.cables.items() if not one.installed and not is_laid(one, passive)}

    assert sorted(loose) == sorted(step.cable for step in plug)
    assert [step[1:] for step in unplug] == [step[1:] for step in reversed(plug) if loose[step.cable].owned]
    assert list(range(1, len(plug) + 1)) == [step.number for step in plug]
    assert list(range(1, len(unplug) + 1)) == [step.number for step in unplug]
    assert all({step.first, *step.then} == set(loose[step.cable].ends) for step in plug)
    groups = [GROUPS.index(step.group) for step in plug]
    assert groups == sorted(groups)
