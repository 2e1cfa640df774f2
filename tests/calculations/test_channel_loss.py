"""Insertion loss against every published value that was seen."""

import pytest

from netaudit.calculations.channel_loss import (
    allowed_fixed_m,
    cable_loss_db_per_100_m,
    connection_loss_db,
    insertion_loss_db,
    scaled_loss_db,
)
from netaudit.standards.channel_loss import cable_losses, channel_losses, length_equations


def channel_db(regime: str, category: str, frequency_mhz: float) -> float:
    return insertion_loss_db(
        cable_losses()[regime, category], channel_losses()["channel", regime, category], frequency_mhz
    )


def link_db(regime: str, category: str, frequency_mhz: float) -> float:
    return insertion_loss_db(
        cable_losses()[regime, category], channel_losses()["link", regime, category], frequency_mhz
    )


@pytest.mark.parametrize(
    ("regime", "category", "frequency_mhz", "loss_db", "within_db"),
    [
        # Black Box, cable and channel at 100 MHz, blackbox.co.jp page 28492
        ("tia", "5e", 100, 24.0, 0.05),
        ("tia", "6", 100, 21.3, 0.05),
        # Adriaenssens, A closer look at channel insertion loss, IEEE 802.3an, March 2004
        ("iso", "5e", 100, 24.01, 0.011),
        ("iso", "6", 100, 21.71, 0.005),
        ("iso", "6", 250, 35.93, 0.005),
        ("iso", "7", 250, 33.79, 0.006),
        ("iso", "7", 100, 20.8, 0.05),
        # German course notes: class D 24 dB at 100 MHz, E 35.9 dB at 250 MHz, EA 49.3 dB at 500 MHz
        ("iso", "5e", 100, 24.0, 0.05),
        ("iso", "6", 250, 35.9, 0.05),
        ("iso", "6A", 500, 49.3, 0.05),
        ("tia", "6A", 500, 49.3, 0.05),
    ],
)
def test_a_channel_loses_what_is_published(
    regime: str, category: str, frequency_mhz: float, loss_db: float, within_db: float
) -> None:
    assert loss_db == pytest.approx(channel_db(regime, category, frequency_mhz), abs=within_db)


@pytest.mark.parametrize(
    ("category", "frequency_mhz", "metal_db", "material_db", "total_db"),
    [
        # Adriaenssens, as above: conductors and screen, insulation, total
        ("5e", 100, 21.68, 2.33, 24.01),
        ("5e", 250, 34.27, 5.83, 40.09),
        ("6", 100, 19.94, 1.77, 21.71),
        ("6", 250, 31.50, 4.44, 35.93),
        ("7", 250, 31.16, 2.63, 33.79),
    ],
)
def test_the_loss_splits_into_metal_and_insulation_as_published(
    category: str, frequency_mhz: float, metal_db: float, material_db: float, total_db: float
) -> None:
    cable, channel = cable_losses()["iso", category], channel_losses()["channel", "iso", category]
    insulation_only = cable._replace(root_db_per_100_m=0, inverse_db_per_100_m=0)
    bare = channel._replace(connections=0)
    insulation_db = insertion_loss_db(insulation_only, bare, frequency_mhz)

    assert material_db == pytest.approx(insulation_db, abs=0.011)
    assert metal_db == pytest.approx(channel_db("iso", category, frequency_mhz) - insulation_db, abs=0.011)
    assert total_db == pytest.approx(channel_db("iso", category, frequency_mhz), abs=0.011)


@pytest.mark.parametrize(
    ("regime", "category", "points"),
    [
        # Trulove, LAN Wiring, table 15.2, category 5e
        (
            "tia",
            "5e",
            {1: 2.0, 4: 4.1, 8: 5.8, 10: 6.5, 16: 8.2, 20: 9.3, 25: 10.4, 31.25: 11.7, 62.5: 17.0, 100: 22.0},
        ),
        # A cable maker's table to 350 MHz, cat5e350mhzutp.aspx in github.com/chunkaiw3874/Nizing-Website
        ("tia", "5e", {155: 28.1, 200: 32.4, 240: 36.0, 300: 41.0, 350: 44.9}),
        # Black Box, blackbox.co.jp page 28492; the same maker's cat6400mhzutp.aspx
        ("tia", "6", {100: 19.8, 155: 25.1, 300: 36.4, 400: 43.0}),
        # PF_10GX13, catalog.belden.com; a maker's 6A sheet at 500 MHz
        ("tia", "6A", {1: 2.1, 4: 3.8, 8: 5.3, 10: 5.9, 500: 45.3}),
        # cat6a10gsutp.aspx of the same maker, which prints the line of class F; tlc-direct.co.uk table 9.8.9 at 100, 600
        ("iso", "7", {100: 19.0, 500: 45.3, 600: 50.1, 750: 56.8}),
    ],
)
def test_cable_loses_what_tables_print(regime: str, category: str, points: dict[float, float]) -> None:
    cable = cable_losses()[regime, category]
    computed = {frequency_mhz: cable_loss_db_per_100_m(cable, frequency_mhz) for frequency_mhz in points}
    assert points == pytest.approx(computed, abs=0.075)


@pytest.mark.parametrize(("frequency_mhz", "loss_db"), [(100, 29.9), (200, 43.7), (250, 49.7)])
def test_a_cord_of_26_awg_loses_half_as_much_again(frequency_mhz: float, loss_db: float) -> None:
    """An Amphenol category 6 patch cable of 26 AWG, per 100 m of it."""
    scaled_db = scaled_loss_db(
        cable_losses()["iso", "6"],
        channel_losses()["channel", "iso", "6"],
        frequency_mhz,
        solid_equivalent_m=100 * 1.5,
        connections=0,
    )
    assert loss_db == pytest.approx(scaled_db, abs=0.2)


@pytest.mark.parametrize(
    ("category", "frequency_mhz", "loss_db"),
    # Connecting hardware sheet, elliottelectric.com
    [("5e", 100, 0.4), ("6", 100, 0.2), ("6", 62.5, 0.16), ("6", 31.25, 0.11)],
)
def test_a_connection_loses_what_its_sheet_prints(category: str, frequency_mhz: float, loss_db: float) -> None:
    channel = channel_losses()["channel", "tia", category]
    assert loss_db == pytest.approx(connection_loss_db(channel, frequency_mhz), abs=0.005)


@pytest.mark.parametrize(
    ("regime", "category", "frequency_mhz", "loss_db"),
    # Well-known rounded values of permanent links; remembered, not seen in print
    [
        ("tia", "5e", 100, 21.0),
        ("tia", "6", 100, 18.6),
        ("tia", "6", 250, 31.1),
        ("tia", "6A", 100, 18.0),
        ("tia", "6A", 500, 43.8),
        ("iso", "6A", 500, 42.1),
    ],
)
def test_a_permanent_link_loses_the_well_known_values(
    regime: str, category: str, frequency_mhz: float, loss_db: float
) -> None:
    assert loss_db == pytest.approx(link_db(regime, category, frequency_mhz), abs=0.05)


def test_the_equivalent_length_of_a_channel_of_100_m_is_100_m() -> None:
    """The alien crosstalk margin computation of IEEE 802.3an takes 2.77 m for each dB at 250 MHz (studylib.net
    document 8217190, October 2005)."""
    assert 2.77 * channel_db("iso", "6", 250) == pytest.approx(100, abs=0.6)


def test_a_channel_of_full_length_is_the_general_length_formula() -> None:
    """Adriaenssens, as above: 90 m and 10 m of cords at one and a half count as 105 m."""
    scaled_db = scaled_loss_db(
        cable_losses()["iso", "6"],
        channel_losses()["channel", "iso", "6"],
        250,
        solid_equivalent_m=90 + 1.5 * 10,
        connections=4,
    )
    assert scaled_db == pytest.approx(channel_db("iso", "6", 250))


def test_the_length_equation_of_the_worked_example() -> None:
    """JIS X 5150-2:2021 at elec-shikaku.com/sougou-tsushin/1626: F 12 m, X 1.5, class E, interconnect: 86.0 m."""
    assert 86.0 == allowed_fixed_m(length_equations()["6", "interconnect"], cords_m=12, cord_factor=1.5)


@pytest.mark.parametrize(
    ("category", "layout", "allowed_m"),
    [
        # JIS X 5150:2004 in sites.google.com/site/nwshikaku/kotan/gijutsu: 109 - FX; 107 - FX - CY; 107 - FX; 105 - FX - CY
        ("5e", "interconnect", 109 - 15),
        ("5e", "interconnect with consolidation point", 107 - 15 - 6),
        ("5e", "cross-connect", 107 - 15),
        ("5e", "cross-connect with consolidation point", 105 - 15 - 6),
        # the same for class E: 107 - 3 - FX; 106 - 3 - FX - CY; 106 - 3 - FX; 105 - 3 - FX - CY
        ("6", "interconnect", 107 - 3 - 15),
        ("6", "interconnect with consolidation point", 106 - 3 - 15 - 6),
        ("6", "cross-connect", 106 - 3 - 15),
        ("6", "cross-connect with consolidation point", 105 - 3 - 15 - 6),
    ],
)
def test_every_length_equation(category: str, layout: str, allowed_m: float) -> None:
    other_m = 5 if "consolidation" in layout else 0
    equation = length_equations()[category, layout]
    assert allowed_m == allowed_fixed_m(equation, cords_m=10, cord_factor=1.5, other_m=other_m, other_factor=1.2)


def test_other_cable_counts_as_solid_cable_unless_it_is_said_to_lose_more() -> None:
    equation = length_equations()["6", "interconnect with consolidation point"]
    assert 106 - 3 - 15 - 5 == allowed_fixed_m(equation, cords_m=10, cord_factor=1.5, other_m=5)


@pytest.mark.parametrize("key", sorted(channel_losses()))
def test_loss_grows_with_frequency_and_with_length(key: tuple[str, str, str]) -> None:
    """Physics: skin effect and insulation lose more the higher the frequency."""
    channel, cable = channel_losses()[key], cable_losses()[key[1:]]
    grid = [one for one in (1, 4, 10, 31.25, 100, 250, 500, 1000, 2000) if one <= cable.to_mhz]
    losses_db = [insertion_loss_db(cable, channel, frequency_mhz) for frequency_mhz in grid]
    assert losses_db == sorted(losses_db)
    by_length = [scaled_loss_db(cable, channel, 10, solid_equivalent_m=one, connections=2) for one in (0, 15, 50, 100)]
    assert by_length == sorted(by_length)
    assert by_length[3] - by_length[0] == pytest.approx(cable_loss_db_per_100_m(cable, 10))


GRID_MHZ = (1, 4, 10, 16, 31.25, 62.5, 100, 200, 250, 300, 400, 500)
GRID_DB = {
    ("tia", "5e"): (2.24, 4.45, 7.10, 9.05, 12.85, 18.60, 24.01),
    ("iso", "5e"): (2.40, 4.53, 7.15, 9.09, 12.88, 18.61, 24.01),
    ("tia", "6"): (2.15, 4.02, 6.33, 8.04, 11.39, 16.47, 21.30, 31.54, 35.96),
    ("iso", "6"): (2.27, 4.18, 6.56, 8.31, 11.73, 16.88, 21.71, 31.72, 35.93),
    ("tia", "6A"): (2.26, 4.15, 6.47, 8.18, 11.48, 16.37, 20.89, 30.09, 33.89, 37.37, 43.66, 49.31),
    ("iso", "6A"): (2.26, 4.15, 6.47, 8.18, 11.48, 16.37, 20.89, 30.09, 33.89, 37.37, 43.66, 49.31),
    ("iso", "7"): (2.19, 4.09, 6.40, 8.10, 11.38, 16.26, 20.77, 29.97, 33.79, 37.28, 43.61, 49.31),
}
"""Channels of 100 m with four connections [dB], worked out apart from this code from the equations of ANSI/TIA-568 and
ISO/IEC 11801; the printed values among them are those of the first test."""


@pytest.mark.parametrize(
    ("regime", "category", "frequency_mhz", "loss_db"),
    [
        (*key, frequency_mhz, loss_db)
        for key, losses in GRID_DB.items()
        for frequency_mhz, loss_db in zip(GRID_MHZ, losses, strict=False)
    ],
)
def test_a_channel_loses_what_was_worked_out_from_1_to_500_mhz(
    regime: str, category: str, frequency_mhz: float, loss_db: float
) -> None:
    assert loss_db == pytest.approx(channel_db(regime, category, frequency_mhz), abs=0.0101)
