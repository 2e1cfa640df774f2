"""The published JSON Schemas of the reports."""

from __future__ import annotations

from pathlib import Path


def report_schema() -> str:
    """The JSON Schema, draft 2020-12, of what `check` gives, for one plan or several."""
    return (Path(__file__).parent / "schemas" / "report.json").read_text(encoding="utf-8")
