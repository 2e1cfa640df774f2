"""Nothing that a storage or a network does makes a probe last longer than it says, or leaves anything behind."""

from __future__ import annotations

import time
from collections.abc import Callable

import pytest
import servers
from leftovers import left_behind, own_sockets
from room import EDIT_WIRE, STORE_FAST, Fitting
from scenario import Words, patched
from scenarios import SCENARIOS
from stage import Stage, two_networks

from netaudit.probing.request import Request

START_S = 5.0
"""What the start of the interpreter may take on a busy machine, beside the bound [s]."""
SHAPES = ("--read", "--write")


def dead_link(stage: Stage) -> Words:
    """The cable dies after the share was opened."""
    patched(stage, 10_000)
    stage.samba()
    folder = stage.mounted()
    stage.edit.run(["ls", str(folder)])
    stage.room.tell_cable("en5", "carrier 0")
    return (str(folder), "--read")


def silent_host(stage: Stage) -> Words:
    """It answers for its address and for nothing else: whatever it takes in, it sends to nowhere."""
    two_networks(stage)
    stage.room.route(stage.store, f"{EDIT_WIRE}/32", type="blackhole")
    return (STORE_FAST,)


def stopped_server(stage: Stage) -> Words:
    """Its kernel shakes hands, and nobody takes the call."""
    two_networks(stage)
    stage.samba().freeze()
    return (STORE_FAST, "--user", servers.USER)


def stopped_server_of_an_open_share(stage: Stage) -> Words:
    two_networks(stage)
    samba = stage.samba()
    folder = stage.mounted()
    stage.edit.run(["ls", str(folder)])
    samba.freeze()
    return (str(folder), "--read", "--write")


def black_hole(stage: Stage) -> Words:
    """Small frames pass, large ones vanish, under an open share."""
    SCENARIOS["trunk_passes_1500_under_ends_of_9000"].stage(stage)
    return (str(stage.mounted()), "--read")


def mute_server(stage: Stage) -> Words:
    two_networks(stage)
    stage.until_closed(servers.serve(stage.store, "mute", 445))
    return (STORE_FAST, "--user", servers.USER)


def name_that_nobody_answers(stage: Stage) -> Words:
    two_networks(stage)
    return ("nobody.local",)


TROUBLES: tuple[Callable[[Stage], Words], ...] = (
    dead_link,
    silent_host,
    stopped_server,
    stopped_server_of_an_open_share,
    black_hole,
    mute_server,
    name_that_nobody_answers,
)


@pytest.mark.parametrize("trouble", TROUBLES, ids=lambda trouble: trouble.__name__)
def test_a_probe_ends_within_the_bound_that_it_tells(stage: Stage, trouble: Callable[[Stage], Words]) -> None:
    target, *options = trouble(stage)
    asked = Request(target, seconds=0.5, **{name.removeprefix("--"): True for name in SHAPES if name in options})
    processes, sockets = stage.edit.processes(), own_sockets(stage)
    began_s = time.monotonic()
    answer = stage.probe(target, "--seconds", "0.5", *options, timeout_s=asked.bound_s + 30)
    took_s = time.monotonic() - began_s
    assert took_s <= asked.bound_s + START_S
    if answer.data:
        assert answer.data["took_s"] <= asked.bound_s
    assert set() == left_behind(stage, processes)
    assert own_sockets(stage) <= sockets


def test_a_target_that_no_resolver_knows_is_wrong_input(stage: Stage) -> None:
    two_networks(stage)
    stage.plan = None
    answer = stage.probe("nobody.example", "--seconds", "0.5")
    assert 2 == answer.code
    assert "nobody.example" in answer.errors


def test_a_closed_port_is_told_at_once(stage: Stage) -> None:
    """A refusal needs no waiting: the whole probe costs little more than its interval."""
    stage.room.plug(stage.edit, Fitting("en5", (f"{EDIT_WIRE}/24",)))
    stage.room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",)))
    answer = stage.probe(STORE_FAST, "--seconds", "0.5")
    assert 1 == answer.code
    assert answer.data["took_s"] < 4
