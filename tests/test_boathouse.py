"""The Boathouse as other programs and a terminal of 100 columns see it, kept whole; `--update` draws it anew."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pytest

import netaudit
from netaudit.model.report import Report
from netaudit.report.console import show
from netaudit.report.data import as_json

PLAN = "topologies/boathouse.yaml"


@pytest.fixture
def report(monkeypatch: pytest.MonkeyPatch) -> Report:
    monkeypatch.chdir(Path(__file__).parents[1])
    return netaudit.check(netaudit.load(PLAN))


def test_the_boathouse_as_json(report: Report, expect: Callable[[str, str], None]) -> None:
    expect("boathouse.json", as_json(report))


def test_the_boathouse_on_a_terminal_of_100_columns(report: Report, expect: Callable[[str, str], None]) -> None:
    screen = io.StringIO()
    show(report, screen, 100)
    lines = [line.rstrip() for line in screen.getvalue().splitlines()]

    expect("boathouse-100.txt", "\n".join(lines) + "\n")
    assert 100 >= max(map(len, lines))
