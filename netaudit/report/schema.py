"""The published JSON Schemas of the reports."""

from __future__ import annotations

from pathlib import Path

_FOLDER = Path(__file__).parent / "schemas"


def report_schema() -> str:
    """The JSON Schema, draft 2020-12, of what `check` gives, for one plan or several."""
    return (_FOLDER / "report.json").read_text(encoding="utf-8")


def probe_schema() -> str:
    """The JSON Schema, draft 2020-12, of what `probe` gives."""
    return (_FOLDER / "probe.json").read_text(encoding="utf-8")
