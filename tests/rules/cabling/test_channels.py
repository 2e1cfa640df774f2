"""What findings about a run of any medium share: the order of its cables, and the words for it."""

from __future__ import annotations

import pytest
from runs import cord, run_plan, solid

from netaudit.model.plan import Cable
from netaudit.network.links import Link
from netaudit.network.topology import build_topology
from netaudit.rules.cabling import channels


def link_of(*parts: Cable) -> Link:
    (found,) = build_topology(run_plan(*parts)).links
    return found


def test_cables_are_ordered_from_the_longest_and_one_of_unknown_length_comes_last() -> None:
    cables = (cord("C01", 2), solid("W01", None), solid("W02", 30), solid("W03", 0.05))

    assert ["W02", "C01", "W03", "W01"] == [cable.name for cable in channels.longest_first(cables)]


def test_the_cables_that_decide_lead_and_each_is_named_once() -> None:
    short, long, cord_ = solid("W01", 2), solid("W02", 30), cord("C01", 5)
    channel = link_of(short, long, cord_).channel

    assert channel is not None
    assert ["cable W01", "cable W02", "cable C01"] == [
        str(place) for place in channels.led_by(channel.cables[:1], channel)
    ]
    assert ["cable W02", "cable C01", "cable W01"] == [str(place) for place in channels.led_by((), channel)]
    assert "W01 + W02 + C01" == channels.in_a_row(channel)


@pytest.mark.parametrize("category", ["6A", "OM3"])
@pytest.mark.parametrize(("length_m", "text"), [(3, "15 m"), (None, "at least 12 m")])
def test_a_length_is_told_as_far_as_it_is_known_whatever_the_medium(
    category: str, length_m: float | None, text: str
) -> None:
    link = link_of(solid("W01", 12, category), solid("W02", length_m, category))

    assert link.carrier is not None
    assert text == channels.known_length(link.carrier)
    assert category == "OM3" or (link.copper and text == channels.known_length(link.copper))
