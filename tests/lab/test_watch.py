"""`--watch` tells only what changes, and when."""

from __future__ import annotations

import os
import re
import signal

from healthy import HEALTHY
from room import STORE_FAST
from stage import Stage

STAMPED = re.compile(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d  \S.*\n")


def test_a_road_that_changes_is_told_with_its_time(stage: Stage) -> None:
    target, *_ = HEALTHY["wifi_in_the_storages_subnet_and_the_wire_wins"].stage(stage)
    words = stage.words(target, "--watch", "1", "--seconds", "0.3")
    with stage.edit.watched(words, 40) as process:
        assert process.stdout is not None
        first = process.stdout.readline()
        stage.room.route(stage.edit, f"{STORE_FAST}/32", "wlan0")
        second = process.stdout.readline()
        os.killpg(process.pid, signal.SIGINT)
        _, errors = process.communicate(timeout=10)
    assert STAMPED.fullmatch(first)
    assert STAMPED.fullmatch(second)
    assert ("en5" in first, "wlan0" in first) == (True, False)
    assert "wlan0" in second
    assert (130, "") == (process.returncode, errors.strip())
