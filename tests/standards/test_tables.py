"""The tables as they were agreed: their size, their sums, their sources, and the order that physics asks for."""

import csv
from itertools import pairwise
from pathlib import Path

import pytest

from netaudit.model.plan import COPPER_CATEGORIES
from netaudit.standards.buses import host_buses
from netaudit.standards.copper import copper_reach, cord_rule, most_connections
from netaudit.standards.fibre import fibre_attenuation, fibre_reach, joints
from netaudit.standards.phys import base_t, phys
from netaudit.standards.reading import FOLDER, sources
from netaudit.standards.twinax import twinax_reach

FILES = sorted(path.name for path in FOLDER.glob("*.csv"))
MULTIMODE = ("OM1", "OM2", "OM3", "OM4", "OM5")
BASE_T = ("10BASE-T", "100BASE-TX", "1000BASE-T", "2.5GBASE-T", "5GBASE-T", "10GBASE-T", "25GBASE-T", "40GBASE-T")


def rows(name: str) -> list[dict[str, str]]:
    with Path(FOLDER / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


FROZEN: tuple[tuple[str, int, dict[str, float]], ...] = (
    ("conductors.csv", 1, {}),
    ("connections.csv", 8, {"most_connections": 28}),
    ("copper_reach.csv", 50, {"assured_m": 4412, "possible_m": 4675}),
    ("cord_budgets.csv", 16, {"solid_equivalent_m": 1370.4}),
    ("cords.csv", 6, {"loss_factor": 8.55}),
    ("fibre_attenuation.csv", 19, {"worst_db_per_km": 32.62, "typical_db_per_km": 3.21, "other_db_per_km": 12.75}),
    ("fibre_reach.csv", 76, {"reach_m": 305150, "possible_m": 335150, "loss_db": 292.3, "possible_loss_db": 297.9}),
    ("host_buses.csv", 15, {"signal_bit_per_s": 392.5e9, "practical_bit_per_s": 123e9}),
    ("joints.csv", 2, {"worst_db": 1.05, "typical_db": 0.65}),
    ("phys.csv", 37, {"rate_bit_per_s": 1556.71e9}),
    ("temperature.csv", 6, {"fixed_at_from_m": 526.8, "shorter_m_per_c": 1.98}),
    ("twinax_reach.csv", 11, {"rate_bit_per_s": 460e9, "reach_m": 42}),
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
        "connections.csv": {"most_connections"},
        "cords.csv": {"loss_factor"},
        "host_buses.csv": {"generation"},
        "phys.csv": {"clause"},
    }
    units = ("_m", "_db", "_nm", "_bit_per_s", "_c", "_db_per_km", "_m_per_c", "_awg", "_bits", "_octets")
    for column in rows(name)[0]:
        numbers = [row[column] for row in rows(name) if row[column].replace(".", "", 1).isdigit()]
        if numbers and column not in unitless.get(name, set()) | {"category"}:
            assert column.endswith(units), column


def test_no_key_occurs_twice() -> None:
    assert len(phys()) == 37
    assert len(fibre_reach()) == 76
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


@pytest.mark.parametrize("phy", BASE_T)
@pytest.mark.parametrize("screened", [False, True])
def test_a_better_category_reaches_no_less(phy: str, screened: bool) -> None:
    reaches = [copper_reach().get((phy, category, screened)) for category in COPPER_CATEGORIES]
    for lesser, better in pairwise(reaches):
        if lesser is not None:
            assert better is not None
            assert better.possible_m >= lesser.possible_m
            assert (better.assured_m or 0) >= (lesser.assured_m or 0)


def test_a_screen_takes_nothing_away() -> None:
    for (phy, category, screened), row in copper_reach().items():
        if not screened:
            with_screen = copper_reach()[phy, category, True]
            assert with_screen.possible_m >= row.possible_m
            assert (with_screen.assured_m or 0) >= (row.assured_m or 0)


@pytest.mark.parametrize("category", COPPER_CATEGORIES)
@pytest.mark.parametrize("screened", [False, True])
def test_a_higher_rate_reaches_no_further_over_twisted_pair(category: str, screened: bool) -> None:
    assured = [row.assured_m or 0 if (row := copper_reach().get((phy, category, screened))) else 0 for phy in BASE_T]
    assert assured == sorted(assured, reverse=True)


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


@pytest.mark.parametrize("kind", ["pcie", "thunderbolt"])
def test_a_later_generation_signals_no_slower(kind: str) -> None:
    signals = [bus.signal_bit_per_s for (of, _), bus in sorted(host_buses().items()) if of == kind]
    assert signals == sorted(signals)


def test_the_layer_over_twisted_pair_goes_by_its_rate() -> None:
    assert [base_t(phys()[phy].rate_bit_per_s) for phy in BASE_T] == list(BASE_T)
    assert base_t(50_000_000_000) is None


def test_connections_and_budgets_are_unknown_for_a_rate_without_a_layer_over_twisted_pair() -> None:
    with pytest.raises(KeyError):
        most_connections(50_000_000_000)
    with pytest.raises(KeyError):
        cord_rule("iso").budgets.__getitem__(50_000_000_000)
