"""`netaudit schema`."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

ANSWERS = ("report", "bill", "acceptance", "comparison", "probe")


@pytest.mark.parametrize("what", ["plan", "report", "bill", "acceptance", "comparison", "probe"])
def test_every_schema_is_a_json_schema(run, what: str) -> None:
    done = run("schema", what)

    assert 0 == done.code
    jsonschema.Draft202012Validator.check_schema(json.loads(done.out))


def test_the_plan_is_the_default_and_a_file_can_be_written(run, tmp_path: Path) -> None:
    shown = run("schema").out
    run("schema", "plan", "--output", "plan.json")

    assert shown == (tmp_path / "plan.json").read_text(encoding="utf-8")


def test_an_unknown_schema_is_a_wrong_call(run) -> None:
    assert 2 == run("schema", "room").code


def test_each_schema_is_that_of_its_own_format(run) -> None:
    ids = [json.loads(run("schema", what).out)["$id"] for what in ANSWERS]

    assert [f"urn:netaudit:{what}:1" for what in ANSWERS] == ids
