"""How labels are broken into lines, and how large their type may be."""

from __future__ import annotations

from itertools import pairwise

import pytest
from bills import port

from netaudit.model.moving import Label
from netaudit.report.bill.labels.fit import BOLD, CUT, HEAD_EM, SIZES_PT, Line, _letter_em, _rows, _words_em, fitted

HELVETICA_BOLD = {
    "W": 0.944, "M": 0.833, "m": 0.889, "w": 0.778, "@": 0.975, "%": 0.889, "&": 0.722, "0": 0.556, "C": 0.722,
    "O": 0.778, "n": 0.611, "a": 0.556, "f": 0.333, "r": 0.389, "t": 0.333, "i": 0.278, "-": 0.333, "/": 0.278,
    ":": 0.333, " ": 0.278,
}  # fmt: skip
"""Widths of letters [em]: Adobe Core 14 AFM, Helvetica-Bold, written down from memory."""
MM_PER_POINT = 25.4 / 72
"""A point of desktop publishing is 1/72 inch."""


def label(text: str, cable: str = "C01") -> Label:
    return Label(cable, "from", port("cut-1/wire"), (port("loft-plate/1"),), text)


def test_the_usual_text_takes_a_line_for_each_thing_that_it_says() -> None:
    fit = fitted(label("C01 cut-1/wire > loft-plate/1 6A 3 m"), 60, 30)

    assert ("C01", HEAD_EM) == (fit.head, fit.head_em)
    assert (Line("", "cut-1/wire"), Line("> ", "loft-plate/1"), Line("", "6A 3\N{NO-BREAK SPACE}m")) == fit.lines


def test_both_tails_of_a_breakout_stand_in_one_line() -> None:
    trunk = Label("B01", "from", port("core/13"), (port("vault/a"), port("vault/b")), "B01 core/13 > vault/a, vault/b")

    assert (Line("", "core/13"), Line("> ", "vault/a, vault/b")) == fitted(trunk, 60, 30).lines


@pytest.mark.parametrize(
    ("text", "head", "lines"),
    [
        ("C01", "C01", ()),
        ("C012 is another", "", (Line("", "C012 is another"),)),
        ("to the vault", "", (Line("", "to the vault"),)),
        ("C01\nred\n\n blue ", "C01", (Line("", "red"), Line("", "blue"))),
        ("cut-1/wire > somewhere", "", (Line("", "cut-1/wire > somewhere"),)),
        ("", "", ()),
    ],
)
def test_a_text_of_ones_own_stays_as_it_is(text: str, head: str, lines: tuple[Line, ...]) -> None:
    fit = fitted(label(text), 60, 30)

    assert (head, lines) == (fit.head, fit.lines)


@pytest.mark.parametrize("lines", [1, 3])
def test_the_largest_type_is_taken_of_which_all_lines_are_low_enough(lines: int) -> None:
    """Lines are 1.2 em high."""
    text = "\n".join(["x"] * lines)
    for larger, smaller in pairwise((16, 14, 12, 11, 10, 9, 8, 7, 6, 5, 4)):
        enough_mm = lines * 1.2 * larger * MM_PER_POINT
        fits = [fitted(label(text), 60, enough_mm + more_mm) for more_mm in (0.001, -0.001)]

        assert [(larger, True), (smaller, True)] == [(fit.size_pt, fit.whole) for fit in fits]
    assert not fitted(label(text), 60, lines * 1.2 * 4 * MM_PER_POINT - 0.001).whole


@pytest.mark.parametrize(("text", "height_em"), [("C01", 1.4), ("C01\nx", 1.4 + 1)])
def test_a_short_name_is_a_higher_line(text: str, height_em: float) -> None:
    enough_mm = height_em * 1.2 * 16 * MM_PER_POINT

    assert [16, 14] == [fitted(label(text), 60, enough_mm + more_mm).size_pt for more_mm in (0.001, -0.001)]


@pytest.mark.parametrize(
    ("text", "width_em"),
    [
        ("C01", 1.4 * BOLD * (_letter_em("C") + 2 * _letter_em("0") + _letter_em(" "))),
        ("aaa aaaa", 7 * _letter_em("a") + 2 * _letter_em(" ")),
    ],
)
def test_a_line_stays_in_one_row_where_its_letters_and_blanks_have_room(text: str, width_em: float) -> None:
    enough_mm = width_em * 16 * MM_PER_POINT

    assert [16, 14] == [fitted(label(text), enough_mm + more_mm, 10).size_pt for more_mm in (0.01, -0.01)]


@pytest.mark.parametrize(
    ("words_em", "rows"),
    [
        ((), 0),
        ((5,), 1),
        ((3, 3), 1),
        ((4, 4), 2),
        ((5, 5), 2),
        ((4, 4, 2), 2),
        ((4, 4, 3), 3),
        ((13, 5), 3),
        ((13, 5.5), 4),
    ],
)
def test_words_go_where_they_fit_and_break_where_they_are_too_long(words_em: tuple[float, ...], rows: int) -> None:
    assert rows == _rows(words_em, 6)


def test_what_fits_in_no_type_loses_its_lowest_lines_first() -> None:
    text = label("C01 cut-1/wire > loft-plate/1 6A 3 m")
    fits = [fitted(text, 20, height_mm) for height_mm in (8, 6.5, 4.5, 3)]

    assert [3, 2, 1, 0] == [len(fit.lines) for fit in fits]
    assert [True, False, False, False] == [fit.whole for fit in fits]
    assert {"C01"} == {fit.head for fit in fits}


def test_a_text_without_the_name_of_its_cable_keeps_its_first_line() -> None:
    fit = fitted(label("one\ntwo"), 20, 2)

    assert ((Line("", "one"),), False) == (fit.lines, fit.whole)


def test_the_name_of_a_cable_stays_in_one_row_even_if_lower_lines_go_for_it() -> None:
    name = "north-wall-17"
    fit = fitted(label(f"{name} cut-1/wire > loft-plate/1 6A 3 m", name), 16, 8)

    assert (name, 1) == (
        fit.head,
        _rows([BOLD * word_em for word_em in _words_em(name)], 16 / MM_PER_POINT / fit.size_pt),
    )


def test_a_name_too_long_for_one_row_is_broken_and_not_cut_while_it_has_room() -> None:
    fit = fitted(label("x" * 40, cable="x" * 40), 20, 8)

    assert ("x" * 40, True) == (fit.head, fit.whole)


def test_a_name_that_fits_in_no_type_is_cut_with_a_mark() -> None:
    named, unnamed = fitted(label("x" * 2000, cable="x" * 2000), 20, 5), fitted(label("x" * 2000), 20, 5)

    assert (SIZES_PT[-1], False, CUT) == (named.size_pt, named.whole, named.head[-1])
    assert ("", (Line("", named.head),)) == (unnamed.head, unnamed.lines)
    assert 1 < len(named.head) == 1 + named.head.count("x")
    assert fitted(label(named.head[:-1], cable=named.head[:-1]), 20, 5).whole


def test_on_a_label_of_no_height_only_the_mark_is_left() -> None:
    assert CUT == fitted(label("C01 x"), 20, 0.1).head


def test_a_long_name_is_not_enlarged() -> None:
    assert [1.4, 1, 1] == [fitted(label("x" * n, cable="x" * n), 60, 30).head_em for n in (8, 9, 64)]


@pytest.mark.parametrize(("letter", "width_em"), HELVETICA_BOLD.items())
def test_no_letter_is_counted_narrower_than_common_bold_type_nor_far_wider(letter: str, width_em: float) -> None:
    assert width_em <= BOLD * _letter_em(letter) <= 1.75 * width_em


def test_a_letter_of_full_width_takes_an_em_at_least() -> None:
    """Unicode Standard Annex #11: wide characters take the square of a Han ideograph."""
    assert [True] * 3 == [1 <= _letter_em(letter) < 1.2 for letter in "日ア＋"]
