"""Every fault is staged in a real room, and the probe puts its cause first."""

from __future__ import annotations

import pytest
from scenarios import SCENARIOS
from stage import Stage


@pytest.mark.parametrize("name", [name for name, each in SCENARIOS.items() if each.leaves_by or each.answers_by])
def test_a_staged_road_is_the_one_that_frames_take(stage: Stage, name: str) -> None:
    """The counters of the station's ports, while connections are made, are the truth about its roads."""
    scenario = SCENARIOS[name]
    scenario.stage(stage)
    leaves_by, answers_by = stage.carrying()
    if scenario.leaves_by:
        assert scenario.leaves_by == leaves_by
    if scenario.answers_by:
        assert scenario.answers_by == answers_by


@pytest.mark.parametrize("name", SCENARIOS)
def test_the_cause_of_a_staged_fault_stands_first(stage: Stage, name: str) -> None:
    scenario = SCENARIOS[name]
    target, *options = scenario.stage(stage)
    answer = stage.probe(target, "--seconds", scenario.seconds, *options)
    assert answer.causes, f"nothing is raised; not checked: {answer.skipped}"
    assert answer.causes[0] in scenario.causes, answer.causes
    fails = any(finding["severity"] == "fail" for finding in answer.data["findings"])
    assert int(fails) == answer.code
