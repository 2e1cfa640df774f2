"""Options of `cables` that would be ignored are refused, and text for a terminal is told from text for a pipe."""

from __future__ import annotations

import io
import sys

import click
import pytest
from bills import full_bill

from netaudit.cli.bill_forms import Form, refuse_odd, write_bill
from netaudit.report.bill.labels.geometry import LabelGeometry


class Terminal(io.StringIO):
    """A screen."""

    def isatty(self) -> bool:
        """It is one."""
        return True


@pytest.mark.parametrize(
    "form",
    [
        Form("json", "bill", None, None),
        Form("xlsx", "cuts", None, "x.xlsx"),
        Form("html", "ports", None, None),
        Form("text", "labels", LabelGeometry(), None),
        Form("html", None, LabelGeometry(), None),
    ],
)
def test_a_choice_that_would_be_ignored_is_refused(form: Form) -> None:
    with pytest.raises(click.UsageError):
        refuse_odd(form, whole=True)


@pytest.mark.parametrize("form", [Form("text", None, None, None), Form("json", None, None, "x.json")])
def test_answers_about_two_things_are_text_or_json(form: Form) -> None:
    refuse_odd(form, whole=False)


@pytest.mark.parametrize("form", [Form("csv", None, None, None), Form("text", "bill", None, None)])
def test_answers_about_two_things_have_no_sheets(form: Form) -> None:
    with pytest.raises(click.UsageError):
        refuse_odd(form, whole=False)


def test_a_workbook_never_goes_to_a_screen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdout", Terminal())
    with pytest.raises(click.UsageError, match="--output"):
        refuse_odd(Form("xlsx", None, None, None), whole=True)


def test_a_bill_and_a_sheet_are_shown_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Terminal()
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setattr(sys, "stdout", screen)
    write_bill(full_bill(), Form("text", None, None, None))
    write_bill(full_bill(), Form("text", "cuts", None, None))

    assert "Order 25 cords and cables" in screen.getvalue()
    assert "What to cut from which box" in screen.getvalue()


def test_a_workbook_goes_into_a_pipe(capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    write_bill(full_bill(), Form("xlsx", None, None, None))

    assert b"PK" == capsysbinary.readouterr().out[:2]
