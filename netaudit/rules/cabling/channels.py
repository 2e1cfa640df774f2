"""Channels of every medium: which of their cables a finding names first, and the words for the whole run."""

from __future__ import annotations

from collections.abc import Iterable

from netaudit.calculations.copper_run import CopperRun
from netaudit.model.place import Place, cable_place
from netaudit.model.plan import Cable
from netaudit.network.channels import Channel
from netaudit.network.media import Carrier
from netaudit.units import length_text


def longest_first(cables: Iterable[Cable]) -> tuple[Cable, ...]:
    """Cables by length, one of unknown length last."""
    return tuple(sorted(cables, key=lambda cable: -(cable.length_m or 0.0)))


def led_by(first: Iterable[Cable], channel: Channel) -> tuple[Place, ...]:
    """The places of a channel's cables: those that decide, then the others from the longest."""
    cables = dict.fromkeys([*first, *longest_first(channel.cables)])
    return tuple(cable_place(cable.name) for cable in cables)


def in_a_row(channel: Channel) -> str:
    """The cables of a channel from end to end: C01 + W01 + C02."""
    return " + ".join(cable.name for cable in channel.cables)


def known_length(run: CopperRun | Carrier) -> str:
    """The length of a run, or what is known of it: 44 m, at least 44 m."""
    return length_text(run.least_m) if run.length_known else f"at least {length_text(run.least_m)}"
