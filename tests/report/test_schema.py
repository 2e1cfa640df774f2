"""The published schemas."""

from __future__ import annotations

import json

from netaudit.report.schema import probe_schema, report_schema


def test_the_report_schema_names_its_draft_and_both_formats() -> None:
    schema = json.loads(report_schema())

    assert "https://json-schema.org/draft/2020-12/schema" == schema["$schema"]
    assert ["netaudit.report/1", "netaudit.reports/1"] == [
        schema["$defs"]["report"]["properties"]["format"]["const"],
        schema["$defs"]["reports"]["properties"]["format"]["const"],
    ]


def test_the_probe_schema_names_its_draft_and_its_format() -> None:
    schema = json.loads(probe_schema())

    assert "https://json-schema.org/draft/2020-12/schema" == schema["$schema"]
    assert "netaudit.probe/1" == schema["properties"]["format"]["const"]


def test_findings_and_gaps_have_one_shape_in_both_schemas() -> None:
    report, probe = (json.loads(schema)["$defs"] for schema in (report_schema(), probe_schema()))
    shared = ("finding", "gap", "measure", "places", "rule", "rate", "count")

    assert [report[name] for name in shared] == [probe[name] for name in shared]
