"""The acceptance sheet: what ports should show, and a filled sheet held to the plan without mercy or praise."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from strategies import plans
from wiring import G, cable, cage, device, jack, panel, ref, seat, switch, vault, wired

import netaudit
from netaudit.calculations.run_lengths import with_run_lengths
from netaudit.errors import InputError
from netaudit.model.moving import Acceptance, AcceptanceReport, SeenRate
from netaudit.model.plan import Bus, Plan, Port, Route
from netaudit.network.topology import build_topology
from netaudit.ordering.day.acceptance import acceptance_sheet, accepted, judged

TOPOLOGIES = Path(__file__).parents[3] / "topologies"
ROOM = wired(
    seat("cut-1"), panel("plate"), panel("bay"), switch("core"),
    cable("C01", "cut-1/wire", "plate/1"), cable("W01", "plate/1", "bay/1", "5e"), cable("P01", "bay/1", "core/1"),
    cable("W02", "plate/2", "bay/2"),
)  # fmt: skip


def sheet_of(plan: Plan) -> dict[str, Acceptance]:
    """The rows of a plan by cable."""
    return {row.cable: row for row in acceptance_sheet(plan, build_topology(plan))}


def seen(cable: str, gigabits: float | None, ends: str = "", initials: str = "mk", line: int = 2) -> SeenRate:
    """A row of a filled sheet."""
    return SeenRate(cable, ends, None if gigabits is None else round(gigabits * G), initials, "", line)


def held(*rows: SeenRate, plan: Plan = ROOM) -> AcceptanceReport:
    """Those rows held to a plan."""
    return judged(plan, acceptance_sheet(plan, build_topology(plan)), rows, "filled.csv")


def verdicts(report: AcceptanceReport) -> list[tuple[str, str]]:
    """What is said of each cable."""
    return [(one.row.cable, one.verdict) for one in report.cables]


def test_every_cable_of_a_link_expects_its_agreed_rate_even_over_a_wall_that_promises_less() -> None:
    rows = sheet_of(ROOM)

    assert [10 * G] * 3 == [rows[name].expected_bit_per_s for name in ("C01", "W01", "P01")]


def test_a_spare_run_expects_nothing() -> None:
    assert sheet_of(ROOM)["W02"] == Acceptance(
        "W02",
        ref("plate/2"),
        (ref("bay/2"),),
        None,
        "no link runs over it: try it between two machines, or with a cable tester",
        shown=False,
    )


def test_two_ends_without_a_common_rate_expect_nothing() -> None:
    plan = wired(
        seat("cut-1", {"wire": jack(1)}), switch("core", {"1": jack(10)}), cable("C01", "cut-1/wire", "core/1")
    )

    assert sheet_of(plan)["C01"][3:] == (
        None,
        "no rate in common at cut-1/wire and core/1: `netaudit check` says why",
        False,
    )


def test_the_cable_of_an_adapter_shows_no_rate() -> None:
    plug = Port(connector="thunderbolt", bus=Bus("thunderbolt", 3))
    plan = wired(
        seat("cut-1", {"tb": plug}), device("dock", "adapter", {"host": plug}),
        cable("T01", "cut-1/tb", "dock/host", "thunderbolt", 0.5),
    )  # fmt: skip

    found = sheet_of(plan)["T01"]
    assert (None, False) == (found.expected_bit_per_s, found.shown)
    assert found.where.startswith("no rate to read: ")


def test_a_breakout_of_which_one_lane_runs_is_read_at_its_ends() -> None:
    tails = [vault(name, {"x": cage(rate)}) for name, rate in (("a", 10), ("b", 25))]
    plan = wired(switch("core", {"q": cage(20, 2)}), *tails, cable("B01", "core/q", ["a/x", "b/x"], "twinax", 1.0))

    row = sheet_of(plan)["B01"]
    assert (None, True) == (row.expected_bit_per_s, row.shown)
    assert row.where.startswith("read at core/q, ")


def test_a_breakout_expects_a_rate_only_where_all_its_lanes_have_the_same() -> None:
    def lanes(*gigabits: float) -> Acceptance:
        tails = [vault(name, {"x": cage(rate)}) for name, rate in zip("ab", gigabits, strict=True)]
        trunk = switch("core", {"q": cage(20, 2)})
        return sheet_of(wired(trunk, *tails, cable("B01", "core/q", ["a/x", "b/x"], "twinax", 1.0)))["B01"]

    assert lanes(10, 10).expected_bit_per_s == 10 * G
    assert lanes(10, 1).expected_bit_per_s is None


@settings(max_examples=30, deadline=None)
@given(plans())
def test_every_cable_of_any_plan_has_one_row_in_plan_order_and_an_empty_sheet_tests_none(plan: Plan) -> None:
    rows = acceptance_sheet(plan, build_topology(plan))

    assert list(plan.cables) == [row.cable for row in rows]
    assert [(row.cable, "not tested" if row.shown else "no rate to read") for row in rows] == verdicts(
        judged(plan, rows, (), "empty.csv")
    )


@pytest.mark.parametrize(
    ("gigabits", "verdict"),
    [(10, "as expected"), (2.5, "slower"), (0, "slower"), (25, "faster"), (None, "not tested")],
)
def test_what_was_seen_is_held_to_what_the_ports_should_show(gigabits: float | None, verdict: str) -> None:
    assert verdicts(held(seen("W01", gigabits))) == [
        ("C01", "not tested"), ("W01", verdict), ("P01", "not tested"), ("W02", "no rate to read"),
    ]  # fmt: skip


def test_without_an_expected_rate_nothing_is_as_expected() -> None:
    assert ("W02", "nothing to hold it against") in verdicts(held(seen("W02", 1)))


def test_a_rate_that_beats_the_plan_says_that_the_plan_is_out_of_date() -> None:
    assert held(seen("C01", 25)).remarks == (
        "C01 shows 25 Gb/s (3125 MB/s) where the plan has 10 Gb/s (1250 MB/s): the plan is out of date there, so correct it.",
    )


def test_ends_that_differ_from_the_plans_ask_for_a_new_sheet() -> None:
    assert held(seen("C01", 10, "cut-1/wire - plate/2")).remarks == (
        "The sheet has C01 between cut-1/wire - plate/2, the plan between cut-1/wire - plate/1: print a new sheet.",
    )


@pytest.mark.parametrize("ends", ["cut-1/wire - plate/1", "plate/1 - cut-1/wire", "cut-1/wire", ""])
def test_the_ends_may_stand_in_either_order_or_be_left_out(ends: str) -> None:
    assert held(seen("C01", 10, ends)).remarks == ()


def test_tested_cables_that_nobody_signed_for_are_told_together() -> None:
    report = held(seen("C01", 10, initials=""), seen("W01", 10, initials=""), seen("P01", None, initials=""))

    assert report.remarks == ("Nobody signed for C01 and W01: who read the rate?",)


def test_every_row_that_is_not_in_the_plan_or_stands_twice_is_told_with_its_line() -> None:
    with pytest.raises(InputError) as raised:
        held(seen("C1", 10, line=2), seen("W01", 10, line=3), seen("W01", 1, line=4), seen("ladder", 1, line=5))

    assert [str(problem) for problem in raised.value.problems] == [
        "filled.csv:2: cable 'C1' is not in the plan; did you mean 'C01'?",
        "filled.csv:4: cable 'W01' stands in line 3 already: keep one of the two rows",
        "filled.csv:5: cable 'ladder' is not in the plan; take the row out, or print the sheet anew.",
    ]


def test_a_name_in_other_letters_is_taken_for_the_one_cable_that_is_called_so() -> None:
    report = held(seen("c01", 10), seen("w01", 1), seen("P01", 10))

    assert verdicts(report) == [
        ("C01", "as expected"), ("W01", "slower"), ("P01", "as expected"), ("W02", "no rate to read"),
    ]  # fmt: skip
    assert "C01" == (report.cables[0].seen or seen("", 1)).cable


def test_of_cables_that_differ_by_their_letters_alone_each_is_named_as_it_is() -> None:
    plan = wired(panel("bay"), cable("Up", "bay/1", "bay/2"), cable("uP", "bay/3", "bay/4"))

    assert [("Up", "no rate to read"), ("uP", "nothing to hold it against")] == verdicts(held(seen("uP", 1), plan=plan))
    with pytest.raises(InputError) as raised:
        held(seen("UP", 1), plan=plan)
    assert str(raised.value).startswith("filled.csv:2: cable 'UP' is not in the plan")


def test_a_cable_that_stands_twice_in_different_letters_stands_twice() -> None:
    with pytest.raises(InputError) as raised:
        held(seen("C01", 10), seen("c01", 10, line=3))

    assert "filled.csv:3: cable 'C01' stands in line 2 already: keep one of the two rows" == str(raised.value)


def test_a_sheet_is_accepted_against_the_plan_alone_with_lengths_worked_out() -> None:
    bare = replace(ROOM, cables={name: one._replace(length_m=None) for name, one in ROOM.cables.items()})
    rows = (seen("C01", 10), seen("W01", 1))

    for plan in (ROOM, bare):
        whole = with_run_lengths(plan)
        assert judged(whole, acceptance_sheet(whole, build_topology(whole)), rows, "f.csv") == accepted(
            plan, rows, "f.csv"
        )


def test_the_doubt_about_a_rate_is_told_for_lengths_that_are_worked_out() -> None:
    wing = netaudit.load(TOPOLOGIES / "new-wing.yaml")
    cables = {**wing.cables, "W01": wing.cables["W01"]._replace(category="6")}
    plan = replace(wing, cables=cables, routes={name: Route(name, 40.0) for name in wing.routes})
    found = {one.row.cable: one.row.where for one in accepted(plan, (), "f.csv").cables}

    assert "; 10 Gb/s (1250 MB/s) may not hold" in found["W01"]


def test_a_name_as_long_as_a_plan_allows_is_compared_and_no_longer_one() -> None:
    plan = wired(panel("bay"), cable("C" * 64, "bay/1", "bay/2"))

    with pytest.raises(InputError) as raised:
        held(seen("C" * 63 + "x", 10), seen("C" * 64 + "x", 10), plan=plan)

    assert [True, False] == ["did you mean" in str(problem) for problem in raised.value.problems]


def test_a_misspelt_cable_is_found_among_thousands() -> None:
    names = [f"C{number:05}" for number in range(3000)]
    plan = wired(
        panel("bay", 6000), *(cable(name, f"bay/{2 * n + 1}", f"bay/{2 * n + 2}") for n, name in enumerate(names))
    )

    with pytest.raises(InputError) as raised:
        held(seen("C02031x", 10), plan=plan)

    assert str(raised.value) == "filled.csv:2: cable 'C02031x' is not in the plan; did you mean 'C02031'?"


def test_a_sheet_of_another_plan_is_not_told_row_by_row_to_the_end() -> None:
    with pytest.raises(InputError) as told:
        held(*(seen(f"X{number}", 10) for number in range(1, 152)))

    assert 101 == len(told.value.problems)
    assert "and 51 more rows that are not in the plan" == told.value.problems[-1].message
