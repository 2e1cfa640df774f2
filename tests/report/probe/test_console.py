"""The form for terminals."""

from __future__ import annotations

import io
from collections.abc import Callable

import pytest
from observations import FAR, WLAN0, diagnosed, interfaces, observed

from netaudit.model.diagnosis import Diagnosis
from netaudit.report.probe import console
from netaudit.report.probe.plain import whole


def shown(diagnosis: Diagnosis, width: int) -> str:
    file = io.StringIO()
    console.show(diagnosis, file, width)
    return "\n".join(line.rstrip() for line in file.getvalue().splitlines()) + "\n"


@pytest.mark.parametrize("width", [80, 120])
def test_the_console_form_is_stable(troubled: Diagnosis, width: int, expect: Callable[[str, str], None]) -> None:
    expect(f"probe-troubled-{width}.txt", shown(troubled, width))


@pytest.mark.parametrize("width", [20, 40, 80, 120, 200])
def test_no_line_is_wider_than_the_terminal(troubled: Diagnosis, hostile: Diagnosis, width: int) -> None:
    for diagnosis in (troubled, hostile):
        assert width >= max(map(len, shown(diagnosis, width).splitlines()))


def test_a_terminal_shows_every_word_of_the_plain_form(troubled: Diagnosis) -> None:
    def words_of(text: str) -> set[str]:
        return {word.strip(";:") for word in text.split()}

    assert words_of(whole(troubled)) == words_of(shown(troubled, 120))


def test_a_row_that_does_not_fit_is_told_fact_by_fact() -> None:
    lines = shown(diagnosed(), 60).splitlines()
    place = lines.index("Addresses of vault")

    assert "  10.44.20.10" == lines[place + 1]
    assert lines[place + 2].startswith("    would go by en5; in use yes; round trip 200 µs; packets")


def test_columns_stand_as_long_as_they_fit() -> None:
    """At every width the widest line is within it, and columns come back at the very width that they need."""
    in_columns = {width: "  10.44.20.10  en5" in shown(diagnosed(), width) for width in range(60, 121)}
    least = min(width for width, columns in in_columns.items() if columns)
    row = next(line for line in shown(diagnosed(), least).splitlines() if line.startswith("  10.44.20.10  en5"))

    assert least == len(row)
    assert all(columns is (width >= least) for width, columns in in_columns.items())


def test_columns_line_up_beneath_names_of_double_width() -> None:
    wide = WLAN0._replace(name="無線")
    lines = shown(diagnosed(observed(interfaces=interfaces(wide))), 100).splitlines()
    cells = [line for line in lines if line.startswith(("  en5    cut-1", "  無線   -"))]

    assert 2 == len(cells)


def test_the_sentence_and_the_rest_can_be_shown_apart(troubled: Diagnosis) -> None:
    first, second = io.StringIO(), io.StringIO()
    console.show_sentence(troubled, first, 80)
    console.show_rest(troubled, second, 80)
    both = io.StringIO()
    console.show(troubled, both, 80)

    assert both.getvalue() == first.getvalue() + second.getvalue()


def test_nothing_that_a_terminal_would_obey_reaches_it(hostile: Diagnosis) -> None:
    text = shown(hostile, 200)

    assert all(line.isprintable() for line in text.split("\n"))
    assert r"[red]\x1b[2Jev\u202eil\n\x07\x9b31m[/]" in text


def test_a_healthy_room_has_no_findings_and_no_gaps() -> None:
    text = shown(diagnosed(observed(addresses=(FAR,))), 100)

    assert "To do" not in text
    assert "Next step" not in text
    assert text.endswith("0 fail, 0 warn, 0 note; 24 judgements made, 0 places not checked; took 2.9 s\n")
