"""Where to read a rate: the end that the cable begins at first, what may not hold, and what to try without a link."""

from __future__ import annotations

import pytest
from wiring import cable, cage, device, jack, panel, seat, switch, vault, wired

from netaudit.model.plan import Bus, Cable, Category, Device, Port
from netaudit.network.topology import build_topology
from netaudit.ordering.day.acceptance import acceptance_sheet


def told(*things: Device | Cable) -> dict[str, str]:
    """What is said of each cable."""
    plan = wired(*things)
    return {row.cable: row.where for row in acceptance_sheet(plan, build_topology(plan))}


def test_the_end_that_a_cable_begins_at_is_told_first() -> None:
    found = told(
        seat("cut-1"), panel("bay"), switch("core"),
        cable("C01", "cut-1/wire", "bay/1"), cable("P01", "core/1", "bay/1"),
    )  # fmt: skip

    assert {"C01": "read at cut-1/wire and core/1", "P01": "read at core/1 and cut-1/wire"} == found


def test_a_breakout_is_told_from_its_trunk_even_where_that_comes_last_in_the_plan() -> None:
    tails = [vault(name, {"x": cage(10)}) for name in "ab"]
    trunk = switch("core", {"q": cage(20, 2)})

    assert (
        "read at core/q, a/x and b/x"
        == told(*tails, trunk, cable("B01", "core/q", ["a/x", "b/x"], "twinax", 1.0))["B01"]
    )
    assert (
        "read at core/q, b/x and a/x"
        == told(trunk, *tails, cable("B01", "core/q", ["b/x", "a/x"], "twinax", 1.0))["B01"]
    )


def test_a_rate_that_the_limits_do_not_promise_may_not_hold() -> None:
    # IEEE Std 802.3bz: 2.5GBASE-T is promised over category 5e to 100 m, 10GBASE-T is not.
    doubt = "; 10 Gb/s (1250 MB/s) may not hold: the limits promise 2.5 Gb/s (312 MB/s) over the whole link"
    found = told(
        seat("cut-1"), panel("plate"), switch("core"),
        cable("C01", "cut-1/wire", "plate/1"), cable("W01", "plate/1", "core/1", "5e"),
    )  # fmt: skip

    assert dict.fromkeys(("C01", "W01"), f"read at cut-1/wire and core/1{doubt}") == found


def test_a_rate_of_which_nothing_is_promised_may_not_hold() -> None:
    found = told(seat("cut-1", {"wire": jack(10)}), switch("core"), cable("C01", "cut-1/wire", "core/1", "5e"))

    assert found["C01"].endswith("10 Gb/s (1250 MB/s) may not hold: the limits promise no rate over the whole link")


def test_a_rate_that_is_promised_or_undecided_is_only_read() -> None:
    good, undecided = (
        told(seat("cut-1"), switch("core"), cable("C01", "cut-1/wire", "core/1", category))["C01"]
        for category in ("6A", "unknown")
    )

    assert ["read at cut-1/wire and core/1"] * 2 == [good, undecided]


def test_a_host_cable_is_seen_by_the_system_and_promises_no_rate_of_its_own() -> None:
    plug = Port(connector="thunderbolt", bus=Bus("thunderbolt", 3))
    found = told(
        seat("cut-1", {"tb": plug}), device("dock", "adapter", {"host": plug}),
        cable("T01", "dock/host", "cut-1/tb", "thunderbolt", 0.5),
    )  # fmt: skip

    assert found["T01"] == (
        "no rate to read: see in the system's own list of devices that dock/host and cut-1/tb have found each other"
    )


@pytest.mark.parametrize(
    ("category", "way"),
    [
        ("6A", "try it between two machines, or with a cable tester"),
        ("unknown", "try it between two machines, or with a cable tester"),
        ("OM4", "try it between two modules of its kind, or with a light source and a power meter"),
        ("twinax", "try it between two cages that it is made for"),
        ("active-optical", "try it between two cages that it is made for"),
        ("usb", "try it between a machine and an adapter that are known to be good"),
    ],
)
def test_a_cable_over_which_no_link_runs_is_tried_by_itself(category: Category, way: str) -> None:
    assert f"no link runs over it: {way}" == told(panel("bay"), cable("X01", "bay/1", "bay/2", category))["X01"]
