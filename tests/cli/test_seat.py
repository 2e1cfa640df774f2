"""The seat of a plan that this machine is."""

from __future__ import annotations

from pathlib import Path

import pytest
from machines import SLOW_VAULT, VAULT, FakeMachine

from netaudit.cli.seat import Seat, find_seat
from netaudit.errors import InputError
from netaudit.model.machine_state import Interface
from netaudit.model.observation import FarAddress, Observation
from netaudit.probing.request import Request

PLAN = """
netaudit: 1
devices:
  cut-1:
    role: station
    ports: {wire: {connector: rj45, rates: up to 10G, address: 10.44.20.11, interface: en5, mtu: 9000}}
  cut-2: {role: station, ports: {wire: {connector: rj45, rates: up to 10G, address: 10.44.20.12}}}
  core: {role: switch, ports: {1-2: {connector: rj45, rates: up to 10G}}}
  vault: {role: storage, ports: {fast: {connector: rj45, rates: up to 10G, address: 10.44.20.10, mtu: 9000}}}
cables:
  C01: {from: cut-1/wire, to: core/1, category: 6A, length: 3 m}
  C02: {from: vault/fast, to: core/2, category: 6A, length: 3 m}
"""


@pytest.fixture
def plan_file(tmp_path: Path) -> str:
    path = tmp_path / "room.yaml"
    path.write_text(PLAN, encoding="utf-8")
    return str(path)


@pytest.fixture
def seat(plan_file: str) -> Seat:
    return find_seat(plan_file, "cut-1", FakeMachine())


def test_a_seat_is_the_one_that_is_named_or_else_the_one_with_this_machines_address(plan_file: str) -> None:
    assert "cut-2" == find_seat(plan_file, "cut-2", FakeMachine()).station.name
    assert "cut-1" == find_seat(plan_file, None, FakeMachine()).station.name


def test_a_seat_that_is_named_is_not_looked_for(plan_file: str) -> None:
    machine = FakeMachine()
    find_seat(plan_file, "cut-1", machine)

    assert [] == machine.asked


def test_a_machine_that_no_station_resembles_must_be_named(plan_file: str) -> None:
    with pytest.raises(InputError, match="none of them is recognised by address: give --station, one of cut-1, cut-2"):
        find_seat(plan_file, None, FakeMachine(known_interfaces={"en0": Interface("en0")}))


def test_only_a_station_is_a_seat(plan_file: str) -> None:
    with pytest.raises(InputError, match="'vault' is no station of the plan; the stations are cut-1, cut-2"):
        find_seat(plan_file, "vault", FakeMachine())


def test_a_request_gets_the_addresses_and_the_packet_that_are_planned(seat: Seat) -> None:
    refined = seat.refined(Request("vault"))

    assert ((VAULT,), 9000) == (refined.fallback, refined.mtu)
    assert () == seat.refined(Request("10.44.20.10")).fallback


def test_a_storage_is_known_by_what_was_observed(seat: Seat) -> None:
    seen = Observation("nas", "linux", "nas", (445,), addresses=(FarAddress(VAULT, "dns"),))

    assert "vault" == seat.expects_of(seen).storage
    assert "vault" == seat.expects("vault", [SLOW_VAULT]).storage


def test_the_planned_interface_is_looked_at_closely_once_it_is_recognised(seat: Seat) -> None:
    seen = Observation("vault", "linux", "vault", (445,), interfaces={"en5": Interface("en5")})

    assert ("en5",) == seat.planned_interfaces(seen)
    assert () == seat.planned_interfaces(seen._replace(interfaces={"en0": Interface("en0")}))


def test_a_seats_links_count_on_lengths_that_follow_from_the_room(tmp_path: Path) -> None:
    """A channel of category 6A may be 100 m long: with its way down the route of 97 m is longer, that of 12 m is not."""
    for route_m, promised in ((12, 10_000_000_000), (97, 0)):
        text = PLAN.replace("category: 6A, length: 3 m", "category: 6A, via: [duct]", 1).replace(
            "role: station\n", "role: station\n    room: loft\n"
        )
        text = text.replace("role: switch,", "role: switch, rack: {name: bay, unit: 8},")
        path = tmp_path / f"{route_m}.yaml"
        path.write_text(
            f"{text}rooms: {{loft: {{}}}}\nracks: {{bay: {{units: 12, depth: 600 mm}}}}\nroutes: {{duct: {route_m} m}}\n",
            encoding="utf-8",
        )
        road = find_seat(str(path), "cut-1", FakeMachine()).expects("vault").road

        assert road is not None
        assert promised == road.promised_bit_per_s
