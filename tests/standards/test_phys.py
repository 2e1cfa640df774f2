"""Physical layers: their clause, and the one over twisted pair of each rate."""

import pytest

from netaudit.standards.phys import base_t, phys

BASE_T = ("10BASE-T", "100BASE-TX", "1000BASE-T", "2.5GBASE-T", "5GBASE-T", "10GBASE-T", "25GBASE-T", "40GBASE-T")


@pytest.mark.parametrize(("phy", "clause"), [("1000BASE-T", "40"), ("10GBASE-T", "55"), ("40GBASE-CR4", "85")])
def test_the_clause_of_a_layer(phy: str, clause: str) -> None:
    """The contents list of IEEE 802.3 as sold, asmedoc.com."""
    assert clause == phys()[phy].clause


def test_the_layer_over_twisted_pair_goes_by_its_rate() -> None:
    assert [base_t(phys()[phy].rate_bit_per_s) for phy in BASE_T] == list(BASE_T)
    assert base_t(50_000_000_000) is None
