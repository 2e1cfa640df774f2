"""The form for terminals."""

from __future__ import annotations

import io
from collections.abc import Callable

import pytest

from netaudit.model.report import Report
from netaudit.report.console import show


def shown(report: Report, width: int) -> str:
    file = io.StringIO()
    show(report, file, width)
    return "\n".join(line.rstrip() for line in file.getvalue().splitlines()) + "\n"


def test_the_console_form_at_width_100_is_stable(report: Report, expect: Callable[[str, str], None]) -> None:
    expect("report-100.txt", shown(report, 100))


@pytest.mark.parametrize("width", [40, 60, 80, 100, 160])
def test_no_line_is_wider_than_the_terminal(report: Report, width: int) -> None:
    assert max(len(line) for line in shown(report, width).splitlines()) <= width


def test_markup_in_a_name_is_shown_and_not_obeyed(report: Report) -> None:
    assert "[bold]cut-2[/]" in shown(report, 160)
