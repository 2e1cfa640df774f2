"""What a scenario is, and how the rooms are built that several of them break."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from plans import FLAT, FLAT_SEAT
from room import EDIT_AIR_FLAT, EDIT_SPARE_FLAT, EDIT_WIRE, STORE_FAST, STORE_SLOW_FLAT, Fitting
from stage import Stage

MEDIA = "10.44.20.0/24"
WIRE, AIR, SPARE = f"{EDIT_WIRE}/24", f"{EDIT_AIR_FLAT}/24", f"{EDIT_SPARE_FLAT}/24"
FLAT_ADDRESS = {"wlan0": AIR, "en6": SPARE}

Words = tuple[str, ...]
"""The target and the options of the probe."""


class Scenario(NamedTuple):
    """A fault, and what the probe has to make of it."""

    stage: Callable[[Stage], Words]
    causes: tuple[str, ...]
    """The cause that has to stand first; several where the fault allows each of them."""
    leaves_by: str | None = None
    """The station's port by which a new connection really leaves, where that is the fault."""
    answers_by: str | None = None
    """The port by which its answer really comes in."""
    seconds: str = "0.5"
    """How long the probe watches the counters."""


SCENARIOS: dict[str, Scenario] = {}


def staged(*causes: str, **truth: str) -> Callable[[Callable[[Stage], Words]], Callable[[Stage], Words]]:
    """Add a scenario under its function's name."""

    def add(function: Callable[[Stage], Words]) -> Callable[[Stage], Words]:
        SCENARIOS[function.__name__] = Scenario(function, causes, **truth)
        return function

    return add


def seat(stage: Stage, other: str, wire_metric: int | None = None, other_metric: int | None = None) -> None:
    """A station with two ports in the storage's subnet."""
    stage.plan = FLAT_SEAT
    cap = {"wlan0": 300, "en6": 1000}[other]
    stage.room.plug(stage.edit, Fitting("en5", (WIRE,), 9000, metric=wire_metric))
    stage.room.plug(stage.edit, Fitting(other, (FLAT_ADDRESS[other],), cap_mbit_per_s=cap, metric=other_metric))
    stage.room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
    stage.samba()


def flat(stage: Stage) -> None:
    """The storage's two ports in one subnet, each answering for itself alone."""
    stage.plan = FLAT
    room = stage.room
    room.plug(stage.edit, Fitting("en5", (WIRE,), 9000))
    room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
    room.plug(stage.store, Fitting("s1g", (f"{STORE_SLOW_FLAT}/24",), 9000, cap_mbit_per_s=1000))
    for name, address in (("s10g", STORE_FAST), ("s1g", STORE_SLOW_FLAT)):
        room.answer_from_itself(stage.store, name, address, MEDIA)


def patched(stage: Stage, agreed_mbit_per_s: int, cap: int | None = None, offload: bool = True) -> None:
    """A room whose wire is a patch cable, which says what it agreed on."""
    wire = Fitting("en5", (WIRE,), 9000, cap_mbit_per_s=cap, agreed_mbit_per_s=agreed_mbit_per_s, offload=offload)
    stage.room.plug(stage.edit, wire)
    stage.room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), 9000))
