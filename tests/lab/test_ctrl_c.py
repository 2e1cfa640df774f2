"""Ctrl-C ends a probe at once, wherever it is, with 130 and with nothing left behind (POSIX shells: 128 + SIGINT)."""

from __future__ import annotations

import os
import signal
import subprocess
import time

import pytest
import servers
from room import STORE_FAST
from stage import Stage, two_networks


def interrupted(stage: Stage, after_s: float, *words: str) -> tuple[int, str, str]:
    """How a probe ends that is interrupted: its code and what it said."""
    env_words = ["env", f"NETAUDIT_PASSWORD={servers.PASSWORD}", *stage.words(*words)]
    with stage.edit.start(env_words, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        time.sleep(after_s)
        assert process.poll() is None
        os.killpg(process.pid, signal.SIGINT)
        said, errors = process.communicate(timeout=5)
    return process.returncode, said, errors


@pytest.mark.parametrize("after_s", [0.6, 1.5, 3.0])
def test_an_interrupted_probe_ends_with_130(stage: Stage, after_s: float) -> None:
    two_networks(stage)
    stage.samba()
    processes = stage.edit.processes()
    code, _, errors = interrupted(stage, after_s, STORE_FAST, "--seconds", "30")
    assert (130, False) == (code, "Traceback" in errors)
    assert processes == stage.edit.processes()


@pytest.mark.parametrize("options", [("--listen", "60"), ("--watch", "1"), ("--format", "json", "--seconds", "30")])
def test_an_interrupted_wait_ends_with_130(stage: Stage, options: tuple[str, ...]) -> None:
    two_networks(stage)
    stage.samba()
    code, _, errors = interrupted(stage, 2.5, STORE_FAST, *options)
    assert (130, False) == (code, "Traceback" in errors)
    assert frozenset() == stage.edit.processes()


def test_an_interrupted_read_of_a_dead_share_ends_with_130(stage: Stage) -> None:
    two_networks(stage)
    samba = stage.samba()
    folder = stage.mounted()
    stage.edit.run(["ls", str(folder)])
    processes = stage.edit.processes()
    samba.freeze()
    code, _, errors = interrupted(stage, 4.0, str(folder), "--read", "--seconds", "0.5")
    assert (130, False) == (code, "Traceback" in errors)
    assert processes == stage.edit.processes()


def test_an_interrupted_write_leaves_no_file(stage: Stage) -> None:
    two_networks(stage)
    stage.samba()
    folder = stage.mounted()
    before = sorted(stage.media.iterdir())
    stage.edit.run(["ls", str(folder)])
    code, _, errors = interrupted(stage, 3.0, str(folder), "--write", "--seconds", "0.5")
    assert (130, False) == (code, "Traceback" in errors)
    assert before == sorted(stage.media.iterdir())
