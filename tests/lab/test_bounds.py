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

START_S = 5.0
"""What the start of the interpreter may take on a busy machine, beside the bound [s]."""
MOST_S = 45.0
"""More than any probe of this file may claim to need [s]."""


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


TROUBLES: tuple[Callable[[Stage], Words], ...] = (
    dead_link,
    silent_host,
    stopped_server,
    stopped_server_of_an_open_share,
    black_hole,
    mute_server,
)


@pytest.mark.parametrize("trouble", TROUBLES, ids=lambda trouble: trouble.__name__)
def test_a_probe_ends_within_the_bound_that_it_tells(stage: Stage, trouble: Callable[[Stage], Words]) -> None:
    target, *options = trouble(stage)
    processes, sockets = stage.edit.processes(), own_sockets(stage)
    began_s = time.monotonic()
    answer = stage.probe(target, "--seconds", "0.5", *options, timeout_s=90)
    took_s = time.monotonic() - began_s
    assert answer.data["took_s"] <= answer.data["bound_s"] <= MOST_S
    assert took_s <= answer.data["bound_s"] + START_S
    assert set() == left_behind(stage, processes)
    assert own_sockets(stage) <= sockets


@pytest.mark.parametrize("name", ["nobody.example", "nobody.local"])
def test_a_name_that_nobody_answers_is_wrong_input(stage: Stage, name: str) -> None:
    two_networks(stage)
    stage.plan = None
    processes = stage.edit.processes()
    answer = stage.probe(name, "--seconds", "0.5", timeout_s=15)
    assert 2 == answer.code
    assert name in answer.errors
    assert processes == stage.edit.processes()


def test_a_closed_port_is_told_at_once(stage: Stage) -> None:
    """A refusal needs no waiting: the whole probe costs little more than its interval."""
    stage.room.plug(stage.edit, Fitting("en5", (f"{EDIT_WIRE}/24",)))
    stage.room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",)))
    answer = stage.probe(STORE_FAST, "--seconds", "0.5")
    assert 1 == answer.code
    assert answer.data["took_s"] < 4
