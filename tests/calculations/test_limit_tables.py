"""Tables that follow from the published limits, against published values."""

import pytest

from netaudit.calculations.limit_tables import computed
from netaudit.model.limits import LimitTable
from netaudit.standards.find import find

GIGA = 1_000_000_000


def only(word: str) -> LimitTable:
    (table,) = computed(find([word])[0])
    return table


def cells(word: str) -> list[tuple[object, ...]]:
    return [row.cells for row in only(word).rows]


@pytest.mark.parametrize("word", ["10GBASE-T", "10G", "10GBASE-SR"])
def test_a_rate_is_told_with_what_it_leaves_for_data(word: str) -> None:
    """The efficiency of 1448/1538 and 8948/9038 is the textbook figure of TCP with timestamps: 941 Mb/s at 1 Gb/s."""
    assert [(10 * GIGA, 1500, 9_414_824_447), (10 * GIGA, 9000, 9_900_420_447)] == cells(word)


def test_goodput_is_told_for_every_rate() -> None:
    assert (GIGA, 1500, 941_482_445) in cells("goodput")
    assert {rate for rate, _, _ in cells("goodput")} >= {GIGA, 10 * GIGA, 100 * GIGA}


@pytest.mark.parametrize(
    ("word", "row"),
    [
        # Thunderbolt 3: 22 Gb/s beside displays, forum measurements; Gen 3 x4 leaves 31.5 Gb/s before packet headers
        ("thunderbolt", ("thunderbolt", 3, None, 40 * GIGA, 22 * GIGA)),
        ("pcie", ("pcie", 3, 4, 8 * GIGA, round(32 * GIGA * 128 / 130 * 256 / 280))),
        # USB 3.2 generation 1: 8b/10b leaves 4.0 Gb/s
        ("usb", ("usb", None, None, 5 * GIGA, 4 * GIGA)),
    ],
)
def test_a_bus_is_told_with_what_an_adapter_gets(word: str, row: tuple[object, ...]) -> None:
    assert row in cells(word)
    assert {row[0]} == {one[0] for one in cells(word)}


def test_all_buses_are_told_together() -> None:
    assert {"pcie", "thunderbolt", "usb"} == {row[0] for row in cells("buses")}
    assert cells("buses") == cells("adapters")


def test_a_category_is_told_with_the_loss_of_its_channel() -> None:
    """Adriaenssens, IEEE 802.3an, March 2004: 21.71 dB at 100 MHz, 35.93 dB at 250 MHz."""
    assert ("channel", "iso", "6", 100, 21.71) in cells("cat6")
    assert ("channel", "iso", "6", 250, 35.93) in cells("cat6")
    assert {("channel", "6")} == {(row[0], row[2]) for row in cells("cat6")}
    assert 250 == max(row[3] for row in cells("cat6"))


def test_insertion_loss_is_told_for_channels_and_links_of_every_category() -> None:
    assert {"channel", "link"} == {row[0] for row in cells("insertion loss")}
    assert {"5e", "6", "6A", "7", "7A", "8.1", "8.2"} == {row[2] for row in cells("insertion loss")}


def test_loss_is_told_at_the_frequencies_of_printed_tables() -> None:
    """Trulove, LAN Wiring, table 15.2: 1 to 100 MHz; the upper ends of the categories beyond."""
    assert [1, 10, 31.25, 62.5, 100, 250, 500, 600, 1000] == [row[3] for row in cells("cat7A")]
    assert {1, 100, 2000} <= {row[3] for row in cells("insertion loss") if row[2] == "8.1"}


def test_pci_express_is_told_for_the_widths_of_slots() -> None:
    assert [1, 2, 4, 8, 16] == [row[2] for row in cells("pcie") if row[1] == 3]


def test_loss_that_rests_on_a_remembered_line_is_told_as_remembered() -> None:
    assert {"memory"} == {row.source.standing for row in only("insertion loss").rows if row.cells[2] == "8.1"}


def test_crosstalk_is_told_over_frequency() -> None:
    """Black Box, blackbox.co.jp page 28492: 39.9 dB of NEXT at 100 MHz; black-box.manymanuals.de: 49.5 at 500 MHz."""
    found = {row[:5]: row[5] for row in cells("crosstalk")}
    assert 39.9 == pytest.approx(found["NEXT", "channel", "tia", "6", 100], abs=0.05)
    assert 49.5 == pytest.approx(found["PSANEXT", "channel", "iso", "6A", 500], abs=0.05)
    assert ("NEXT", "channel", "tia", "6", 500) not in found
    assert all(level_db == round(level_db, 2) for level_db in found.values())  # type: ignore[call-overload]


def test_delay_is_told_over_frequency() -> None:
    """ISO/IEC 11801 amendment 1: 555 ns at 10 MHz."""
    assert ("delay", "any", "channel", 10, 555.4) in cells("delay")
    assert [1, 10, 100] == [row[3] for row in cells("delay") if row[:3] == ("delay", "any", "link")]


def test_loops_are_told_by_gauge() -> None:
    """Two conductors of 84.20 ohm/km (wp.1728.org/?p=4314) over 100 m."""
    assert (24, 16.84) in cells("resistance")
    assert all(ohm == round(ohm, 2) for _, ohm in cells("resistance"))  # type: ignore[call-overload]


@pytest.mark.parametrize("word", ["cat3", "om4", "twinax", "cords", "spanning tree", "rules"])
def test_where_nothing_is_to_be_worked_out_no_table_is_made(word: str) -> None:
    assert () == computed(find([word])[0])


@pytest.mark.parametrize("word", ["10G", "thunderbolt", "cat6", "goodput", "crosstalk", "delay", "resistance"])
def test_every_row_fits_its_columns(word: str) -> None:
    table = only(word)
    assert table.rows
    assert {len(table.columns)} == {len(row.cells) for row in table.rows}
