"""Rows of text in columns."""

from __future__ import annotations

from netaudit.report.columns import aligned, one_line


def test_each_column_is_as_wide_as_its_widest_cell_and_nothing_trails() -> None:
    expected = ["seat   rate", "cut-1  10 Gb/s", "x"]

    assert expected == list(aligned([("seat", "rate"), ("cut-1", "10 Gb/s"), ("x", "")]))


def test_a_text_from_elsewhere_stays_on_its_line_and_commands_no_terminal() -> None:
    expected = "loose, and \\x1b[31mbent\\u202e"

    assert expected == one_line(" loose,\nand \x1b[31mbent\u202e")
    assert "日本語 é" == one_line("日本語 é")
