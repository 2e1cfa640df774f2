"""The link: does the port hear its other end, and at the rate that was planned."""

from __future__ import annotations

import pytest
from deskwork import found, gaps, only, passes, places, planned_port, silent

from netaudit.model.finding import Measure
from netaudit.model.observation import Skipped
from netaudit.rules.live.desk import EN5, EN6, EXPECTED, GBIT, RATES, SEEN, SESSION, with_interface, with_wire
from netaudit.rules.live.link import CARRIER_LOST, LINK_BELOW_CAPABILITY, LINK_BELOW_PLAN

UNMOUNTED = SEEN._replace(sessions=(), timings=(), mount=None)
SLOW_RATES = (GBIT, 100_000_000)
PULLED = with_wire(UNMOUNTED, carrier=False)


def test_a_dead_port_that_the_route_still_means_fails() -> None:
    finding = only(CARRIER_LOST, PULLED)

    assert ["interface en5"] == places(finding)
    assert (
        "en5 (cut-1/wire), the planned way to vault, hears nothing from the other end of its cable, and the route still "
        "points there: nothing can pass" == finding.message
    )
    assert finding.remedy.startswith("Push in both plugs of its cable, at en5 and at core/1, and look")


def test_a_dead_planned_port_fails_though_the_traffic_goes_elsewhere() -> None:
    seen = with_wire(SEEN._replace(sessions=(SESSION._replace(interface="wlan0"),), moved=None), carrier=False)

    assert (
        "en5 (cut-1/wire), the planned way to vault, hears nothing from the other end of its cable: nothing can pass"
        == only(CARRIER_LOST, seen).message
    )


def test_a_dead_port_fails_without_a_plan() -> None:
    assert "en5 hears nothing" in only(CARRIER_LOST, PULLED, None).message


def test_a_port_that_is_switched_off_is_switched_on() -> None:
    finding = only(CARRIER_LOST, with_wire(UNMOUNTED, up=False, carrier=None))

    assert " is switched off, and the route still points there" in finding.message
    assert "Switch en5 on again." == finding.remedy


@pytest.mark.parametrize("change", [{}, {"carrier": None}, {"up": None}])
def test_what_is_alive_or_not_known_passes(change: dict[str, object]) -> None:
    assert passes(CARRIER_LOST, with_wire(**change))


def test_other_dead_ports_do_not_matter() -> None:
    assert passes(CARRIER_LOST, with_interface(EN6._replace(carrier=False)))


def test_a_link_below_its_plan_fails_with_both_rates() -> None:
    finding = only(LINK_BELOW_PLAN, with_wire(rate_bit_per_s=GBIT))

    assert ["interface en5", "port cut-1/wire"] == places(finding)
    assert (
        "en5 (cut-1/wire) runs at 1 Gb/s (125 MB/s), and 10 Gb/s (1250 MB/s) is planned: both ends offer it, so that the "
        "cable between them holds it back" == finding.message
    )
    assert (Measure(GBIT, "bit/s"), Measure(10 * GBIT, "bit/s")) == (finding.measured, finding.limit)
    assert finding.remedy.startswith("Halve the run: join en5 and core/1 by one short cable")


@pytest.mark.parametrize(
    ("change", "clause", "step"),
    [
        (
            {"supported": SLOW_RATES},
            "its adapter can run 1 Gb/s (125 MB/s) and 100 Mb/s (12.5 MB/s) only",
            "Use an adapter or a port of this machine that runs 10 Gb/s (1250 MB/s).",
        ),
        (
            {"offered": SLOW_RATES},
            "it does not offer that rate, only 1 Gb/s (125 MB/s) and 100 Mb/s (12.5 MB/s)",
            "Set the speed of en5 to automatic, with every rate offered, and look for a newer driver.",
        ),
        (
            {"partner": SLOW_RATES},
            "core/1 offers 1 Gb/s (125 MB/s) and 100 Mb/s (12.5 MB/s) only",
            "Plug the cable into a port that runs 10 Gb/s (1250 MB/s), or set core/1 to automatic.",
        ),
        ({"partner": ()}, "core/1 offers nothing only", "Plug the cable"),
        (
            {"partner": None},
            "what core/1 offers is not told, so that it is either that port or the cable",
            "Halve the run:",
        ),
        ({"offered": None}, "what core/1 offers is not told", "Halve the run:"),
    ],
)
def test_the_list_that_lacks_the_rate_is_named(change: dict[str, object], clause: str, step: str) -> None:
    finding = only(LINK_BELOW_PLAN, with_wire(rate_bit_per_s=GBIT, **change))

    assert finding.message.split(" is planned: ")[1].startswith(clause)
    assert finding.remedy.startswith(step)


def test_two_pairs_are_suspected_at_100_megabits_alone() -> None:
    """IEEE 802.3 clause 25: 100BASE-TX runs over two pairs."""
    at = {rate: only(LINK_BELOW_PLAN, with_wire(rate_bit_per_s=rate)).remedy for rate in (100_000_000, GBIT)}

    assert "only two of the four pairs are good" in at[100_000_000]
    assert "two of the four" not in at[GBIT]


@pytest.mark.parametrize("rate", [10 * GBIT, 25 * GBIT])
def test_the_planned_rate_or_more_passes(rate: int) -> None:
    assert passes(LINK_BELOW_PLAN, with_wire(rate_bit_per_s=rate))


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"made_up_rate": True, "rate_bit_per_s": GBIT}, "The driver of en5 makes its rate up"),
        ({"rate_bit_per_s": None}, "This system does not tell the rate of en5"),
    ],
)
def test_a_rate_that_is_not_real_is_not_checked(change: dict[str, object], reason: str) -> None:
    (gap,) = gaps(LINK_BELOW_PLAN, with_wire(**change))

    assert ["interface en5"] == places(gap)
    assert (reason, "read the rate at core/1: 10 Gb/s (1250 MB/s) is planned") == (gap.reason, gap.decides)


def test_the_note_of_whoever_could_not_ask_is_told() -> None:
    noted = (Skipped("rates", "it timed out", "probe again", ("link-below-plan",)),)
    (gap,) = gaps(LINK_BELOW_PLAN, with_wire(SEEN._replace(skipped=noted), rate_bit_per_s=None))

    assert ("Rates: it timed out", "probe again") == (gap.reason, gap.decides)


def test_without_a_planned_rate_or_a_link_there_is_nothing_to_judge() -> None:
    assert silent(LINK_BELOW_PLAN, with_wire(rate_bit_per_s=GBIT), None)
    assert silent(LINK_BELOW_PLAN, with_wire(rate_bit_per_s=GBIT), planned_port("wire", agreed_bit_per_s=None))
    assert silent(LINK_BELOW_PLAN, with_wire(rate_bit_per_s=GBIT, carrier=False))


def test_another_port_in_use_is_held_against_its_own_plan() -> None:
    back = planned_port("back", agreed_bit_per_s=2_500_000_000)
    seen = SEEN._replace(sessions=(SESSION._replace(interface="en6"),), moved=None)

    assert ["interface en6", "port cut-1/back"] == places(only(LINK_BELOW_PLAN, seen, back))


def test_below_what_both_ends_can_run_warns() -> None:
    finding = only(LINK_BELOW_CAPABILITY, with_wire(rate_bit_per_s=GBIT), None)

    assert ["interface en5"] == places(finding)
    assert "en5 runs at 1 Gb/s (125 MB/s) although both ends can run 10 Gb/s (1250 MB/s)" == finding.message
    assert (Measure(GBIT, "bit/s"), Measure(10 * GBIT, "bit/s")) == (finding.measured, finding.limit)
    assert finding.remedy.startswith("Halve the run: join en5 and the other end by")


def test_only_a_rate_that_both_ends_can_run_is_missed() -> None:
    assert passes(LINK_BELOW_CAPABILITY, with_wire(rate_bit_per_s=GBIT, partner=SLOW_RATES), None)
    assert passes(LINK_BELOW_CAPABILITY, with_wire(rate_bit_per_s=GBIT, supported=SLOW_RATES), None)


def test_what_is_offered_counts_where_nobody_tells_what_is_supported() -> None:
    assert found(LINK_BELOW_CAPABILITY, with_wire(rate_bit_per_s=GBIT, supported=None), None)
    assert passes(LINK_BELOW_CAPABILITY, with_wire(rate_bit_per_s=GBIT, supported=None, offered=SLOW_RATES), None)


@pytest.mark.parametrize(
    "change",
    [
        {"partner": None},
        {"supported": None, "offered": None},
        {"made_up_rate": True},
        {"carrier": False},
        {"carrier": None},
    ],
)
def test_without_both_lists_a_live_link_and_a_real_rate_nothing_is_judged(change: dict[str, object]) -> None:
    assert silent(LINK_BELOW_CAPABILITY, with_wire(rate_bit_per_s=GBIT, **change), None)


def test_what_the_plan_finds_too_slow_is_not_told_twice() -> None:
    assert silent(LINK_BELOW_CAPABILITY, with_wire(rate_bit_per_s=GBIT))
    assert found(LINK_BELOW_CAPABILITY, with_wire(rate_bit_per_s=GBIT), planned_port("wire", agreed_bit_per_s=GBIT))


def test_half_duplex_warns_whatever_else_is_known() -> None:
    finding = only(LINK_BELOW_CAPABILITY, with_wire(duplex="half", partner=None))

    assert "en5 (cut-1/wire) runs at half duplex: it sends or receives, never both" == finding.message
    assert finding.remedy.startswith(
        "Set en5 and core/1 to automatic: where one of them is fixed the other takes half duplex. On this machine `ethtool "
        "en5` shows it, `nmcli "
    )


def test_a_rate_that_is_not_known_is_not_below_anything() -> None:
    assert passes(LINK_BELOW_CAPABILITY, with_wire(rate_bit_per_s=None), None)


def test_the_desk_passes() -> None:
    assert RATES == EN5.partner
    for rule in (CARRIER_LOST, LINK_BELOW_PLAN, LINK_BELOW_CAPABILITY):
        assert passes(rule, SEEN, EXPECTED)
