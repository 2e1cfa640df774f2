"""The tables against second publications, typed in here by hand; each names where its figures were read."""

import pytest

from netaudit.standards.copper import copper_reach, most_connections
from netaudit.standards.fibre import fibre_attenuation, fibre_reach, joints
from netaudit.standards.phys import phys
from netaudit.standards.twinax import twinax_reach

GIGA = 1_000_000_000


@pytest.mark.parametrize(
    ("phy", "category", "screened", "reach_m"),
    [
        # Ethernet Media Standards and Distances, University of Wisconsin-Madison, kb.wisc.edu/ns page 7829
        ("10BASE-T", "3", False, 100),
        ("100BASE-TX", "5", False, 100),
        ("1000BASE-T", "5", False, 100),
        ("10GBASE-T", "6", False, 55),
        ("10GBASE-T", "6", True, 100),
        ("10GBASE-T", "6A", False, 100),
        ("10GBASE-T", "7", True, 100),
        # Get to Know Category 8 Cabling, belden.com: 25GBASE-T and 40GBASE-T to 30 m
        ("25GBASE-T", "8.1", True, 30),
        ("40GBASE-T", "8.2", True, 30),
        # Large vendor summary of 802.3bz, EDOC1000060368: 2.5G over 5e, 5G over screened 5e and over 6, 100 m
        ("2.5GBASE-T", "5e", False, 100),
        ("5GBASE-T", "5e", True, 100),
        ("5GBASE-T", "6", False, 100),
    ],
)
def test_the_furthest_reach_over_twisted_pair(phy: str, category: str, screened: bool, reach_m: float) -> None:
    assert reach_m == copper_reach()[phy, category, screened].possible_m


@pytest.mark.parametrize(
    ("phy", "category"),
    [
        # intelek.eu, 10GBASE-T: not possible on category 5e
        ("10GBASE-T", "5e"),
        # IEEE 802.3ab as told by the same table of kb.wisc.edu: 1000BASE-T starts at category 5
        ("1000BASE-T", "3"),
        # cablinginstall.com, October 2015: over category 7 and 7A, 10GBASE-T is still the fastest
        ("25GBASE-T", "7A"),
        ("40GBASE-T", "7"),
    ],
)
def test_no_reach_where_the_category_is_not_specified(phy: str, category: str) -> None:
    assert (phy, category, True) not in copper_reach()


def test_10gbase_t_over_unscreened_category_6_is_assured_to_37_m() -> None:
    """TIA TSB-155-A in its publisher's summary: 37 m should operate, 37 m to 55 m may."""
    row = copper_reach()["10GBASE-T", "6", False]
    assert (row.assured_m, row.possible_m) == (37, 55)


@pytest.mark.parametrize("phy_and_category", [("5GBASE-T", "5e"), ("1000BASE-T", "5")])
def test_what_only_works_in_defined_cases_is_assured_at_no_length(phy_and_category: tuple[str, str]) -> None:
    """802.3bz objectives for 5G over class D; Gigabit Ethernet over Category 5 (1998) asks for TSB-95."""
    assert copper_reach()[*phy_and_category, False].assured_m is None


@pytest.mark.parametrize(("rate_g", "count"), [(1, 4), (10, 4), (25, 2), (40, 2)])
def test_the_most_connections_in_a_channel(rate_g: int, count: int) -> None:
    """Category 8 Questions Answered, cablinginstall.com: 100 m with four connectors, 30 m with two."""
    assert count == most_connections(rate_g * GIGA).count


@pytest.mark.parametrize(
    ("phy", "grade", "reach_m"),
    [
        # The IEEE 802.3z Standard for Media Limitations, Network Magazine, tiproom.net
        ("1000BASE-SX", "OM1", 275),
        ("1000BASE-SX", "OM2", 550),
        ("1000BASE-LX", "OM1", 550),
        ("1000BASE-LX", "OM2", 550),
        ("1000BASE-LX", "OS1", 5000),
        # ProCurve 1810G manual p. A-4, easymanua.ls: 100-FX to 2,000 m of any multimode fibre
        ("100BASE-FX", "OM1", 2000),
        ("100BASE-FX", "OM3", 2000),
        # Ethernet Alliance, 10GbE Standardized to 400 Meters on OM4 Fiber (June 2012)
        ("10GBASE-SR", "OM3", 300),
        ("10GBASE-SR", "OM4", 400),
        ("40GBASE-SR4", "OM3", 100),
        ("40GBASE-SR4", "OM4", 150),
        ("100GBASE-SR10", "OM3", 100),
        ("100GBASE-SR10", "OM4", 150),
        # Avaya AA1419043 p. 56, table 17 (IEEE 802.3aq)
        ("10GBASE-LRM", "OM1", 220),
        ("10GBASE-LRM", "OM2", 220),
        ("10GBASE-LRM", "OM3", 220),
        # kb.wisc.edu/ns page 7829
        ("10GBASE-LR", "OS2", 10000),
        ("40GBASE-LR4", "OS2", 10000),
        ("100GBASE-LR4", "OS2", 10000),
        # NVIDIA, design guide for cabling data centers, short reach and table 5
        ("25GBASE-SR", "OM4", 100),
        ("50GBASE-SR", "OM4", 100),
        ("100GBASE-SR4", "OM4", 100),
        ("PSM4", "OS2", 500),
        ("CWDM4", "OS2", 2000),
        ("25GBASE-LR", "OS2", 10000),
        # 25GbE interface, itwissen.info: from 70 m
        ("25GBASE-SR", "OM3", 70),
    ],
)
def test_the_reach_over_fibre(phy: str, grade: str, reach_m: float) -> None:
    assert reach_m == fibre_reach()[phy, grade].reach_m


def test_10gbase_er_is_promised_to_30_km_and_engineered_to_40_km() -> None:
    """Message 583 of the 100GNGOPTX group quotes 30 km and 11 dB; kb.wisc.edu/ns page 7829 lists 40 km."""
    row = fibre_reach()["10GBASE-ER", "OS2"]
    assert (row.reach_m, row.possible_m, row.possible_loss_db) == (30000, 40000, 11)


@pytest.mark.parametrize("phy", ["25GBASE-SR", "40GBASE-SR4", "50GBASE-SR", "100GBASE-SR4", "100GBASE-SR10"])
@pytest.mark.parametrize("grade", ["OM1", "OM2"])
def test_old_multimode_carries_none_of_the_fast_layers(phy: str, grade: str) -> None:
    """FAQ about 40G Optical Network, fowiki.com: no support for OM2 or OM1."""
    assert (phy, grade) not in fibre_reach()


@pytest.mark.parametrize(
    ("phy", "grade", "launch_dbm", "receive_dbm"),
    [
        # Least launch and receive power of modules' data sheets: docs.solace.com, etitantec.com, skyward-telecom.com,
        # whandar.ru, documentation.nokia.com (less 2.0 dB of penalties), consultant.ru
        ("10GBASE-SR", "OM3", -7.3, -9.9),
        ("25GBASE-SR", "OM4", -8.4, -10.3),
        ("25GBASE-LR", "OS2", -7.0, -13.3),
        ("100GBASE-LR4", "OS2", -4.3, -10.6),
        ("1000BASE-LX10", "OS2", -11.0 - 2.0, -19.0),
        ("10GBASE-LR", "OS2", -8.2, -14.4),
        ("40GBASE-SR4", "OM3", -7.6, -9.5),
    ],
)
def test_the_loss_budget_is_what_the_powers_of_real_modules_leave(
    phy: str, grade: str, launch_dbm: float, receive_dbm: float
) -> None:
    assert launch_dbm - receive_dbm == pytest.approx(fibre_reach()[phy, grade].loss_db)


@pytest.mark.parametrize(
    ("phy", "grade", "loss_db"),
    [
        # A carrier optics manual reproducing IEEE 802.3 clause 38, easymanua.ls item 727510 p. 165
        ("1000BASE-SX", "OM1", 2.60),
        ("1000BASE-SX", "OM2", 3.56),
        # china-tscom.com, introduction of the fiber loss budget standard
        ("10GBASE-SR", "OM4", 2.9),
        ("25GBASE-SR", "OM4", 1.9),
        ("50GBASE-SR", "OM4", 1.9),
        ("40GBASE-SR4", "OM4", 1.5),
        # Avaya AA1419043 p. 56, table 17
        ("10GBASE-LRM", "OM2", 1.9),
    ],
)
def test_the_printed_loss_budget(phy: str, grade: str, loss_db: float) -> None:
    assert loss_db == fibre_reach()[phy, grade].loss_db


@pytest.mark.parametrize(
    ("phy", "grade"),
    [
        ("10GBASE-SR", "OM3"),
        ("25GBASE-SR", "OM3"),
        ("25GBASE-SR", "OM4"),
        ("40GBASE-SR4", "OM3"),
        ("10GBASE-SR", "OM4"),
    ],
)
def test_a_multimode_budget_holds_two_worst_pairs_and_the_fibre_at_its_reach(phy: str, grade: str) -> None:
    """The Fibre Channel rows printed by IBM (9176-MLR, multimode physical layer) give 1.5 dB and about 3.6 dB/km."""
    row = fibre_reach()[phy, grade]
    assert 1.5 + row.reach_m / 1000 * 3.6 == pytest.approx(row.loss_db, abs=0.07)


@pytest.mark.parametrize(("grade", "reach_m"), [("OS2", 10000), ("OS1a", 4000)])
def test_the_reach_of_40gbase_lr4_follows_from_the_fibre_at_its_shortest_lane(grade: str, reach_m: float) -> None:
    """TIA Fiber Optics Tech Consortium: 10 km of OS2, 4 km of OS1a, with 2.0 dB of joints in 6.7 dB."""
    worst_db_per_km = fibre_attenuation()[grade, 1271].worst_db_per_km
    assert (6.7 - 2.0) / worst_db_per_km * 1000 == pytest.approx(reach_m)
    assert reach_m == fibre_reach()["40GBASE-LR4", grade].reach_m


@pytest.mark.parametrize(("grade", "db_per_km"), [("OS1a", 1.0), ("OS2", 0.4)])
@pytest.mark.parametrize("window_nm", [1310, 1550])
def test_singlemode_fibre_loses_what_its_consortium_says(grade: str, db_per_km: float, window_nm: int) -> None:
    """Singlemode standards update, tiafotc.org."""
    assert db_per_km == fibre_attenuation()[grade, window_nm].worst_db_per_km


def test_joints_lose_what_the_handbook_says() -> None:
    """Loss budget calculator of the Fiber Optic Association, thefoa.org: 0.5 a connection, 0.15 a singlemode splice;
    the same association quotes 0.75 as the most under EIA/TIA-568."""
    pair, splice = joints()["pair"], joints()["splice"]
    assert (pair.typical_db, splice.typical_db, pair.worst_db) == (0.5, 0.15, 0.75)


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


@pytest.mark.parametrize(("phy", "clause"), [("1000BASE-T", "40"), ("10GBASE-T", "55"), ("40GBASE-CR4", "85")])
def test_the_clause_of_a_layer(phy: str, clause: str) -> None:
    """The contents list of IEEE 802.3 as sold, asmedoc.com."""
    assert clause == phys()[phy].clause
