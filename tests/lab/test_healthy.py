"""In a healthy room nothing is raised."""

from __future__ import annotations

import pytest
from healthy import HEALTHY
from stage import Stage


@pytest.mark.parametrize("name", HEALTHY)
def test_nothing_is_raised_in_a_healthy_room(stage: Stage, name: str) -> None:
    room = HEALTHY[name]
    target, *options = room.stage(stage)
    answer = stage.probe(target, "--seconds", "0.5", *options, uid=room.uid)
    assert ([], [], 0) == (answer.causes, answer.found, answer.code)
