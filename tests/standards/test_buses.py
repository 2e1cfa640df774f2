"""Host buses: what each generation signals and leaves for data."""

import pytest

from netaudit.standards.buses import BusKey, host_buses, host_cables

G = 1_000_000_000


@pytest.mark.parametrize("kind", ["pcie", "thunderbolt"])
def test_a_later_generation_signals_no_slower(kind: str) -> None:
    signals = [bus.signal_bit_per_s for (of, _), bus in sorted(host_buses().items()) if of == kind]
    assert signals == sorted(signals)


@pytest.mark.parametrize(
    ("bus", "active", "lengths"),
    [
        # direct.pc-physics.com, a drive maker's answers, and the table of USB Type-C R2.0 at people.kernel.org
        (("thunderbolt", 3), False, [(0.8, 40), (2, 20)]),
        (("thunderbolt", 4), False, [(0.8, 40), (2, 20)]),
        (("usb", 40 * G), False, [(0.8, 40), (2, 20)]),
        (("usb", 5 * G), False, [(2, 5)]),
        (("usb", 10 * G), False, [(1, 10), (2, 5)]),
        # hardwaresecrets.com on Thunderbolt: copper to 3 m, optical to 60 m
        (("thunderbolt", 1), False, [(3, 10)]),
        (("thunderbolt", 2), True, [(60, 20)]),
        (("thunderbolt", 3), True, [(2, 40)]),
        # datastoragereport.com on Thunderbolt 5: passive to 1 m; what a longer one carries is from memory
        (("thunderbolt", 5), False, [(1, 80), (2, 20)]),
    ],
)
def test_how_far_a_host_cable_holds_a_signal(bus: BusKey, active: bool, lengths: list[tuple[float, int]]) -> None:
    assert lengths == [(reach.reach_m, reach.signal_bit_per_s // G) for reach in host_cables()[bus, active]]


def test_longer_cables_hold_slower_signals_and_the_shortest_the_whole_bus() -> None:
    for (bus, active), reaches in host_cables().items():
        assert {(bus, active)} == {(reach.bus, reach.active) for reach in reaches}
        lengths = [reach.reach_m for reach in reaches]
        signals = [reach.signal_bit_per_s for reach in reaches]
        assert lengths == sorted(set(lengths))
        assert signals == sorted(set(signals), reverse=True)
        assert (bus, host_buses()[bus].signal_bit_per_s) == (reaches[0].runs_like, signals[0])


def test_a_lowered_bus_runs_like_one_of_the_table_with_that_signal() -> None:
    for reaches in host_cables().values():
        for reach in reaches:
            assert reach.signal_bit_per_s == host_buses()[reach.runs_like].signal_bit_per_s


def test_every_thunderbolt_and_usb_bus_has_its_cables_with_and_without_electronics() -> None:
    buses = {bus for bus in host_buses() if bus[0] != "pcie"}
    assert {(bus, active) for bus in buses for active in (False, True)} == set(host_cables())
