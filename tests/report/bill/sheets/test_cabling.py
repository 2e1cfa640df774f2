"""The sheets of labels, ports, free ports and switches to look for."""

from __future__ import annotations

from dataclasses import replace

from bills import HOSTILE, SPECIFICATION, empty_bill, full_bill, port

from netaudit.model.specification import PortNeed
from netaudit.report.bill.sheets.cabling import free_sheet, labels_sheet, ports_sheet, specification_sheet


def test_the_trunk_of_a_breakout_names_all_its_far_ends() -> None:
    expected = ("B01", "from", "core/13", "vault/a, vault/b", "B01\ncore/13 > vault/a, vault/b")

    assert expected == labels_sheet(full_bill()).rows[2]


def test_a_port_has_its_link_and_its_rate_in_both_units() -> None:
    expected = [
        ("cut-1", "wire", "rj45", None, "C01", "loft-plate/1", "core/1", "media", "10.44.20.11", 10, 1250),
        ("core", "10", "sfp+", "10GBASE-SR", "F01", "vault/more", "vault/more", None, None, 2.5, 312.5),
        ("core", "ge/0/11", *[None] * 9),
    ]

    assert expected == list(ports_sheet(full_bill()).rows[:3])
    assert ("192.168.44.10, 192.168.44.120", 0.1, 12.5) == ports_sheet(full_bill()).rows[3][-3:]


def test_a_passive_port_has_no_rate() -> None:
    expected = [
        ("core", "rj45", 10, 1250, 2, 8),
        ("bay-panel", "rj45", None, None, 20, 24),
        (HOSTILE[11], None, None, None, 0, 4),
    ]

    assert expected == list(free_sheet(full_bill()).rows)


def test_a_switch_is_looked_for_demand_by_demand() -> None:
    expected = [
        ("ports", 6, None, "ports", "rj45", "10 Gb/s (1250 MB/s)", None, "core/1, core/2"),
        ("ports", 1, None, "ports", None, None, None, "core/12"),
        ("largest packet (MTU)", 9000, None, "octets", None, None, None, None),
        ("bonds", 1, None, "bonds", None, None, None, None),
        ("VLANs", 2, None, "VLANs", None, None, None, "tags 20, 44"),
        ("spanning tree", None, None, None, None, None, None, "needed"),
        ("power drawn", None, 41.5, "W", None, None, None, None),
        ("note", None, None, None, None, None, None, "It hangs in the cutting room, so listen to its fans first."),
    ]

    assert expected == [row[1:] for row in specification_sheet(full_bill()).rows]
    assert {HOSTILE[11]} == {row[0] for row in specification_sheet(full_bill()).rows}


def test_a_port_that_has_to_split_tells_its_lanes_in_a_column_of_their_own() -> None:
    need = PortNeed("qsfp+", 40_000_000_000, 1, (port("core/1"),), lanes=4, lane_bit_per_s=10_000_000_000)
    sheet = specification_sheet(replace(empty_bill(), specifications=(SPECIFICATION._replace(needs=(need,)),)))
    place = [column.name for column in sheet.columns].index("split into")

    assert "4 lanes of 10 Gb/s (1250 MB/s)" == sheet.rows[0][place]


def test_what_a_plan_does_not_ask_of_a_switch_is_no_row() -> None:
    plain = SPECIFICATION._replace(packet_octets=None, bonds=0, vlans=(), spanning_tree=False, watts=None, notes=())

    assert ["ports", "ports"] == [
        row[1] for row in specification_sheet(replace(empty_bill(), specifications=(plain,))).rows
    ]
