"""Fibre: reach, loss budgets, what fibre and joints lose, against second publications typed in by hand."""

import pytest

from netaudit.standards.fibre import core_joints, core_um, fibre_attenuation, fibre_reach, joints, unequal_cores
from netaudit.standards.optics import optics

MULTIMODE = ("OM1", "OM2", "OM3", "OM4", "OM5")


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


@pytest.mark.parametrize("phy", sorted({phy for phy, grade in fibre_reach() if grade in MULTIMODE}))
def test_a_better_multimode_grade_reaches_no_less(phy: str) -> None:
    reaches = [row.reach_m for grade in MULTIMODE if (row := fibre_reach().get((phy, grade)))]
    assert reaches == sorted(reaches)
    assert fibre_reach()[phy, "OM5"].reach_m == fibre_reach()[phy, "OM4"].reach_m


def test_fibre_loses_less_at_a_longer_wavelength_and_in_a_better_grade() -> None:
    worst = {key: row.worst_db_per_km for key, row in fibre_attenuation().items()}
    for grade in MULTIMODE:
        assert worst[grade, 1300] < worst[grade, 850]
    for window_nm in (1271, 1310, 1550):
        assert worst["OS2", window_nm] < worst["OS1a", window_nm] <= worst["OS1", window_nm]


@pytest.mark.parametrize(
    ("grade", "width_um"),
    # ISO/IEC 11801 as told by fibertronics.com (July 2021): only OM1 is 62.5/125; singlemode is about 9 µm
    [("OM1", 62.5), ("OM2", 50), ("OM3", 50), ("OM4", 50), ("OM5", 50), ("OS1", 9), ("OS1a", 9), ("OS2", 9)],
)
def test_the_width_of_a_core(grade: str, width_um: float) -> None:
    assert width_um == core_um()[grade]


@pytest.mark.parametrize(
    ("grades", "loss_db"),
    [
        # cablinginstall.com, Three reasons not to mix 50- and 62.5-micron multimode fibers: plan for 4 dB
        (("OM1", "OM3"), 4),
        (("OM4", "OM2", "OM1"), 4),
        # optics-fibers.com: 17 to 20 dB between multimode and singlemode
        (("OM3", "OS2"), 20),
        (("OS2", "OM1"), 20),
        (("OS2", "OM3", "OM1"), 20),
    ],
)
def test_a_joint_of_unequal_cores_loses_more_than_a_link_can_spare(grades: tuple[str, ...], loss_db: float) -> None:
    joint = unequal_cores(grades)
    assert joint is not None
    assert loss_db == joint.loss_db
    assert joint.source.may_fail


@pytest.mark.parametrize("grades", [(), ("OM1",), ("OM2", "OM3", "OM4", "OM5"), ("OS1", "OS1a", "OS2")])
def test_equal_cores_join(grades: tuple[str, ...]) -> None:
    assert unequal_cores(grades) is None


def test_every_two_widths_have_a_joint() -> None:
    widths = set(core_um().values())
    joined = {(joint.wider_um, joint.narrower_um) for joint in core_joints()}
    assert joined == {(one, other) for one in widths for other in widths if one > other}


def test_the_two_halves_of_a_pair_have_equal_rows() -> None:
    halves = [optic for optic in optics().values() if optic.partner]
    assert 6 == len(halves)
    for half in halves:
        for grade in ("OS1", "OS1a", "OS2"):
            own, other = fibre_reach()[half.phy, grade], fibre_reach()[half.partner or "", grade]
            assert own[2:] == other[2:]
