"""Optics: connectors, fibres and partners, against second publications typed in by hand."""

import pytest

from netaudit.standards.fibre import fibre_reach
from netaudit.standards.optics import optics
from netaudit.standards.phys import phys


@pytest.mark.parametrize(
    ("phy", "connector", "fibres"),
    [
        # Ethernet Alliance, 10GbE Standardized to 400 Meters on OM4 Fiber (June 2012): parallel layers use 8 and 20
        ("40GBASE-SR4", "mpo", 8),
        ("100GBASE-SR10", "mpo", 20),
        # NVIDIA, design guide for cabling data centers: SR4 and PSM4 on MPO, CWDM4 and LR4 on LC
        ("100GBASE-SR4", "mpo", 8),
        ("PSM4", "mpo", 8),
        ("CWDM4", "lc", 2),
        ("100GBASE-LR4", "lc", 2),
        ("10GBASE-SR", "lc", 2),
        ("25GBASE-SR", "lc", 2),
        ("40GBASE-LR4", "lc", 2),
        # l-p.com, guide to 1000BASE-BX10-D modules: one strand, simplex LC
        ("1000BASE-BX10-D", "lc", 1),
        ("10GBASE-BR10-U", "lc", 1),
    ],
)
def test_what_a_module_needs(phy: str, connector: str, fibres: int) -> None:
    assert (connector, fibres) == (optics()[phy].connector, optics()[phy].fibres)


def test_every_layer_over_fibre_has_its_optic_and_no_other() -> None:
    assert set(optics()) == {phy for phy, _ in fibre_reach()}
    assert {phys()[phy].medium for phy in optics()} == {"multimode", "singlemode", "either"}


def test_two_halves_name_each_other_and_all_others_pair_with_their_like() -> None:
    for name, optic in optics().items():
        assert name == optics()[optic.opposite].opposite
        assert (optic.fibres == 1) == (optic.partner is not None)
        if optic.partner is None:
            assert name == optic.opposite
        else:
            assert name != optic.opposite
            assert name[:-1] == optic.partner[:-1]
            assert phys()[name].rate_bit_per_s == phys()[optic.partner].rate_bit_per_s


def test_what_a_module_needs_may_fail_a_plan() -> None:
    assert all(optic.source.may_fail for optic in optics().values())


def test_long_reach_modules_of_one_gigabit_hear_each_other_and_no_other_unequal_ones_do() -> None:
    """IEEE 802.3 clause 59 makes 1000BASE-LX10 for links with 1000BASE-LX as well: from memory."""
    unequal = {
        (one, other) for one, optic in optics().items() for other in optics() if one != other and optic.hears(other)
    }
    halves = {(name, optic.partner) for name, optic in optics().items() if optic.partner}

    assert unequal - halves == {("1000BASE-LX", "1000BASE-LX10"), ("1000BASE-LX10", "1000BASE-LX")}
    assert all(optic.hears(optic.opposite) for optic in optics().values())
