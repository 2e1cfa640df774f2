"""Frame sizes: large ones must arrive, and both ends should use the same."""

from __future__ import annotations

from ipaddress import IPv6Address

import pytest
from deskwork import found, gaps, only, passes, places, planned, planned_port, silent

from netaudit.model.finding import Measure
from netaudit.model.machine_state import Route
from netaudit.model.observation import FrameTest, Knock, Observation, Skipped
from netaudit.rules.live.desk import (
    BY_WIRE,
    EXPECTED,
    FAR,
    LARGE_LOST,
    LARGE_PASSES,
    OPEN,
    SEEN,
    SESSION,
    SMALL_PASSES,
    with_far,
    with_wire,
)
from netaudit.rules.live.frames import FRAME_SIZES_DIFFER, LARGE_FRAMES_LOST

SMALL_LOST = SMALL_PASSES._replace(passed=False)
HOLED = with_far(frames=(SMALL_PASSES, LARGE_LOST))


def agreed(mss: int | None, seen: Observation = SEEN) -> Observation:
    """A desk whose fresh handshakes agreed on a segment."""
    return with_far(seen, knocks={445: OPEN._replace(mss=mss)})


def test_large_packets_that_vanish_beside_small_ones_fail() -> None:
    finding = only(LARGE_FRAMES_LOST, HOLED)

    assert ["address 10.44.20.10", "interface en5"] == places(finding)
    assert (
        "packets of 9000 octets to 10.44.20.10 vanish without a word, those of 1500 pass: something between the two ends "
        "takes no large frames" == finding.message
    )
    assert (Measure(1500, "octets"), Measure(9000, "octets")) == (finding.measured, finding.limit)
    assert "what stands at core/1 comes first" in finding.remedy
    assert "Both ends are set right, and something between is not: set every switch port" in finding.remedy
    assert (
        "set vault and en5 to 1500: at 10 Gb/s that costs 5 % at the most. `ip link show en5` shows" in finding.remedy
    )
    assert "Set en5 to 1500 with `nmcli " in finding.remedy


@pytest.mark.parametrize(
    "frames",
    [
        (SMALL_PASSES, LARGE_PASSES),
        (SMALL_PASSES,),
        (SMALL_PASSES, LARGE_LOST._replace(passed=None)),
        (SMALL_PASSES._replace(method="udp"), LARGE_LOST),
        (SMALL_LOST, LARGE_PASSES),
        (SMALL_PASSES, LARGE_LOST._replace(told_mtu=1500)),
    ],
)
def test_what_passes_is_told_about_or_went_another_way_is_not_lost(frames: tuple[FrameTest, ...]) -> None:
    assert passes(LARGE_FRAMES_LOST, with_far(frames=frames))


def test_the_largest_that_passed_is_told() -> None:
    middle = FrameTest(4000, passed=True, method="icmp")

    assert "those of 4000 pass" in only(LARGE_FRAMES_LOST, with_far(frames=(SMALL_PASSES, middle, LARGE_LOST))).message


@pytest.mark.parametrize(("own", "plan", "strikes"), [(9000, 9000, True), (8999, 9000, False), (9000, 8999, False)])
def test_only_sizes_that_this_end_and_the_plan_use_can_be_missed(own: int, plan: int, strikes: bool) -> None:
    assert strikes == bool(found(LARGE_FRAMES_LOST, with_wire(HOLED, mtu=own), planned(mtu=plan)))


def test_an_end_that_nobody_knows_limits_nothing() -> None:
    unknown = agreed(None, with_wire(HOLED._replace(sessions=()), mtu=None))

    assert found(LARGE_FRAMES_LOST, unknown, None)
    assert found(LARGE_FRAMES_LOST, unknown, planned(mtu=None))


def test_where_nothing_passes_at_all_it_is_not_checked() -> None:
    (gap,) = gaps(LARGE_FRAMES_LOST, with_far(frames=(SMALL_LOST, LARGE_LOST)))

    assert "No packet that asks 10.44.20.10 for an echo comes back, not even a small one" == gap.reason
    noted = (Skipped("echoes", "raw packets", "sudo", ("large-frames-lost",)),)
    (gap,) = gaps(LARGE_FRAMES_LOST, with_far(SEEN._replace(skipped=noted), frames=(SMALL_LOST,)))
    assert ("Echoes: raw packets", "sudo") == (gap.reason, gap.decides)


def test_a_host_that_answers_nothing_is_another_rules_business() -> None:
    assert passes(LARGE_FRAMES_LOST, with_far(frames=(SMALL_LOST,), knocks={445: Knock("silent", (), 1)}))


def test_a_storage_that_takes_small_packets_alone_loses_no_large_ones() -> None:
    small = agreed(1448, HOLED)

    assert passes(LARGE_FRAMES_LOST, small)
    assert found(FRAME_SIZES_DIFFER, small)


def test_without_frames_or_towards_this_machine_nothing_is_judged() -> None:
    assert silent(LARGE_FRAMES_LOST, with_far(frames=()))
    assert silent(LARGE_FRAMES_LOST, with_far(HOLED, route=BY_WIRE._replace(local=True)))


def test_a_route_that_nobody_told_leaves_the_ends_to_be_set() -> None:
    finding = only(LARGE_FRAMES_LOST, agreed(None, with_far(HOLED._replace(sessions=()), route=None)))

    assert ["address 10.44.20.10"] == places(finding)
    assert "set both ends to 1500: at 10 Gb/s" in finding.remedy


def test_a_smaller_storage_warns_with_both_sizes() -> None:
    """RFC 9293 and 7323: a segment of 1448 octets with timestamps fills a packet of 1500."""
    finding = only(FRAME_SIZES_DIFFER, agreed(1448))

    assert ["address 10.44.20.10", "interface en5"] == places(finding)
    assert (
        "vault takes packets of about 1500 octets at 10.44.20.10, and en5 (cut-1/wire) is set to 9000: the connection "
        "settles on the smaller" == finding.message
    )
    assert (Measure(1500, "octets"), Measure(9000, "octets")) == (finding.measured, finding.limit)
    assert finding.remedy.startswith(
        "Give both ends one size: 9000 at vault and on every switch between, or set en5 to"
    )


@pytest.mark.parametrize(("mss", "strikes"), [(8047, True), (8048, False), (8948, False), (8960, False)])
def test_sizes_within_a_tenth_are_alike(mss: int, strikes: bool) -> None:
    """A tenth of 9000 is left for options and tunnels: 8100 less the 52 octets of headers."""
    assert strikes == bool(found(FRAME_SIZES_DIFFER, agreed(mss)))


def test_ipv6_has_larger_headers() -> None:
    """RFC 8200: 40 octets instead of 20."""
    six = IPv6Address("fd44::10")
    seen = SEEN._replace(sessions=(), addresses=(FAR._replace(address=six, knocks={445: OPEN._replace(mss=1428)}),))

    assert "packets of about 1500 octets" in only(FRAME_SIZES_DIFFER, seen).message


def test_fresh_handshakes_come_before_older_sessions() -> None:
    shrunk = SEEN._replace(sessions=(SESSION._replace(mss=1024),))

    assert passes(FRAME_SIZES_DIFFER, shrunk)
    assert found(FRAME_SIZES_DIFFER, agreed(None, shrunk))


def test_the_largest_of_several_segments_counts() -> None:
    knocks = {445: OPEN._replace(mss=1448), 2049: OPEN._replace(mss=8948)}

    assert passes(FRAME_SIZES_DIFFER, with_far(knocks=knocks))


@pytest.mark.parametrize(
    "change",
    [{"interface": "wlan0"}, {"interface": None}, {"remote": SESSION.remote._replace(address=FAR.address + 1)}],
)
def test_a_session_that_goes_another_way_tells_nothing(change: dict[str, object]) -> None:
    other = SESSION._replace(mss=1448, **change)
    seen = agreed(None, SEEN._replace(sessions=(SESSION._replace(mss=None), other)))

    assert passes(FRAME_SIZES_DIFFER, seen)


@pytest.mark.parametrize(
    "seen",
    [
        with_far(frames=(SMALL_PASSES, LARGE_LOST._replace(told_mtu=1500))),
        with_far(route=BY_WIRE._replace(mtu=1500)),
        SEEN._replace(sessions=(SESSION._replace(path_mtu=1500),)),
    ],
)
def test_a_smaller_size_that_something_names_on_the_way_warns(seen: Observation) -> None:
    assert (
        "something on the way to 10.44.20.10 names 1500 octets as the most it passes, and en5 (cut-1/wire) is set to 9000: "
        "the connection settles on the smaller" == only(FRAME_SIZES_DIFFER, seen).message
    )


def test_a_size_nearly_as_large_is_not_worth_a_word() -> None:
    assert passes(FRAME_SIZES_DIFFER, with_far(route=BY_WIRE._replace(mtu=8100)))
    assert found(FRAME_SIZES_DIFFER, with_far(route=BY_WIRE._replace(mtu=8099)))


def test_the_smallest_size_named_is_told() -> None:
    seen = with_far(route=BY_WIRE._replace(mtu=4000), frames=(SMALL_PASSES, LARGE_LOST._replace(told_mtu=1400)))

    assert "names 1400 octets" in only(FRAME_SIZES_DIFFER, seen).message


def test_this_end_off_its_plan_warns_at_the_port() -> None:
    finding = only(FRAME_SIZES_DIFFER, with_wire(mtu=1500))

    assert ["interface en5"] == places(finding)
    assert "en5 (cut-1/wire) is set to packets of 1500 octets, and 9000 is planned" == finding.message
    assert (Measure(1500, "octets"), Measure(9000, "octets")) == (finding.measured, finding.limit)
    assert finding.remedy.startswith("Set en5 to 9000 with `nmcli ")
    assert finding.remedy.endswith("; `ip link show en5` shows it.")


def test_a_size_that_nobody_plans_is_not_off_its_plan() -> None:
    assert passes(FRAME_SIZES_DIFFER, with_wire(mtu=8996))
    assert found(FRAME_SIZES_DIFFER, with_wire(mtu=8000))
    assert passes(FRAME_SIZES_DIFFER, with_wire(mtu=1500), planned_port("wire", mtu=None))
    assert passes(FRAME_SIZES_DIFFER, with_wire(mtu=1500), None)
    assert passes(FRAME_SIZES_DIFFER, with_wire(mtu=1500), EXPECTED._replace(road=None))


def test_another_port_than_the_planned_one_is_not_held_against_its_plan() -> None:
    seen = with_far(agreed(1448, SEEN._replace(sessions=(SESSION._replace(interface="en6"),))), route=Route("en6"))

    assert passes(FRAME_SIZES_DIFFER, seen, planned_port("back", mtu=9000))


def test_without_a_size_of_its_own_or_a_whole_look_nothing_is_judged() -> None:
    assert silent(FRAME_SIZES_DIFFER, with_wire(mtu=None))
    assert silent(FRAME_SIZES_DIFFER, with_wire(SEEN._replace(complete=False), mtu=1500))
    assert silent(
        FRAME_SIZES_DIFFER, with_far(agreed(1448, SEEN._replace(sessions=())), route=Route("en5", local=True))
    )
    assert silent(FRAME_SIZES_DIFFER, with_far(route=None))


def test_the_smaller_size_is_set_in_the_way_of_the_system() -> None:
    seen = agreed(1448, SEEN._replace(system="macos", manager=None))

    assert "set en5 to 1500 with `sudo networksetup -setMTU en5 1500`." in only(FRAME_SIZES_DIFFER, seen).remedy


def test_the_desk_passes() -> None:
    assert passes(LARGE_FRAMES_LOST, SEEN)
    assert passes(FRAME_SIZES_DIFFER, SEEN)
