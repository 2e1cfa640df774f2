"""Free ports: what is left of each kind on every switch, panel and outlet."""

from __future__ import annotations

from collections import Counter

from hypothesis import given, settings
from strategies import plans
from wiring import G, aerial, cable, cage, device, jack, panel, seat, switch, topology_of, wired

from netaudit.model.bill import FreePorts
from netaudit.model.plan import Bond, Port
from netaudit.network.topology import build_topology
from netaudit.ordering.equipment.free_ports import free_ports, kind_of, kind_text, plugged_ports


def free(*things: object) -> tuple[FreePorts, ...]:
    return free_ports(wired(*things), topology_of(*things))  # type: ignore[arg-type]


def test_each_kind_of_port_is_a_row_in_file_order_also_where_none_is_left() -> None:
    core = switch("core", {"1": jack(), "2": jack(), "9": cage(), "3": jack(1)})
    assert (
        FreePorts("core", "rj45", 10 * G, free=1, of=2),
        FreePorts("core", "sfp+", 10 * G, free=0, of=1),
        FreePorts("core", "rj45", G, free=1, of=1),
    ) == free(
        seat("cut-1"),
        core,
        switch("up", {"9": cage()}),
        cable("C1", "cut-1/wire", "core/2"),
        cable("D1", "core/9", "up/9", "twinax"),
    )[:3]


def test_a_passive_port_with_one_cable_counts_as_taken_and_has_no_rate() -> None:
    plate = device("plate", "outlet", {"1": Port("rj45"), "2": Port("lc")})
    assert (
        FreePorts("plate", "rj45", None, free=0, of=1),
        FreePorts("plate", "lc", None, free=1, of=1),
        FreePorts("panel", "rj45", None, free=3, of=4),
    ) == free(plate, panel("panel"), cable("W1", "plate/1", "panel/1"))


def test_a_member_of_a_bond_without_a_cable_is_free_all_the_same() -> None:
    assert (FreePorts("core", "rj45", 10 * G, free=2, of=2),) == free(
        switch("core", 2, bonds={"both": Bond(("1", "2"))})
    )


def test_a_port_for_management_and_a_radio_are_no_ports_to_plug_a_seat_into() -> None:
    core = switch("core", {"1": jack(), "m": jack(1, purpose="management"), "air": aerial(1)})
    assert (FreePorts("core", "rj45", 10 * G, free=1, of=1),) == free(core)


def test_seats_adapters_and_routers_have_no_row() -> None:
    assert () == free(
        seat("cut-1"), device("dock", "adapter", {"1": jack()}), device("router", "router", {"lan": jack(1)})
    )


def test_a_kind_of_port_is_called_by_connector_and_rate_as_far_as_they_are_known() -> None:
    ports = [jack(), cage(25, 10), Port("lc"), Port(rates=jack(1).rates), Port()]
    assert ["rj45 10 Gb/s", "sfp+ 25 Gb/s", "lc", "port 1 Gb/s", "port"] == [kind_text(kind_of(port)) for port in ports]


@settings(max_examples=40, deadline=None)
@given(plans())
def test_free_and_taken_ports_are_all_ports(plan: object) -> None:
    topology = build_topology(plan)  # type: ignore[arg-type]
    rows = free_ports(plan, topology)  # type: ignore[arg-type]
    ends = {end for line in plan.cables.values() for end in line.ends}  # type: ignore[attr-defined]
    everything: Counter[tuple[str, object]] = Counter()
    taken: Counter[tuple[str, object]] = Counter()
    for each in plan.devices.values():  # type: ignore[attr-defined]
        if each.role not in ("switch", "panel", "outlet"):
            continue
        for name, port in plugged_ports(each).items():
            everything[each.name, kind_of(port)] += 1
            taken[each.name, kind_of(port)] += any((end.device, end.port) == (each.name, name) for end in ends)
    assert everything == Counter({(row.device, (row.connector, row.rate_bit_per_s)): row.of for row in rows})
    assert [row.of for row in rows] == [
        row.free + taken[row.device, (row.connector, row.rate_bit_per_s)]
        for row in rows  # type: ignore[index]
    ]
