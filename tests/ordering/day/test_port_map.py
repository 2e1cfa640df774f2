"""The port map: every port once, each cable's other end, and what stands at the end of the whole channel."""

from __future__ import annotations

from collections import Counter
from ipaddress import ip_address

from hypothesis import given, settings
from strategies import plans
from wiring import G, aerial, cable, cage, device, jack, network, panel, ref, seat, switch, vault, wired

from netaudit.model.moving import PortRow
from netaudit.model.place import PortRef
from netaudit.model.plan import Bond, Plan
from netaudit.network.topology import build_topology
from netaudit.ordering.day.port_map import port_map


def rows(plan: Plan, port: str) -> list[PortRow]:
    """The rows of one port."""
    return [row for row in port_map(plan, build_topology(plan)) if row.port == ref(port)]


def ends(plan: Plan, port: str) -> list[tuple[str | None, str, str, int | None]]:
    """Cable, far end, peer and rate of each row of a port."""
    return [(row.cable, str(row.far), str(row.peer), row.rate_bit_per_s) for row in rows(plan, port)]


WALL = wired(
    seat("cut-1"), panel("plate"), panel("bay"), switch("core"),
    cable("C01", "cut-1/wire", "plate/1"), cable("W01", "plate/1", "bay/1"), cable("P01", "bay/1", "core/1"),
    cable("W02", "plate/2", "bay/2"), cable("P02", "bay/2", "core/2"),
    cable("W03", "plate/3", "bay/3"),
)  # fmt: skip


def test_an_active_port_shows_its_cable_the_far_plug_and_the_machine_behind_the_wall() -> None:
    assert ends(WALL, "cut-1/wire") == [("C01", "plate/1", "core/1", 10 * G)]
    assert ends(WALL, "core/1") == [("P01", "bay/1", "cut-1/wire", 10 * G)]


def test_a_passive_port_has_a_row_for_each_cable_with_what_lies_in_its_direction() -> None:
    assert ends(WALL, "plate/1") == [("C01", "cut-1/wire", "cut-1/wire", 10 * G), ("W01", "bay/1", "core/1", 10 * G)]


def test_a_run_that_stops_shows_what_it_comes_from_and_no_rate() -> None:
    assert ends(WALL, "core/2") == [("P02", "bay/2", "None", None)]
    assert ends(WALL, "bay/2") == [("W02", "plate/2", "None", None), ("P02", "core/2", "core/2", None)]
    assert ends(WALL, "plate/2") == [("W02", "bay/2", "core/2", None)]


def test_a_spare_run_shows_its_other_end_and_no_peer() -> None:
    assert ends(WALL, "plate/3") == [("W03", "bay/3", "None", None)]


def test_a_free_port_has_a_row_with_nothing_in_it() -> None:
    assert ends(WALL, "core/7") == [(None, "None", "None", None)]


def test_the_trunk_of_a_breakout_has_a_row_for_each_tail() -> None:
    plan = wired(
        switch("core", {"q": cage(40)}), vault("a", {"x": cage(10)}), vault("b", {"x": cage(10)}),
        cable("B01", "core/q", ["a/x", "b/x"], "twinax", 1.0),
    )  # fmt: skip

    assert [row[:3] for row in ends(plan, "core/q")] == [("B01", "a/x", "a/x"), ("B01", "b/x", "b/x")]
    assert [row[:3] for row in ends(plan, "b/x")] == [("B01", "core/q", "core/q")]


def test_a_spare_run_behind_a_breakout_shows_the_machine_at_its_trunk() -> None:
    plan = wired(
        switch("core", {"q": cage(40)}), panel("bay"), panel("plate"),
        cable("B01", "core/q", ["bay/1", "bay/2"], "OM4"), cable("W02", "bay/2", "plate/2", "OM4"),
    )  # fmt: skip

    assert [("W02", "bay/2", "core/q", None)] == ends(plan, "plate/2")


def test_a_spare_run_behind_a_trunk_shows_none_of_the_machines_at_its_tails() -> None:
    tails = [vault(name, {"x": cage(10)}) for name in "ab"]
    plan = wired(
        *tails, panel("bay"), panel("plate"),
        cable("B01", "bay/1", ["a/x", "b/x"], "OM4"), cable("W01", "bay/1", "plate/1", "OM4"),
    )  # fmt: skip

    assert [("W01", "bay/1", "None", None)] == ends(plan, "plate/1")
    assert [("B01", "a/x", "a/x", None), ("B01", "b/x", "b/x", None), ("W01", "plate/1", "None", None)] == ends(
        plan, "bay/1"
    )


def test_members_of_a_bond_show_its_network_and_addresses() -> None:
    address = ip_address("10.44.20.10")
    bond = Bond(("a", "b"), untagged="media", addresses=(address,))
    plan = wired(network("media"), vault(ports={"a": jack(), "b": jack(), "c": jack()}, bonds={"lag": bond}))

    assert [(row.network, row.addresses) for port in "abc" for row in rows(plan, f"vault/{port}")] == [
        ("media", (address,)), ("media", (address,)), (None, ()),
    ]  # fmt: skip


def test_a_radio_shows_the_one_access_point_it_can_join_and_nothing_where_there_are_two() -> None:
    one = device("beacon", "access-point", {"air": aerial(1.2)})
    two = device("lantern", "access-point", {"air": aerial(1.2)})
    client = seat("cut-1", {"air": aerial(0.6)})

    assert ends(wired(client, one), "cut-1/air") == [(None, "None", "beacon/air", 600_000_000)]
    assert ends(wired(client, one, two), "cut-1/air") == [(None, "None", "None", None)]


@settings(max_examples=40, deadline=None)
@given(plans())
def test_every_port_of_any_plan_has_a_row_for_each_plug_in_file_order(plan: Plan) -> None:
    found = port_map(plan, build_topology(plan))
    ports = [PortRef(each.name, port) for each in plan.devices.values() for port in each.ports]
    assert ports == list(dict.fromkeys(row.port for row in found))
    assert {(row.port, row.cable, row.far) for row in found if row.cable is not None} == {
        plug
        for one in plan.cables.values()
        for far in one.to_ports
        for plug in ((one.from_port, one.name, far), (far, one.name, one.from_port))
    }
    if all(len(one.to_ports) == 1 for one in plan.cables.values()):
        plugs = Counter(end for one in plan.cables.values() for end in one.ends)
        assert {port: max(1, plugs[port]) for port in ports} == Counter(row.port for row in found)
