"""How labels are broken into lines, and how large their type may be."""

from __future__ import annotations

import pytest
from bills import port

from netaudit.model.moving import Label
from netaudit.report.bill.label_fit import BOLD, HEAD_EM, SIZES_PT, Line, _letter_em, fitted

HELVETICA_BOLD = {
    "W": 0.944, "M": 0.833, "m": 0.889, "w": 0.778, "@": 0.975, "%": 0.889, "&": 0.722, "0": 0.556, "C": 0.722,
    "O": 0.778, "n": 0.611, "a": 0.556, "f": 0.333, "r": 0.389, "t": 0.333, "i": 0.278, "-": 0.333, "/": 0.278,
    ":": 0.333, " ": 0.278,
}  # fmt: skip
"""Widths of letters [em]: Adobe Core 14 AFM, Helvetica-Bold, written down from memory."""


def label(text: str, cable: str = "C01") -> Label:
    return Label(cable, "from", port("cut-1/wire"), (port("loft-plate/1"),), text)


def test_the_usual_text_takes_a_line_for_each_thing_that_it_says() -> None:
    fit = fitted(label("C01 cut-1/wire > loft-plate/1 6A 3 m"), 60, 30)

    assert ("C01", HEAD_EM) == (fit.head, fit.head_em)
    assert (Line("", "cut-1/wire"), Line("> ", "loft-plate/1"), Line("", "6A 3 m")) == fit.lines


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


def test_type_shrinks_in_steps_until_the_text_fits() -> None:
    sizes = [fitted(label("C01 " + "word " * count), 60, 30).size_pt for count in (1, 10, 20, 40, 80)]

    assert sorted(sizes, reverse=True) == sizes
    assert set(sizes) <= set(SIZES_PT)
    assert sizes[0] == SIZES_PT[0]
    assert len(set(sizes)) > 3


def test_what_does_not_fit_in_the_smallest_type_is_told() -> None:
    fit = fitted(label("x" * 2000), 20, 5)

    assert (SIZES_PT[-1], False) == (fit.size_pt, fit.fits)


def test_a_long_name_is_not_enlarged() -> None:
    assert 1 == fitted(label("x" * 64, cable="x" * 64), 60, 30).head_em


@pytest.mark.parametrize(("letter", "width_em"), HELVETICA_BOLD.items())
def test_no_letter_is_counted_narrower_than_common_bold_type(letter: str, width_em: float) -> None:
    assert width_em <= BOLD * _letter_em(letter)
