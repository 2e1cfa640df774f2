"""The tables as they were agreed: their size, their sums, their sources, and the order that physics asks for."""

import csv
from pathlib import Path

import pytest

from netaudit.standards.buses import host_buses
from netaudit.standards.copper import copper_reach
from netaudit.standards.fibre import fibre_attenuation, fibre_reach, joints
from netaudit.standards.phys import phys
from netaudit.standards.reading import FOLDER, sources
from netaudit.standards.twinax import twinax_reach

FILES = sorted(path.name for path in FOLDER.glob("*.csv"))
MULTIMODE = ("OM1", "OM2", "OM3", "OM4", "OM5")


def rows(name: str) -> list[dict[str, str]]:
    with Path(FOLDER / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


FROZEN: tuple[tuple[str, int, dict[str, float]], ...] = (
    ("box_sizes.csv", 3, {"printed_m": 1805, "length_m": 1804.8, "length_ft": 1000}),
    ("cages.csv", 35, {}),
    ("conductors.csv", 1, {}),
    ("connections.csv", 8, {"most_connections": 28}),
    ("copper_reach.csv", 50, {"assured_m": 4412, "possible_m": 4675}),
    ("copper_modules.csv", 1, {"reach_m": 30}),
    ("cord_budgets.csv", 16, {"solid_equivalent_m": 1370.4}),
    ("cords.csv", 6, {"loss_factor": 8.55}),
    ("earths.csv", 7, {}),
    ("fibre_attenuation.csv", 19, {"worst_db_per_km": 32.62, "typical_db_per_km": 3.21, "other_db_per_km": 12.75}),
    ("fibre_reach.csv", 94, {"reach_m": 485150, "possible_m": 515150, "loss_db": 403.3, "possible_loss_db": 408.9}),
    ("fibre_cores.csv", 8, {"core_um": 289.5}),
    ("core_joints.csv", 3, {"wider_um": 175, "narrower_um": 68, "loss_db": 44}),
    ("optics.csv", 27, {"fibres": 84}),
    ("host_cables.csv", 24, {"reach_m": 157.4}),
    ("host_buses.csv", 15, {"signal_bit_per_s": 392.5e9, "practical_bit_per_s": 123e9}),
    ("joints.csv", 2, {"worst_db": 1.05, "typical_db": 0.65}),
    ("metrics.csv", 31, {"from_bit_per_s": 155.3212e9, "metric": 3917}),
    ("module_forms.csv", 12, {"rate_bit_per_s": 433.61e9}),
    ("phys.csv", 43, {"rate_bit_per_s": 1628.71e9}),
    (
        "cable_loss.csv",
        12,
        {
            "from_mhz": 12,
            "to_mhz": 11300,
            "root_db_per_100_m": 21.9458,
            "linear_db_per_100_m": 0.1323,
            "inverse_db_per_100_m": 2.65,
        },
    ),
    (
        "channel_loss.csv",
        15,
        {"cable_share": 13.464, "connections": 51, "connector_root_db": 0.36, "deviation_db": 0.0006},
    ),
    ("conductor_resistance.csv", 8, {"gauge_awg": 210, "resistance_ohm_per_km": 1533.57}),
    (
        "crosstalk.csv",
        15,
        {
            "from_mhz": 15,
            "to_mhz": 5600,
            "cable_at_100_mhz_db": 607.8,
            "cable_slope_db_per_decade": 255,
            "connector_at_100_mhz_db": 742.7,
            "connector_slope_db_per_decade": 290,
            "channel_connections": 42,
            "link_connections": 27,
        },
    ),
    (
        "delays.csv",
        8,
        {
            "cable_m": 770,
            "cable_ns_per_100_m": 1787,
            "cable_root_ns_per_100_m": 108,
            "connections": 21,
            "connector_ns": 13.75,
        },
    ),
    ("length_equations.csv", 8, {"constant_m": 852, "deducted_m": 12}),
    (
        "limit_lines.csv",
        27,
        {
            "from_mhz": 1950.1,
            "to_mhz": 7678.1,
            "level_db": 1067.9,
            "at_mhz": 2089.1,
            "slope_db_per_decade": 295.32,
            "most_db": 361,
        },
    ),
    ("power.csv", 30, {"process_nm": 263, "typical_w": 14.6, "most_w": 90.7}),
    ("resistance_limits.csv", 7, {"most_ohm": 46.1, "most_ohm_per_km": 233.8, "most_percent": 15}),
    ("run_allowances.csv", 9, {"length_mm": 13582.6}),
    ("screened_categories.csv", 4, {}),
    ("sold_lengths.csv", 97, {"length_m": 1202.6208, "length_ft": 733.5}),
    ("tree_costs.csv", 13, {"rate_bit_per_s": 1255.61e9, "long_cost": 2246920, "short_cost": 128}),
    ("tree_priority.csv", 1, {"default_priority": 32768}),
    ("temperature.csv", 6, {"fixed_at_from_m": 526.8, "shorter_m_per_c": 1.98}),
    ("twinax_reach.csv", 13, {"rate_bit_per_s": 585e9, "reach_m": 48}),
)
"""Each table with its rows and the sums of its columns."""


@pytest.mark.parametrize(("name", "count", "sums"), FROZEN)
def test_a_table_has_the_rows_and_the_column_sums_it_was_checked_with(
    name: str, count: int, sums: dict[str, float]
) -> None:
    assert count == len(rows(name))
    for column, total in sums.items():
        assert total == pytest.approx(sum(float(row[column]) for row in rows(name) if row[column])), column


def test_every_table_is_frozen_here() -> None:
    assert {name for name, _, _ in FROZEN} == set(FILES)


def test_every_source_is_cited_by_some_row_and_every_cited_source_exists() -> None:
    cited = {
        cell
        for name in FILES
        for row in rows(name)
        for column, cell in row.items()
        if column.endswith("source") and cell
    }
    assert cited == set(sources())


def test_a_source_that_was_not_seen_anywhere_is_never_called_secondary_or_read() -> None:
    quoted = {key for key, source in sources().items() if ", as given by " in source.document}
    firm = {key for key, source in sources().items() if source.standing in ("secondary", "read")}
    own_text = {"ieee-100gbase-lr1"}
    assert firm - own_text <= quoted


@pytest.mark.parametrize("name", FILES)
def test_every_column_of_numbers_names_its_unit(name: str) -> None:
    unitless = {
        "channel_loss.csv": {"cable_share", "connections"},
        "crosstalk.csv": {"channel_connections", "link_connections"},
        "delays.csv": {"connections"},
        "connections.csv": {"most_connections"},
        "cords.csv": {"loss_factor"},
        "host_buses.csv": {"generation"},
        "host_cables.csv": {"generation", "like_generation"},
        "metrics.csv": {"metric"},
        "optics.csv": {"fibres"},
        "phys.csv": {"clause"},
        "tree_costs.csv": {"long_cost", "short_cost"},
        "tree_priority.csv": {"default_priority"},
    }
    units = (
        "_m",
        "_mm",
        "_ft",
        "_mhz",
        "_db",
        "_db_per_decade",
        "_ns",
        "_um",
        "_ohm",
        "_ohm_per_km",
        "_percent",
        "_w",
        "_nm",
        "_bit_per_s",
        "_c",
        "_db_per_km",
        "_m_per_c",
        "_awg",
        "_bits",
        "_octets",
    )
    for column in rows(name)[0]:
        numbers = [row[column] for row in rows(name) if row[column].replace(".", "", 1).isdigit()]
        if numbers and column not in unitless.get(name, set()) | {"category"}:
            assert column.endswith(units), column


def test_no_key_occurs_twice() -> None:
    assert len(phys()) == 43
    assert len(fibre_reach()) == 94
    assert len(fibre_attenuation()) == 19
    assert len(twinax_reach()) == 11
    assert len(host_buses()) == 15
    assert len(copper_reach()) == sum(2 if row["screened"] == "any" else 1 for row in rows("copper_reach.csv"))


def test_a_table_is_read_once() -> None:
    assert copper_reach() is copper_reach()


def test_every_reach_is_of_a_known_physical_layer_in_its_own_medium() -> None:
    media = {phy.name: phy.medium for phy in phys().values()}
    assert {media[phy] for phy, _, _ in copper_reach()} == {"copper"}
    for phy, grade in fibre_reach():
        assert media[phy] in ("either", "multimode" if grade in MULTIMODE else "singlemode"), (phy, grade)
    assert {media[row.phy] for row in twinax_reach().values() if row.phy} == {"twinax"}


def test_every_fibre_layer_has_a_reach_and_every_reach_a_loss_of_its_fibre() -> None:
    fibre = {phy.name for phy in phys().values() if phy.medium in ("multimode", "singlemode", "either")}
    assert fibre == {phy for phy, _ in fibre_reach()}
    for row in fibre_reach().values():
        assert (row.grade, row.window_nm) in fibre_attenuation()


def test_what_is_promised_never_exceeds_what_is_possible() -> None:
    for copper in copper_reach().values():
        assert (copper.assured_m or 0) <= copper.possible_m
    for fibre in fibre_reach().values():
        assert fibre.reach_m <= fibre.possible_m
        assert (fibre.loss_db or 0) <= (fibre.possible_loss_db or 0)
    for fibre_loss in fibre_attenuation().values():
        assert (fibre_loss.typical_db_per_km or 0) <= fibre_loss.worst_db_per_km
    for joint in joints().values():
        assert joint.typical_db <= joint.worst_db
