"""Whatever plan can be read can be judged and shown: no error, and JSON that satisfies its schema."""

from __future__ import annotations

import io
import json

import jsonschema
from hypothesis import HealthCheck, Phase, given, settings
from strategies import plans

import netaudit
from netaudit.audit import narrowed
from netaudit.model.plan import Plan
from netaudit.report.console import show
from netaudit.report.data import as_json
from netaudit.report.plain import plain
from netaudit.report.schema import answer_schema

VALIDATOR = jsonschema.Draft202012Validator(json.loads(answer_schema("report")))


@settings(
    max_examples=120,
    deadline=None,
    phases=[Phase.explicit, Phase.reuse, Phase.generate],  # shrinking a whole plan takes minutes
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(plans())
def test_any_plan_is_judged_and_shown_in_every_form(plan: Plan) -> None:
    report = netaudit.check(plan)

    VALIDATOR.validate(json.loads(as_json(report)))
    assert plain(report).endswith(f"verdict: {report.summary.verdict}\n")
    show(report, io.StringIO(), 100)
    stations = [device.name for device in plan.devices.values() if device.role == "station"]
    VALIDATOR.validate(json.loads(as_json(narrowed(report, stations[:1]))))
