"""Moving day on the page."""

from __future__ import annotations

from dataclasses import replace

from bills import HOSTILE, empty_bill, full_bill, port

from netaudit.model.moving import PortRow
from netaudit.model.place import PortRef
from netaudit.report.bill.page.day import LabelsPart, MapRow, card_parts, day_part, expected_rows, labels_part, map_part
from netaudit.report.bill.settings import typed


def free(number: int, network: str | None = None, connector: str | None = "rj45") -> PortRow:
    """A port of a panel with nothing in it."""
    return PortRow(PortRef("bay-panel", str(number)), connector, None, None, None, None, network, (), None)


def rows_of(*ports: PortRow) -> list[MapRow]:
    """The rows of the only device."""
    part = map_part(ports)
    assert part is not None
    (device,) = part.devices
    return list(device.rows)


def test_free_ports_alike_that_follow_on_one_another_are_one_row() -> None:
    rows = rows_of(free(1), free(2)._replace(cable="C01", far=port("cut-1/wire")), *map(free, range(3, 25)))

    assert [("1", None, 1), ("2", None, 0), ("3", "24", 22)] == [(row.port, row.last, row.free) for row in rows]


def test_free_ports_that_differ_are_told_apart() -> None:
    rows = rows_of(free(1, "media"), free(2, "office"), free(3, "office", "lc"))

    assert ["1", "2", "3"] == [row.port for row in rows]


def test_a_radio_port_is_never_called_free() -> None:
    (row,) = rows_of(free(1, connector="radio"))

    assert 0 == row.free


def test_the_end_of_the_channel_is_told_where_the_cable_does_not_end_there() -> None:
    row = full_bill().ports[0]
    through, direct = row, row._replace(far=row.peer)

    assert [port("core/1"), None] == [shown.peer for shown in rows_of(through, direct)]


def test_rates_of_the_map_are_told_in_both_units_the_highest_first() -> None:
    part = map_part(full_bill().ports)

    assert part is not None
    assert "10 Gb/s (1250 MB/s), 2.5 Gb/s (312 MB/s), 100 Mb/s (12.5 MB/s)" == part.rates


def test_a_bill_without_ports_and_without_steps_has_no_map_and_no_moving_day() -> None:
    assert map_part(()) is None
    assert day_part(empty_bill()) is None


def test_steps_alone_or_words_alone_before_or_after_them_make_a_moving_day() -> None:
    bare = replace(full_bill(), before_moving=(), after_moving=(), unplug=(), plug=())
    parts = [
        day_part(replace(bare, plug=full_bill().plug)),
        day_part(replace(bare, before_moving=full_bill().before_moving)),
        day_part(replace(bare, after_moving=full_bill().after_moving)),
    ]

    assert [(0, 1, 0), (1, 0, 0), (0, 0, 1)] == [tuple(map(len, part)) for part in parts if part is not None]
    assert day_part(bare) is None


def test_labels_are_counted_and_so_are_the_cables_that_they_are_for() -> None:
    assert LabelsPart(3 + len(HOSTILE), 2 + len(HOSTILE)) == labels_part(full_bill().labels)
    assert labels_part(()) is None


def test_an_expected_rate_is_told_in_both_units_an_unknown_one_is_empty_and_where_none_shows_it_says_so() -> None:
    expected = ["10\u00a0Gb/s (1250\u00a0MB/s)", "", "1\u00a0Gb/s (125\u00a0MB/s)", "none"]

    assert expected == [row.rate for row in expected_rows(full_bill().accept)]


def test_steps_of_one_group_stand_together_in_their_order() -> None:
    part = day_part(full_bill())

    assert part is not None
    assert [("Unplug", ["seats"]), ("Plug", ["storage", "seats"])] == [
        (steps.title, [group for group, _ in steps.groups]) for steps in part.steps
    ]


def test_a_card_has_each_setting_with_its_lines() -> None:
    seat, storage = card_parts(full_bill().cards)

    assert [list(typed(setting)) for setting in seat.card.settings] == [list(part.lines) for part in seat.settings]
    assert ["vault"] == [part.setting.port.device for part in storage.settings]
