"""Channels: whatever lies between two active ports, however many passive ports it goes through."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import cable, cage, panel, ref, seat, switch, vault, wired

from netaudit.model.plan import Cable, Device
from netaudit.network.channels import Channel, find_channels

SEAT = seat("cut-1")
CORE = switch("core")


def channels(*things: Device | Cable) -> tuple[Channel, ...]:
    return find_channels(wired(*things)).channels


def run(joints: int) -> list[Device | Cable]:
    """A seat and a switch with so many panels between them; the switch is written first."""
    panels = [panel(f"panel-{number}") for number in range(1, joints + 1)]
    ends = ["cut-1/wire", *(f"{each.name}/1" for each in panels), "core/1"]
    cables = [cable(f"C{number}", *both) for number, both in enumerate(pairwise(ends), 1)]
    return [CORE, *panels, SEAT, *cables]


@pytest.mark.parametrize("joints", [0, 1, 2, 4])
def test_a_channel_goes_through_every_passive_port_to_the_next_active_one(joints: int) -> None:
    (channel,) = channels(*run(joints))
    assert (channel.near, channel.far) == (ref("core/1"), ref("cut-1/wire"))
    assert [part.name for part in channel.cables] == [f"C{number}" for number in range(joints + 1, 0, -1)]
    assert channel.joints == tuple(ref(f"panel-{number}/1") for number in range(joints, 0, -1))
    assert channel.lanes == 1
    assert channel.trunk is None


@settings(deadline=None)
@given(st.lists(st.booleans(), min_size=3, max_size=3), st.permutations(["C1", "C2", "C3"]))
def test_it_makes_no_difference_which_end_of_a_cable_is_written_first(turned: list[bool], order: list[str]) -> None:
    things = run(2)
    cables = {each.name: each for each in things if isinstance(each, Cable)}
    for name, turn in zip(sorted(cables), turned, strict=True):
        if turn:
            (far,) = cables[name].to_ports
            cables[name] = cables[name]._replace(from_port=far, to_ports=(cables[name].from_port,))
    devices = [each for each in things if not isinstance(each, Cable)]
    found = channels(*devices, *(cables[name] for name in order))
    assert [(each.near, each.far, each.joints, tuple(part.name for part in each.cables)) for each in found] == [
        (ref("core/1"), ref("cut-1/wire"), (ref("panel-2/1"), ref("panel-1/1")), ("C3", "C2", "C1"))
    ]


def test_the_near_end_is_the_one_whose_device_comes_first() -> None:
    line = cable("C1", "core/1", "cut-1/wire")
    assert channels(SEAT, CORE, line)[0].near == ref("cut-1/wire")
    assert channels(CORE, SEAT, line)[0].near == ref("core/1")


def test_a_run_that_stops_at_a_passive_port_is_a_dead_end_and_no_channel() -> None:
    things = [SEAT, panel("plate"), panel("bay"), cable("C1", "cut-1/wire", "plate/1"), cable("W1", "plate/1", "bay/1")]
    cabling = find_channels(wired(*things))
    assert cabling.channels == ()
    assert cabling.dead_ends == {ref("cut-1/wire"): ref("bay/1")}


def test_a_spare_run_between_two_passive_ports_is_neither_channel_nor_dead_end() -> None:
    cabling = find_channels(wired(SEAT, panel("plate"), panel("bay"), cable("W1", "plate/1", "bay/1")))
    assert cabling.channels == ()
    assert cabling.dead_ends == {}
    assert [each.name for each in cabling.cables_at[ref("bay/1")]] == ["W1"]


def test_a_ring_of_passive_ports_is_followed_to_an_end() -> None:
    ring = [panel("a"), panel("b"), panel("c")]
    cables = [cable("W1", "a/1", "b/1"), cable("W2", "b/1", "c/1"), cable("W3", "c/1", "a/1")]
    assert channels(SEAT, *ring, *cables) == ()
    crossed = [cable("C1", "cut-1/wire", "a/1"), *cables[:2], cable("W3", "c/1", "c/1")]
    assert find_channels(wired(SEAT, *ring, *crossed)).dead_ends == {ref("cut-1/wire"): ref("c/1")}


def test_a_passive_port_passes_one_cable_on_to_the_other_and_its_neighbours_stay_apart() -> None:
    things = [
        SEAT, seat("cut-2"), CORE, panel("plate"),
        cable("C1", "cut-1/wire", "plate/1"), cable("P1", "core/1", "plate/1"),
        cable("C2", "plate/2", "cut-2/wire"), cable("P2", "plate/2", "core/2"),
    ]  # fmt: skip
    found = [(each.near, each.far, tuple(part.name for part in each.cables)) for each in channels(*things)]
    assert found == [
        (ref("cut-1/wire"), ref("core/1"), ("C1", "P1")),
        (ref("cut-2/wire"), ref("core/2"), ("C2", "P2")),
    ]


def test_an_active_port_with_two_cables_has_two_channels_and_both_cables() -> None:
    cabling = find_channels(
        wired(SEAT, CORE, vault(), cable("C1", "cut-1/wire", "core/1"), cable("C2", "vault/fast", "cut-1/wire"))
    )
    assert [(str(each.near), str(each.far)) for each in cabling.channels] == [
        ("cut-1/wire", "core/1"),
        ("cut-1/wire", "vault/fast"),
    ]
    assert [each.name for each in cabling.cables_at[ref("cut-1/wire")]] == ["C1", "C2"]


def test_two_cables_between_the_same_two_ports_are_two_channels() -> None:
    both = [cable("C1", "cut-1/wire", "core/1"), cable("C2", "core/1", "cut-1/wire")]
    assert [[part.name for part in each.cables] for each in channels(SEAT, CORE, *both)] == [["C1"], ["C2"]]


def test_a_cable_between_two_ports_of_one_switch_is_a_channel() -> None:
    (channel,) = channels(CORE, cable("C1", "core/3", "core/2"))
    assert {channel.near, channel.far} == {ref("core/2"), ref("core/3")}


BREAKOUT = cable("D1", "core/q", ["v-1/fast", "v-2/fast", "v-3/fast", "v-4/fast"], "twinax", 3.0)
LANES = [vault(f"v-{number}", {"fast": cage(10)}) for number in range(1, 5)]


@pytest.mark.parametrize("switch_first", [True, False])
def test_a_breakout_is_one_channel_for_each_lane(switch_first: bool) -> None:
    core = switch("core", {"q": cage(40)})
    found = channels(*([core, *LANES] if switch_first else [*LANES, core]), BREAKOUT)
    assert sorted(str(each.far if switch_first else each.near) for each in found) == [
        f"v-{n}/fast" for n in range(1, 5)
    ]
    assert {each.lanes for each in found} == {4}
    assert {each.trunk for each in found} == {ref("core/q")}


def test_the_lanes_of_a_breakout_do_not_meet_each_other() -> None:
    found = channels(switch("core", {"q": cage(40)}), *LANES, BREAKOUT)
    assert all(ref("core/q") in (each.near, each.far) for each in found)


def test_a_breakout_goes_through_passive_ports_at_either_side() -> None:
    things = [
        switch("core", {"q": cage(40)}), panel("bay"), panel("plate"), *LANES[:2],
        cable("T1", "core/q", "bay/1"), cable("D1", "bay/1", ["plate/1", "plate/2"]),
        cable("L1", "plate/1", "v-1/fast"), cable("L2", "v-2/fast", "plate/2"),
    ]  # fmt: skip
    found = channels(*things)
    assert [(str(each.far), [part.name for part in each.cables]) for each in found] == [
        ("v-1/fast", ["T1", "D1", "L1"]),
        ("v-2/fast", ["T1", "D1", "L2"]),
    ]
    assert {each.lanes for each in found} == {2}
    assert {each.trunk for each in found} == {ref("core/q")}


def test_lanes_that_are_patched_together_lead_nowhere() -> None:
    things = [
        switch("core", {"q": cage(40)}), panel("bay"),
        cable("D1", "core/q", ["bay/1", "bay/2"]), cable("W1", "bay/1", "bay/2"),
    ]  # fmt: skip
    cabling = find_channels(wired(*things))
    assert cabling.channels == ()
    assert cabling.dead_ends[ref("core/q")].device == "bay"


def test_lanes_that_meet_again_go_on_as_one_however_often_they_part() -> None:
    panels = [panel(f"p-{stage}", 3) for stage in range(60)]
    splits = [cable(f"D{stage}", f"p-{stage}/3", [f"p-{stage + 1}/1", f"p-{stage + 1}/2"]) for stage in range(0, 58, 2)]
    merges = [cable(f"M{n}", f"p-{n + 1}/3", [f"p-{n}/1", f"p-{n}/2"]) for n in range(1, 59, 2)]
    things = [switch("core"), seat("cut-1"), *panels, *splits, *merges]
    (channel,) = channels(*things, cable("C1", "core/1", "p-0/3"), cable("C2", "cut-1/wire", "p-58/3"))
    assert {channel.near, channel.far} == {ref("core/1"), ref("cut-1/wire")}


def test_a_run_through_ten_thousand_passive_ports_is_followed() -> None:
    (channel,) = channels(*run(10_000))
    assert len(channel.joints) == 10_000
