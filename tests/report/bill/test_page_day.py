"""Moving day on the page."""

from __future__ import annotations

from dataclasses import replace

from bills import empty_bill, full_bill, port

from netaudit.model.moving import PortRow, Setting
from netaudit.model.place import PortRef
from netaudit.report.bill.page_day import MapRow, card_parts, day_part, map_part


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


def test_steps_of_one_group_stand_together_in_their_order() -> None:
    part = day_part(full_bill())

    assert part is not None
    assert [("Unplug", ["seats"]), ("Plug", ["storage", "seats"])] == [
        (steps.title, [group for group, _ in steps.groups]) for steps in part.steps
    ]


def test_a_setting_that_is_to_be_left_says_so() -> None:
    setting = Setting(port("cut-1/wire"), None, None, (), None, None)
    (card,) = card_parts([replace_settings(setting)])

    assert [("leave as it is", "leave empty")] == [(one.packet, one.gateway) for one in card.settings]


def replace_settings(setting: Setting):
    """The seat's card with one setting."""
    return replace(full_bill()).cards[0]._replace(settings=(setting,))
