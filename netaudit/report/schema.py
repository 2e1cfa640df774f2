"""The published JSON Schemas of the answers."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

Answer = Literal["report", "bill", "acceptance", "comparison", "probe"]
"""What `check` gives, `cables`, `cables --accept`, `cables --against` and `probe`."""

_FOLDER = Path(__file__).parent / "schemas"


def answer_schema(answer: Answer) -> str:
    """The JSON Schema, draft 2020-12, of an answer; that of a report holds for one plan and for several."""
    return (_FOLDER / f"{answer}.json").read_text(encoding="utf-8")
