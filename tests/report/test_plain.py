"""The plain form."""

from __future__ import annotations

from collections.abc import Callable

from netaudit.model.report import Report
from netaudit.report.plain import plain


def test_the_plain_form_is_stable(report: Report, expect: Callable[[str, str], None]) -> None:
    expect("report.txt", plain(report))


def test_no_line_is_wrapped_or_ends_in_blanks(report: Report) -> None:
    lines = plain(report).splitlines()

    assert lines == [line.rstrip() for line in lines]
    assert max(len(line) for line in lines) > 120


def test_the_first_line_is_the_answer(report: Report) -> None:
    assert plain(report).splitlines()[0].startswith("[bold]cut-2[/] will not hold 10 Gb/s (1250 MB/s)")
