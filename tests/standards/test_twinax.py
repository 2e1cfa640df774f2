"""Made-up cables against second publications typed in by hand."""

import pytest

from netaudit.standards.twinax import twinax_reach, twinax_reach_of

GIGA = 1_000_000_000


@pytest.mark.parametrize(
    ("rate_g", "kind", "reach_m"),
    [
        # FAQ about 40G Optical Network, fowiki.com
        (40, "twinax", 7),
        # 25GbE interface, itwissen.info
        (25, "twinax", 5),
        # Definitions of 802.3bj and 802.3cd: at least 5 m and 3 m
        (100, "twinax", 5),
        (50, "twinax", 3),
    ],
)
def test_the_length_of_direct_attach(rate_g: int, kind: str, reach_m: float) -> None:
    assert reach_m == twinax_reach()[rate_g * GIGA, kind].reach_m


@pytest.mark.parametrize(
    ("phy", "reach_m"),
    [
        # description of IEEE 802.3by, informant158.rssing.com: CR-S has no RS-FEC, so cable classes of 3 m only
        ("25GBASE-CR", 5),
        ("25GBASE-CR-S", 3),
        ("100GBASE-CR4", 5),
        # from memory
        ("100GBASE-CR2", 3),
    ],
)
def test_the_length_of_direct_attach_by_physical_layer(phy: str, reach_m: float) -> None:
    assert reach_m == twinax_reach_of()[phy, "twinax"].reach_m


@pytest.mark.parametrize(("rate_g", "phy"), [(25, "25GBASE-CR"), (100, "100GBASE-CR4")])
def test_a_rate_goes_by_the_layer_that_ports_usually_run(rate_g: int, phy: str) -> None:
    assert phy == twinax_reach()[rate_g * GIGA, "twinax"].phy
