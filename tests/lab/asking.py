"""Asking the libraries, and netaudit's own machine, within a station."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from stage import Stage

ASK = str(Path(__file__).with_name("ask.py"))


def asked(stage: Stage, *words: str, uid: int = 0) -> Any:
    """What everybody says within the station."""
    said = stage.edit.run([sys.executable, ASK, *words], uid)
    assert said.returncode == 0, said.stderr
    return json.loads(said.stdout)
