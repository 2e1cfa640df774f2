"""Drafts: every one reads back as itself and can be judged; one from defaults alone is good."""

from __future__ import annotations

from collections.abc import Collection
from ipaddress import IPv4Network, ip_network

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import device_names, lengths_m, maybe, names, pools

import netaudit
from netaudit.model.plan import COPPER_CATEGORIES, Cable, Plan, Station, Storage, Switch
from netaudit.model.report import Report
from netaudit.plan.draft import draft
from netaudit.plan.drafting.answers import Answers, Run, Seat
from netaudit.plan.drafting.interview import answers_in
from netaudit.plan.drafting.remarks import remarks
from netaudit.plan.load import loads
from netaudit.plan.writing.write import write


@st.composite
def answers(draw: st.DrawFn) -> Answers:
    """Whatever may be answered, unusual names included."""
    switched = draw(st.booleans())
    seats = draw(st.lists(device_names(), min_size=1, max_size=6 if switched else 3, unique=True))
    rooms = draw(st.lists(names(), min_size=1, max_size=3, unique=True))
    wall = st.sampled_from((None, "unknown", *COPPER_CATEGORIES))
    runs = {room: Run(draw(maybe(lengths_m())), draw(wall)) for room in rooms}
    walled = any(run.wall for run in runs.values())
    return Answers(
        name=draw(names()),
        seats=tuple(
            Seat(
                seat,
                draw(st.sampled_from((None, "macos", "windows", "linux"))),
                draw(st.integers(10**3, 10**10)),
                draw(st.sampled_from(rooms)),
            )
            for seat in seats
        ),
        runs=runs,
        switched=switched,
        storage=draw(device_names().filter(lambda name: name not in seats)),
        storage_port=draw(st.sampled_from(("rj45", "sfp+"))) if switched or not walled else "rj45",
        storage_rate_bit_per_s=draw(st.sampled_from((10**9, 25 * 10**8, 5 * 10**9, 10**10))),
        disks=draw(maybe(pools())),
        wifi=draw(st.booleans()),
        office_subnet=draw(
            maybe(st.sampled_from(("192.168.1.0/24", "10.0.0.0/8", "172.16.0.0/12", "fd00::/64")).map(ip_network))
        ),
    )


SLOW = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@SLOW
@given(answers())
def test_a_draft_reads_back_as_itself_and_can_be_judged(room: Answers) -> None:
    plan = draft(room)

    assert plan == loads(write(plan, remarks(plan)))
    assert {seat.name for seat in room.seats} == {judged.path.station for judged in netaudit.check(plan).paths}


@SLOW
@given(answers())
def test_no_subnet_for_storage_touches_another(room: Answers) -> None:
    subnets = [subnet for network in draft(room).networks.values() for subnet in network.subnets]

    assert not any(one.overlaps(other) for nth, one in enumerate(subnets) for other in subnets[:nth])


def plan_of(text: str) -> Plan:
    return draft(answers_in(text, "room.yaml"))


def report_of(text: str) -> Report:
    plan = plan_of(text)
    return netaudit.check(loads(write(plan, remarks(plan))))


def severities(report: Report) -> set[str]:
    return {finding.severity for finding in report.findings}


@pytest.mark.parametrize(
    "text",
    [
        "{}",
        "seats: 1",
        "{seats: 2, switch: no}",
        "{seats: 3, switch: no}",
        "seats: 4",
        "seats: 64",
        "walls: 6A",
        "storage_port: rj45",
        "systems: windows",
        "systems: linux",
        "wifi: no",
        "office_subnet: 10.0.0.0/8",
        "wants: [1G, 10G, 10G]",
        "{seats: 1, walls: 6A}",
        "{seats: 1, storage_port: sfp+, distances: 3 m}",
    ],
)
def test_a_usual_room_is_good_as_it_is_drafted(text: str) -> None:
    report = report_of(text)

    assert "pass" == report.summary.verdict
    assert severities(report) <= {"note"}


@pytest.mark.parametrize(
    ("text", "verdict"),
    [
        ("walls: 5e", "fail"),
        ("walls: unknown", "incomplete"),
        ("{walls: 6, distances: 60 m}", "fail"),
        ("distances: 200 km", "fail"),
        ("{walls: 6A, distances: unknown}", "incomplete"),
        ("{storage_port: rj45, storage_rate: 1G}", "fail"),
        ("{seats: 1, storage_port: sfp+, distances: 20 m}", "fail"),
    ],
)
def test_what_is_not_good_is_drafted_all_the_same_and_judged(text: str, verdict: str) -> None:
    assert verdict == report_of(text).summary.verdict


def cables_of(text: str) -> list[str]:
    return [f"{name} {_written(cable)}" for name, cable in plan_of(text).cables.items()]


def _written(cable: Cable) -> str:
    return (
        f"{cable.from_port} - {cable.to_ports[0]} {cable.category} {cable.length_m} {cable.cord_awg} {cable.installed}"
    )


def test_cords_lie_all_the_way_where_nothing_is_in_the_wall() -> None:
    assert [
        "C01 cut-1/wire - core/1 6A 20.0 24 False",
        "D01 core/5 - vault/fast twinax 1.0 None False",
    ] == cables_of("{seats: 1, switch: yes, distances: 20 m}")


def test_a_wall_lies_between_an_outlet_and_a_panel() -> None:
    assert [
        "C01 cut-1/wire - edit room-plate/1 6A 3.0 26 False",
        "W01 edit room-plate/1 - panel/1 5e 20.0 None True",
        "P01 panel/1 - core/1 6A 1.0 26 False",
        "S01 core/2 - vault/fast 6A 1.0 26 False",
    ] == cables_of("{seats: 1, switch: yes, distances: 20 m, walls: 5e, storage_port: rj45}")


def test_a_cable_straight_to_a_cage_has_its_plugs_made_on() -> None:
    plan = plan_of("{seats: 1, storage_port: sfp+, distances: 3 m}")

    assert ["D01 cut-1/wire - vault/fast twinax 3.0 None False"] == cables_of(
        "{seats: 1, storage_port: sfp+, distances: 3 m}"
    )
    assert "sfp+" == plan.devices["cut-1"].ports["wire"].connector


def test_cables_straight_to_the_storage_pass_no_switch() -> None:
    plan = plan_of("{seats: 3, switch: no}")

    assert ["vault/fast-1", "vault/fast-2", "vault/fast-3"] == [str(each.to_ports[0]) for each in plan.cables.values()]
    assert not any(isinstance(device, Switch) for device in plan.devices.values())
    assert [None] * 3 == [network.gateway for network in plan.networks.values() if network.purpose == "storage"]


def addresses(plan: Plan, of: Collection[type]) -> list[str]:
    return [str(port.addresses[0]) for device in plan.devices.values() if type(device) in of for port in device.ports.values() if port.addresses]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "seats", "storage"),
    [
        ("seats: 3", ["10.44.20.11", "10.44.20.12", "10.44.20.13"], ["10.44.20.10"]),
        ("{seats: 2, switch: no}", ["10.44.20.11", "10.44.21.11"], ["10.44.20.10", "10.44.21.10"]),
    ],
)
def test_the_storage_has_address_10_and_seats_begin_at_11(text: str, seats: list[str], storage: list[str]) -> None:
    assert seats == addresses(plan_of(text), [Station])
    assert storage == addresses(plan_of(text), [Storage])


@pytest.mark.parametrize(
    ("wants", "port"), [("100M", 10**9), ("1G", 10**9), ("1001M", 25 * 10**8), ("300 MB/s", 25 * 10**8), ("4G", 5 * 10**9), ("10G", 10**10)]
)  # fmt: skip
def test_a_seat_has_the_slowest_port_that_gives_what_it_wants(wants: str, port: int) -> None:
    rates = plan_of(f"{{seats: 1, wants: {wants}}}").devices["cut-1"].ports["wire"].rates

    assert rates is not None
    assert port == rates.bit_per_s[0]


@pytest.mark.parametrize(
    ("seats", "port", "jacks", "cages"),
    [(3, "sfp+", 4, 2), (4, "sfp+", 8, 2), (2, "rj45", 4, 0), (3, "rj45", 8, 0), (64, "sfp+", 68, 2)],
)
def test_the_switch_has_a_port_for_each_seat_and_one_to_spare(seats: int, port: str, jacks: int, cages: int) -> None:
    plan = plan_of(f"{{seats: {seats}, switch: yes, storage_port: {port}}}")
    ports = plan.devices["core"].ports.values()

    assert (jacks, cages) == tuple(sum(each.connector == kind for each in ports) for kind in ("rj45", "sfp+"))
    assert len([each for each in plan.cables.values() if "core" in {end.device for end in each.ends}]) < jacks + cages


def test_the_switch_is_still_to_be_bought_so_that_the_bill_tells_what_to_look_for() -> None:
    plan = plan_of("{seats: 2, switch: yes}")

    assert plan.devices["core"].owned is False
    assert "owned: false" in write(plan, remarks(plan))
    assert ["core"] == [wanted.device for wanted in netaudit.bill(plan).specifications]
    assert {None} == {device.owned for device in plan.devices.values() if not isinstance(device, Switch)}


def test_the_panel_has_a_jack_for_each_run() -> None:
    assert [24, 48] == [
        len(plan_of(f"{{seats: {seats}, walls: 6A}}").devices["panel"].ports) for seats in (24, 25)
    ]  # fmt: skip


@pytest.mark.parametrize(("wifi", "ports", "networks"), [("yes", ["wire", "air"], 2), ("no", ["wire"], 1)])
def test_wifi_is_a_second_port_in_a_network_of_its_own(wifi: str, ports: list[str], networks: int) -> None:
    plan = plan_of(f"wifi: {wifi}")

    assert ports == list(plan.devices["cut-1"].ports)
    assert networks == len(plan.networks)
    assert [IPv4Network("10.44.20.0/24")] == list(plan.networks["media"].subnets)
