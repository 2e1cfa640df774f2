"""The published schemas."""

from __future__ import annotations

import json

from netaudit.report.schema import answer_schema


def test_the_report_schema_names_its_draft_and_both_formats() -> None:
    schema = json.loads(answer_schema("report"))

    assert "https://json-schema.org/draft/2020-12/schema" == schema["$schema"]
    assert ["netaudit.report/1", "netaudit.reports/1"] == [
        schema["$defs"]["report"]["properties"]["format"]["const"],
        schema["$defs"]["reports"]["properties"]["format"]["const"],
    ]


def test_the_probe_schema_names_its_draft_and_its_format() -> None:
    schema = json.loads(answer_schema("probe"))

    assert "https://json-schema.org/draft/2020-12/schema" == schema["$schema"]
    assert "netaudit.probe/1" == schema["properties"]["format"]["const"]


def test_the_schemas_of_sheets_and_of_comparisons_name_their_drafts_and_their_formats() -> None:
    schemas = [json.loads(schema) for schema in (answer_schema("acceptance"), answer_schema("comparison"))]

    assert ["https://json-schema.org/draft/2020-12/schema"] * 2 == [schema["$schema"] for schema in schemas]
    assert ["netaudit.acceptance/1", "netaudit.comparison/1"] == [
        schema["properties"]["format"]["const"] for schema in schemas
    ]


def test_findings_and_gaps_have_one_shape_in_both_schemas() -> None:
    report, probe = (json.loads(schema)["$defs"] for schema in (answer_schema("report"), answer_schema("probe")))
    shared = ("finding", "gap", "measure", "places", "rule", "rate", "count")

    assert [report[name] for name in shared] == [probe[name] for name in shared]
