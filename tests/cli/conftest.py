"""Running the command line as a person does."""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest
from rooms import room

from netaudit.cli.main import main


class Done(NamedTuple):
    """What a run left behind."""

    code: int
    out: str
    err: str


Run = Callable[..., Done]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Run:
    """Runs netaudit with some arguments in a folder that holds good.yaml, slow.yaml, open.yaml and bad.yaml."""
    monkeypatch.chdir(tmp_path)
    for name, text in {
        "good": room(),
        "slow": room(wall="5e"),
        "open": room(None),
        "bad": room().replace("length: 38 m", "length: 38"),
    }.items():
        (tmp_path / f"{name}.yaml").write_text(text, encoding="utf-8")

    def done(*arguments: str) -> Done:
        monkeypatch.setattr(sys, "argv", ["netaudit", *arguments])
        with pytest.raises(SystemExit) as end:
            main()
        gc.enable()
        captured = capsys.readouterr()
        return Done(int(end.value.code or 0), captured.out, captured.err)

    return done
