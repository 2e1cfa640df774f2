"""The published limits about a topic, against what the documents say of it."""

import pytest

from netaudit.model.limits import LimitTable
from netaudit.standards.find import find
from netaudit.standards.published import UNITS, families, in_all, merged, published


def table_of(word: str, title: str) -> LimitTable:
    return next(table for table in published(find([word])[0]) if table.title == title)


def column(table: LimitTable, name: str) -> list[object]:
    place = [one.name for one in table.columns].index(name)
    return [row.cells[place] for row in table.rows]


def test_10gbase_t_is_told_by_category_and_screen_as_assured_and_possible() -> None:
    """TIA TSB-155-A: 37 m should operate, 55 m may; ANSI/TIA-568: 100 m of category 6A."""
    rows = [row.cells for row in table_of("10GBASE-T", "Reach over twisted pair").rows]
    assert ("10GBASE-T", "6", "no", 37, 55) in rows
    assert ("10GBASE-T", "6", "yes", 55, 100) in rows
    assert ("10GBASE-T", "6A", "any", 100, 100) in rows
    assert not any(category in {"5", "5e"} for _, category, *_ in rows)


@pytest.mark.parametrize(
    "title",
    [
        "Connections in a channel of twisted pair",
        "Cable and cords of a channel, as solid cable",
        "Loss of stranded cords against solid cable",
        "Solid cable in warm air",
        "Power of modules, cages and ports",
    ],
)
def test_10gbase_t_is_told_with_what_goes_with_it(title: str) -> None:
    assert table_of("10GBASE-T", title).rows


def test_a_table_about_a_layer_has_its_rows_only() -> None:
    assert {"10GBASE-T"} == set(
        column(table_of("10GBASE-T", "Connections in a channel of twisted pair"), "physical layer")
    )


def test_a_category_is_told_with_every_rate_over_it() -> None:
    """IEEE 802.3: category 6 carries all BASE-T layers to 10 Gb/s, none of clause 113."""
    layers = set(column(table_of("cat6", "Reach over twisted pair"), "physical layer"))
    assert {"10BASE-T", "100BASE-TX", "1000BASE-T", "2.5GBASE-T", "5GBASE-T", "10GBASE-T"} == layers


def test_a_grade_is_told_with_reach_loss_attenuation_and_joints() -> None:
    """Ethernet Alliance, June 2012: 400 m of 10GBASE-SR over OM4; china-tscom.com: 2.9 dB."""
    reach, loss = table_of("om4", "Reach over fibre"), table_of("om4", "Loss that a channel of fibre may have")
    assert ("10GBASE-SR", "OM4", 400, 400) in [row.cells for row in reach.rows]
    assert ("10GBASE-SR", "OM4", 850, 2.9, 2.9) in [row.cells for row in loss.rows]
    assert [850, 1300] == column(table_of("om4", "The most that fibre loses"), "window")
    assert ["pair", "splice"] == column(table_of("om4", "The most that a joint of fibre loses"), "joint")


def test_a_rate_is_told_over_everything_that_runs_it() -> None:
    titles = {table.title for table in published(find(["10G"])[0])}
    assert {"Reach over twisted pair", "Reach over fibre", "Length of made-up cables"} <= titles
    assert "Loss of stranded cords against solid cable" not in titles
    layers = set(column(table_of("10G", "Reach over fibre"), "physical layer"))
    assert {"10GBASE-SR", "10GBASE-LR"} <= layers
    assert "25GBASE-SR" not in layers


def test_a_bus_is_told_with_its_cables() -> None:
    assert {"thunderbolt"} == set(column(table_of("thunderbolt", "Host buses"), "kind"))
    assert table_of("thunderbolt", "Cables between a computer and its adapter").rows


def test_a_subject_is_told_whole() -> None:
    """IEEE 802.1D-2004: 2000 for 10 Gb/s."""
    costs = table_of("spanning tree", "Cost of a link in a spanning tree, long scale")
    assert (10_000_000_000, 2000) in [row.cells for row in costs.rows]
    assert 13 == len(costs.rows)
    assert 5 == len(table_of("stp", "Cost of a link in a spanning tree, short scale").rows)


def test_a_row_without_a_source_of_that_figure_is_left_out() -> None:
    """No document gives a loss for the agreements of module makers."""
    assert not [table for table in published(find(["PSM4"])[0]) if table.title.startswith("Loss that a channel")]


def test_a_word_in_a_column_of_numbers_stays_a_word() -> None:
    assert "any" == column(table_of("cords", "Loss of stranded cords against solid cable"), "gauge")[0]
    assert 24 in column(table_of("cords", "Loss of stranded cords against solid cable"), "gauge")


@pytest.mark.parametrize(
    ("word", "titles"),
    [
        ("twinax", ["Length of made-up cables", "Cables that join the earths of their two ends"]),
        ("power", ["Power of modules, cages and ports"]),
        (
            "usb",
            [
                "Host buses",
                "Cables between a computer and its adapter",
                "Cables that join the earths of their two ends",
            ],
        ),
        (
            "OM1",
            [
                "Reach over fibre",
                "Loss that a channel of fibre may have",
                "The most that fibre loses",
                "The most that fibre loses by another document",
                "The most that a joint of fibre loses",
                "What a decent joint of fibre loses",
                "Cores of fibre",
            ],
        ),
        (
            "cat5e",
            [
                "Reach over twisted pair",
                "Loss of stranded cords against solid cable",
                "Solid cable in warm air",
                "Length equations: solid cable = constant - deducted - cords x factor "
                "- cable behind a consolidation point",
            ],
        ),
    ],
)
def test_a_topic_shows_every_table_that_speaks_of_it_and_no_other(word: str, titles: list[str]) -> None:
    assert titles == [table.title for table in published(find([word])[0])]


@pytest.mark.parametrize(
    ("word", "family"),
    [
        ("10GBASE-T", ("copper",)),
        ("1000BASE-LX", ("fibre",)),
        ("10GBASE-SR", ("fibre",)),
        ("10GBASE-LR", ("fibre",)),
        ("25GBASE-CR", ("twinax",)),
        ("cat6", ("copper",)),
        ("om4", ("fibre",)),
        ("10G", ()),
        ("cords", ()),
    ],
)
def test_a_topic_belongs_to_what_its_channels_are_made_of(word: str, family: tuple[str, ...]) -> None:
    assert family == families(find([word])[0])


def test_no_unit_hides_a_longer_one() -> None:
    ends = list(UNITS)
    for place, end in enumerate(ends):
        assert not any(later.endswith(end) for later in ends[place + 1 :])


def test_answers_together_hold_every_row_of_each_table_once() -> None:
    cat6, cat5e = published(find(["cat6"])[0]), published(find(["cat5e"])[0])
    both = {table.title: table.rows for table in merged([cat6, cat5e])}
    reach = "Reach over twisted pair"

    assert len(both) == len({table.title for table in (*cat6, *cat5e)})
    assert len(both[reach]) == sum(len(table.rows) for table in (*cat6, *cat5e) if table.title == reach)
    assert len(both["Solid cable in warm air"]) == len(set(both["Solid cable in warm air"])) == 6


def test_what_answers_have_in_common_is_the_same_whichever_comes_first() -> None:
    cat6, fast = published(find(["cat6"])[0]), published(find(["10G"])[0])
    one, other = in_all([cat6, fast]), in_all([fast, cat6])

    assert {row.cells for table in one for row in table.rows} == {row.cells for table in other for row in table.rows}
    assert {("10GBASE-T", "6", "no", 37, 55), ("10GBASE-T", "6", "yes", 55, 100)} == {
        row.cells for table in one if table.title.startswith("Reach over twisted") for row in table.rows
    }
