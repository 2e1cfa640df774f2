"""The published schemas."""

from __future__ import annotations

import json

from netaudit.report.schema import report_schema


def test_the_report_schema_names_its_draft_and_both_formats() -> None:
    schema = json.loads(report_schema())

    assert "https://json-schema.org/draft/2020-12/schema" == schema["$schema"]
    assert ["netaudit.report/1", "netaudit.reports/1"] == [
        schema["$defs"]["report"]["properties"]["format"]["const"],
        schema["$defs"]["reports"]["properties"]["format"]["const"],
    ]
