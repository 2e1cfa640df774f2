"""Buses against published tables of PCI Express, USB and Thunderbolt."""

import pytest

from netaudit.calculations.buses import fastest_over, lowering, reaches_of, usable_bit_per_s
from netaudit.model.plan import Bus, BusKind, HostCable

GIGA = 1_000_000_000
PACKET_SHARE = 256 / (256 + 24)
"""Packets of 256 octets carry 20 to 28 octets of overhead (an FPGA maker's application notes); 24 is the middle."""


def usable(**facts: object) -> int:
    found = usable_bit_per_s(Bus(**facts))  # type: ignore[arg-type]
    assert found is not None
    return found.rate_bit_per_s


@pytest.mark.parametrize(
    ("generation", "lanes", "gigabyte_per_s"),
    [
        # hpc-notes.pages.dev/reference/pcie, x1 and x16
        (1, 1, 0.25),
        (2, 1, 0.50),
        (3, 1, 0.99),
        (4, 1, 1.97),
        (5, 1, 3.94),
        (1, 16, 4.0),
        (2, 16, 8.0),
        (3, 16, 15.7),
        (4, 16, 31.5),
        (5, 16, 63.0),
        # systemrequirements.net, PCIe bandwidth calculator: generation 4 x4
        (4, 4, 7.876),
    ],
)
def test_pci_express_carries_its_published_rate_less_packet_headers(
    generation: int, lanes: int, gigabyte_per_s: float
) -> None:
    carried = usable(kind="pcie", generation=generation, lanes=lanes)
    assert gigabyte_per_s * 8e9 * PACKET_SHARE == pytest.approx(carried, rel=0.007)


@pytest.mark.parametrize(("generation", "lanes", "giga"), [(3, 1, 7.2), (2, 2, 7.3), (2, 4, 14.6)])
def test_the_narrow_slots_that_a_fast_port_outruns(generation: int, lanes: int, giga: float) -> None:
    """Rate x line code x 256/280, worked by hand: 10G in 3 x1 and 2 x2, 25G in 2 x4."""
    assert giga == round(usable(kind="pcie", generation=generation, lanes=lanes) / 1e9, 1)


@pytest.mark.parametrize(
    ("rate_g", "generation", "lanes"),
    [(10, 2, 4), (10, 3, 2), (10, 4, 1), (25, 3, 4), (25, 4, 2), (40, 3, 8), (100, 3, 16), (100, 4, 8), (100, 5, 4)],
)
def test_the_narrowest_slot_for_one_port_holds_its_rate_and_half_of_it_does_not(
    rate_g: int, generation: int, lanes: int
) -> None:
    """Electrical slots that adapter makers name for one port at line rate."""
    assert usable(kind="pcie", generation=generation, lanes=lanes) >= rate_g * GIGA
    if lanes > 1:
        assert usable(kind="pcie", generation=generation, lanes=lanes // 2) < rate_g * GIGA


@pytest.mark.parametrize(("rate_g", "megabyte_per_s"), [(5, 500), (10, 1212), (20, 2424)])
def test_usb_carries_what_its_line_code_leaves(rate_g: int, megabyte_per_s: int) -> None:
    """Wikipedia, USB 3.2, table of transfer modes: 500, 1212 and 2424 MB/s."""
    assert megabyte_per_s == int(usable(kind="usb", rate_bit_per_s=rate_g * GIGA) / 8e6)


@pytest.mark.parametrize(
    ("generation", "giga"),
    [
        # One of Thunderbolt 1's two channels, less packet headers; 11 from memory; 22 measured on Thunderbolt 3;
        # 5.8 GB/s written on Thunderbolt 5, datastoragereport.com
        (1, 9.1),
        (2, 11),
        (3, 22),
        (4, 22),
        (5, 46),
    ],
)
def test_thunderbolt_carries_what_adapters_get_in_practice(generation: int, giga: float) -> None:
    assert giga == round(usable(kind="thunderbolt", generation=generation) / 1e9, 1)


@pytest.mark.parametrize(
    ("kind", "generation", "rate_g", "standing"),
    [
        ("pcie", 3, None, "secondary"),
        ("pcie", 6, None, "memory"),
        ("thunderbolt", 2, None, "memory"),
        ("thunderbolt", 3, None, "secondary"),
        ("thunderbolt", 4, None, "computed"),
        ("usb", None, 40, "computed"),
    ],
)
def test_a_bus_says_how_well_its_figure_is_known(
    kind: BusKind, generation: int | None, rate_g: int | None, standing: str
) -> None:
    rate = None if rate_g is None else rate_g * GIGA
    found = usable_bit_per_s(Bus(kind=kind, generation=generation, lanes=4, rate_bit_per_s=rate))
    assert found is not None
    assert standing == found.source.standing


@pytest.mark.parametrize(
    "bus",
    [
        Bus(kind="pcie"),
        Bus(kind="pcie", generation=3),
        Bus(kind="pcie", lanes=4),
        Bus(kind="pcie", generation=9, lanes=4),
        Bus(kind="thunderbolt"),
        Bus(kind="thunderbolt", generation=6),
        Bus(kind="usb"),
        Bus(kind="usb", rate_bit_per_s=480_000_000),
        Bus(kind="usb", generation=3),
    ],
)
def test_a_bus_that_is_not_fully_known_or_in_no_table_is_unknown(bus: Bus) -> None:
    assert usable_bit_per_s(bus) is None


def test_more_lanes_and_later_generations_carry_more() -> None:
    carried = [
        [usable(kind="pcie", generation=generation, lanes=lanes) for lanes in (1, 2, 4, 8, 16)]
        for generation in range(1, 7)
    ]
    assert all(row == sorted(row) for row in carried)
    assert all(list(column) == sorted(column) for column in zip(*carried, strict=True))


TB3 = Bus(kind="thunderbolt", generation=3)


@pytest.mark.parametrize(
    ("bus", "length_m", "active", "giga", "standing"),
    [
        # Thunderbolt 3 passive: 40 Gb/s to 0.8 m, 20 Gb/s to 2 m (direct.pc-physics.com); 11 Gb/s there from memory
        (TB3, 0.8, False, 22, "secondary"),
        (TB3, 0.81, False, 11, "memory"),
        (TB3, 2.0, False, 11, "memory"),
        (TB3, 2.0, True, 22, "secondary"),
        # a 2 m cable runs a 10 Gb/s device at 5 Gb/s: graniteriverlabs.com on passive cables for USB4
        (Bus(kind="usb", rate_bit_per_s=10 * GIGA), 1.0, False, 9.7, "secondary"),
        (Bus(kind="usb", rate_bit_per_s=10 * GIGA), 1.01, False, 4.0, "secondary"),
        (Bus(kind="usb", rate_bit_per_s=20 * GIGA), 2.0, False, 4.0, "memory"),
        (Bus(kind="usb", rate_bit_per_s=40 * GIGA), 1.5, False, 11, "memory"),
        (Bus(kind="thunderbolt", generation=2), 3.0, False, 11, "memory"),
        (Bus(kind="thunderbolt", generation=5), 1.0, False, 46, "secondary"),
        (Bus(kind="thunderbolt", generation=5), 2.0, True, 46, "secondary"),
    ],
)
def test_a_host_cable_lowers_its_bus(bus: Bus, length_m: float, active: bool, giga: float, standing: str) -> None:
    found = usable_bit_per_s(bus, HostCable(length_m, active))
    assert found is not None
    assert (giga, standing) == (round(found.rate_bit_per_s / 1e9, 1), found.source.standing)


def test_a_lowered_bus_rests_on_the_cable_or_on_what_is_known_less_well() -> None:
    lowered = usable_bit_per_s(Bus(kind="usb", rate_bit_per_s=10 * GIGA), HostCable(2.0))
    assert lowered is not None
    assert "graniteriverlabs.com" in lowered.source.document
    whole = usable_bit_per_s(Bus(kind="usb", rate_bit_per_s=10 * GIGA), HostCable(1.0))
    assert whole == usable_bit_per_s(Bus(kind="usb", rate_bit_per_s=10 * GIGA))


@pytest.mark.parametrize("length_m", [2.01, 30.0])
def test_what_a_cable_past_every_limit_leaves_is_unknown(length_m: float) -> None:
    assert usable_bit_per_s(TB3, HostCable(length_m)) is None
    assert fastest_over(TB3, HostCable(length_m)) is None
    assert lowering(TB3, HostCable(length_m)) is None


def test_a_cable_of_a_bus_without_published_lengths_takes_nothing_away() -> None:
    slot = Bus(kind="pcie", generation=3, lanes=4)
    assert usable_bit_per_s(slot, HostCable(5.0)) == usable_bit_per_s(slot)
    assert reaches_of(slot, active=False) == reaches_of(Bus(kind="usb"), active=False) == ()
    assert lowering(slot, HostCable(5.0)) is None


def test_only_a_cable_that_takes_something_away_lowers_its_bus() -> None:
    assert lowering(TB3, HostCable(0.5)) is None
    held = lowering(TB3, HostCable(1.0))
    assert held is not None
    assert (20 * GIGA, ("thunderbolt", 2)) == (held.signal_bit_per_s, held.runs_like)
