"""Ctrl-C ends a probe at once, wherever it is, with 130 and with nothing left behind (POSIX shells: 128 + SIGINT)."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable

import pytest
import servers
from leftovers import left_behind, words_of
from room import STORE_FAST
from stage import Stage, two_networks


def interrupted(stage: Stage, ready: Callable[[], bool], *words: str) -> tuple[int, bool]:
    """How a probe ends that is interrupted as soon as something is so: its code, and whether it broke off."""
    asked = ["env", f"NETAUDIT_PASSWORD={servers.PASSWORD}", *stage.words(*words)]
    with stage.edit.watched(asked, 40) as process:
        ends_s = time.monotonic() + 20
        while not ready() and time.monotonic() < ends_s:
            time.sleep(0.02)
        assert process.poll() is None
        os.killpg(process.pid, signal.SIGINT)
        _, errors = process.communicate(timeout=5)
    return process.returncode, "Traceback" in errors


def after(seconds: float) -> Callable[[], bool]:
    """Whether some time has passed."""
    ends_s = time.monotonic() + seconds
    return lambda: time.monotonic() >= ends_s


@pytest.mark.parametrize("after_s", [0.6, 1.5, 3.0])
def test_an_interrupted_probe_ends_with_130(stage: Stage, after_s: float) -> None:
    two_networks(stage)
    stage.samba()
    processes = stage.edit.processes()
    assert (130, False) == interrupted(stage, after(after_s), STORE_FAST, "--seconds", "30")
    assert processes == stage.edit.processes()


@pytest.mark.parametrize("options", [("--listen", "60"), ("--watch", "1"), ("--format", "json", "--seconds", "30")])
def test_an_interrupted_wait_ends_with_130(stage: Stage, options: tuple[str, ...]) -> None:
    two_networks(stage)
    stage.samba()
    assert (130, False) == interrupted(stage, after(2.5), STORE_FAST, *options)
    assert frozenset() == stage.edit.processes()


def test_an_interrupted_read_of_a_dead_share_ends_with_130(stage: Stage) -> None:
    two_networks(stage)
    samba = stage.samba()
    folder = stage.mounted()
    stage.edit.run(["ls", str(folder)])
    processes = stage.edit.processes()
    samba.freeze()

    def being_read() -> bool:
        return any("netaudit.machine.reader" in words_of(pid) for pid in stage.edit.processes())

    assert (130, False) == interrupted(stage, being_read, str(folder), "--read", "--seconds", "0.5")
    assert set() == left_behind(stage, processes)


def test_an_interrupted_write_leaves_no_file(stage: Stage) -> None:
    two_networks(stage)
    stage.samba()
    folder = stage.mounted()
    before = sorted(stage.media.iterdir())
    stage.edit.run(["ls", str(folder)])

    def being_written() -> bool:
        return any(file not in before and file.stat().st_size > 0 for file in stage.media.iterdir())

    assert (130, False) == interrupted(stage, being_written, str(folder), "--write", "--seconds", "0.5")
    assert before == sorted(stage.media.iterdir())
