"""The rules on agreed rates: below what both ends could run, and rates in the middle that are only presumed."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rooms import found, gaps, places, report_of, room
from wiring import UP_TO_10G, G, aerial, cable, cage, device, jack, network, rates, seat, switch, wired

from netaudit.audit import audit
from netaudit.model.finding import Finding
from netaudit.model.plan import Port, Rates
from netaudit.model.report import Report
from netaudit.rules.ports.rates import MIDDLE_RATE_ASSUMED, MIDDLE_RATES

UP_TO_5G = Rates(UP_TO_10G.bit_per_s[1:], up_to=True)
UP_TO_2_5G = Rates(UP_TO_10G.bit_per_s[2:], up_to=True)
UP_TO_1G = Rates(UP_TO_10G.bit_per_s[3:], up_to=True)


def upto(given_rates: Rates) -> Port:
    return Port(connector="rj45", rates=given_rates)


def between(near: Port, far: Port, category: str = "6A", **fields: object) -> Report:
    """The report on two switches with a cable between them."""
    line = cable("C1", "a/1", "b/1", category, 1.0, **fields)  # type: ignore[arg-type]
    return audit(wired(switch("a", {"1": near}), switch("b", {"1": far}), line))


def below(near: Port, far: Port, category: str = "6A", **fields: object) -> list[Finding]:
    return found(between(near, far, category, **fields), "link-below-both")


# link-below-both: the sets below are those of the ports alone; what they agree on is the highest they share,
# IEEE 802.3 clause 28.2.3.3 (priority resolution).


@pytest.mark.parametrize(
    ("near", "far", "agreed", "best"),
    [
        (upto(UP_TO_5G), jack(10, 1), 1, 5),
        (jack(2.5, 1), jack(10, 1), 1, 2.5),
        (jack(25, 10), jack(40, 10), 10, 25),
        (jack(5, 2.5, 1), jack(10, 2.5, 1), 2.5, 5),
    ],
)
def test_two_ports_that_skip_each_others_best_are_told(near: Port, far: Port, agreed: float, best: float) -> None:
    for one, other in ((near, far), (far, near)):
        (finding,) = below(one, other)
        assert ("warn", "plan") == (finding.severity, finding.source.standing)
        assert (agreed * G, "bit/s") == finding.measured
        assert (best * G, "bit/s") == finding.limit


@pytest.mark.parametrize(
    ("near", "far"),
    [
        (upto(UP_TO_1G), upto(UP_TO_10G)),
        (upto(UP_TO_2_5G), upto(UP_TO_10G)),
        (jack(10, 1), jack(10, 1)),
        (jack(10, 1), jack(1)),
        (jack(10, 1), jack(1, 0.1)),
        (jack(5), jack(10, 1)),
    ],
)
def test_a_link_at_the_best_of_one_of_its_ends_is_silent(near: Port, far: Port) -> None:
    for one, other in ((near, far), (far, near)):
        assert [] == below(one, other)


GRADES = [0.1, 1, 2.5, 5, 10, 25]


@settings(deadline=None)
@given(*[st.lists(st.sampled_from(GRADES), min_size=1, unique=True).map(sorted) for _ in range(2)])
def test_it_strikes_where_the_highest_common_rate_is_under_both_highest_rates(
    one: list[float], other: list[float]
) -> None:
    shared = set(one) & set(other)
    strikes = bool(shared) and max(shared) < min(one[-1], other[-1])

    assert strikes == bool(below(jack(*one[::-1]), jack(*other[::-1])))


def test_the_port_with_fewer_rates_comes_first_and_the_message_names_both_tops() -> None:
    (finding,) = below(upto(UP_TO_5G), jack(10, 1))

    assert ["port b/1", "port a/1", "cable C1"] == places(finding)
    assert (
        "b/1 runs up to 10 Gb/s (1250 MB/s) and a/1 runs up to 5 Gb/s (625 MB/s), "
        "but the fastest rate that both know is 1 Gb/s (125 MB/s)" == finding.message
    )
    assert (
        "Use a port or a module at b/1 that runs 5 Gb/s (625 MB/s) or 2.5 Gb/s (312 MB/s), "
        "or a port or a module at a/1 that runs 10 Gb/s (1250 MB/s)." == finding.remedy
    )


def test_a_free_port_that_meets_the_other_end_higher_is_the_remedy() -> None:
    ends = [
        switch("a", {"1": upto(UP_TO_5G)}),
        switch("b", {"1": jack(10, 1), "2": jack(10, 1), "3": jack(10, 2.5, 1)}),
    ]

    (finding,) = found(audit(wired(*ends, cable("C1", "a/1", "b/1"))), "link-below-both")

    assert "Move the cable from b/1 to b/3, which is free and meets a/1 at 2.5 Gb/s (312 MB/s)." == finding.remedy


def test_a_free_port_is_told_with_the_highest_rate_at_which_it_meets_the_other_end() -> None:
    ends = [switch("a", {"1": upto(UP_TO_5G)}), switch("b", {"1": jack(10, 1), "2": jack(5, 2.5, 1)})]

    (finding,) = found(audit(wired(*ends, cable("C1", "a/1", "b/1"))), "link-below-both")

    assert "Move the cable from b/1 to b/2, which is free and meets a/1 at 5 Gb/s (625 MB/s)." == finding.remedy


def test_the_free_port_may_be_at_the_other_end() -> None:
    ends = [switch("a", {"1": upto(UP_TO_5G), "2": upto(UP_TO_10G)}), switch("b", {"1": jack(10, 1)})]

    (finding,) = found(audit(wired(*ends, cable("C1", "a/1", "b/1"))), "link-below-both")

    assert "Move the cable from a/1 to a/2, which is free and meets b/1 at 10 Gb/s (1250 MB/s)." == finding.remedy


def test_a_made_up_cable_for_less_than_both_ports_run_is_to_blame() -> None:
    (finding,) = below(cage(25, 10), cage(25, 10), "twinax", rates=rates(10))

    assert "a/1 and b/1 both run 25 Gb/s (3125 MB/s), but C1 leaves them only 10 Gb/s (1250 MB/s)" == finding.message
    assert "Use a cable made for 25 Gb/s (3125 MB/s) instead of C1." == finding.remedy
    assert [] == below(cage(25, 10), cage(25, 10), "twinax", rates=rates(25, 10))
    assert [] == below(cage(25, 10), cage(10), "twinax", rates=rates(10))


def test_a_module_counts_as_the_best_of_its_end() -> None:
    slow = cage(25, 10, module="10GBASE-SR")

    assert [] == below(slow, slow, "OM4")
    assert [] == below(slow, cage(25, 10), "OM4")


def test_the_lane_of_a_breakout_is_the_best_of_its_trunk() -> None:
    trunk, ends = switch("a", {"q": cage(100, 40)}), [switch(f"b{nth}", {"1": cage(25, 10)}) for nth in (1, 2)]
    line = cable("B1", "a/q", ["b1/1", "b2/1"], "twinax", 1.0)

    assert [] == found(audit(wired(trunk, *ends, line)), "link-below-both")

    four = [switch(f"b{nth}", {"1": cage(40, 10)}) for nth in (1, 2, 3, 4)]
    lanes = cable("B1", "a/q", [f"b{nth}/1" for nth in (1, 2, 3, 4)], "twinax", 1.0)
    findings = found(audit(wired(trunk, *four, lanes)), "link-below-both")
    assert 4 == len(findings)
    assert all(finding.limit == (25 * G, "bit/s") for finding in findings)


def test_an_end_of_unknown_rates_leaves_it_open_if_the_other_could_run_more_than_one_rate() -> None:
    for near, far in ((Port(connector="rj45"), jack(10, 1)), (jack(10, 1), Port(connector="rj45"))):
        (gap,) = gaps(between(near, far), "link-below-both")
        unknown = "a/1" if near.rates is None else "b/1"
        assert [f"port {unknown}"] == places(gap)
        assert f"The rates of {unknown} are not given" == gap.reason
        assert f"write down `rates` of {unknown}, as its data sheet has them" == gap.decides
    assert [] == gaps(between(Port(connector="rj45"), jack(1)), "link-below-both")
    assert [] == gaps(between(Port(connector="rj45"), Port(connector="rj45")), "link-below-both")


def test_a_cage_of_unknown_rates_behind_a_made_up_cable_is_open_too() -> None:
    report = between(Port(connector="sfp+"), cage(25, 10), "twinax", rates=rates(10))

    assert ["port a/1"] == places(gaps(report, "link-below-both")[0])
    assert [] == gaps(between(Port(connector="sfp+"), cage(10), "twinax", rates=rates(10)), "link-below-both")


def test_ends_that_never_link_and_radios_are_left_to_other_rules() -> None:
    assert [] == below(jack(2.5), jack(10, 1)) == gaps(between(jack(2.5), jack(10, 1)), "link-below-both")
    air = [network("air"), seat("cut-1", {"a": aerial(2.4, untagged="air")}), device("ap", "access-point", {"w": aerial(1.2)})]  # fmt: skip
    assert [] == found(audit(wired(*air)), "link-below-both")


# middle-rate-assumed. IEEE 802.3bz-2016 (clause 126) brought 2.5 and 5 Gb/s ten years after 802.3an-2006 (clause 55).


def assumed(near: Port, far: Port, **fields: object) -> list[Finding]:
    return found(between(near, far, **fields), "middle-rate-assumed")


LISTED = {2_500_000_000: jack(2.5, 1), 5 * G: jack(5, 1)}


@pytest.mark.parametrize("rate", MIDDLE_RATES)
def test_a_middle_rate_that_rests_on_up_to_something_higher_is_noted(rate: int) -> None:
    for near, far, presuming in ((LISTED[rate], upto(UP_TO_10G), "b/1"), (upto(UP_TO_10G), LISTED[rate], "a/1")):
        (finding,) = assumed(near, far)
        other = "b/1" if presuming == "a/1" else "a/1"
        assert "note" == finding.severity
        assert [f"port {presuming}", f"port {other}", "cable C1"] == places(finding)
        assert (rate, "bit/s") == finding.measured
        assert "IEEE 802.3" in finding.source.document
        assert "clause 126" == finding.source.clause
        assert f"is agreed only because {presuming} is written `up to 10 Gb/s`" in finding.message
        assert finding.message.endswith("if it runs no rates in between, the link runs 1 Gb/s (125 MB/s)")
        assert f"Read the data sheet of {presuming[0]} and list the rates of {presuming} one by one." == finding.remedy


@pytest.mark.parametrize(
    ("near", "far"),
    [
        (upto(UP_TO_5G), upto(UP_TO_5G)),
        (upto(UP_TO_2_5G), upto(UP_TO_2_5G)),
        (upto(UP_TO_2_5G), jack(10, 5, 2.5, 1)),
        (jack(5, 1), jack(10, 5, 1)),
        (upto(UP_TO_10G), upto(UP_TO_10G)),
        (upto(UP_TO_1G), upto(UP_TO_10G)),
        (upto(UP_TO_10G), Port(connector="rj45")),
    ],
)
def test_an_ends_own_top_rate_and_a_listed_one_are_stated(near: Port, far: Port) -> None:
    for one, other in ((near, far), (far, near)):
        assert [] == assumed(one, other)


def test_the_end_that_presumes_is_named_even_where_both_are_written_up_to() -> None:
    (finding,) = assumed(upto(UP_TO_10G), upto(UP_TO_5G))
    (turned,) = assumed(upto(UP_TO_2_5G), upto(UP_TO_5G))

    assert "port a/1" == places(finding)[0]
    assert ("port b/1", "`up to 5 Gb/s`") == (places(turned)[0], turned.message[turned.message.index("`") :][:14])


def test_without_a_plain_rate_to_fall_back_on_there_would_be_no_link() -> None:
    (finding,) = assumed(jack(5, 2.5), upto(UP_TO_10G))

    assert finding.message.endswith("if it runs no rates in between, there is no link")


def test_a_module_states_its_rate() -> None:
    stated = Port(connector="sfp+", rates=UP_TO_10G, module="2.5GBASE-T")

    assert [] == assumed(stated, jack(2.5, 1))
    assert 1 == len(assumed(Port(connector="rj45", rates=UP_TO_10G), jack(2.5, 1)))


def test_the_rule_cites_what_defines_the_middle_rates() -> None:
    assert ["clause 126"] == [source.clause for source in MIDDLE_RATE_ASSUMED.sources()]


@pytest.mark.parametrize(("seat_rates", "port_rates"), list(product(["up to 10G", "up to 1G"], repeat=2)))
def test_an_ordinary_room_is_silent(seat_rates: str, port_rates: str) -> None:
    report = report_of(room(rates=seat_rates, switch=port_rates, seat=""))

    for rule in ("link-below-both", "middle-rate-assumed"):
        assert [] == found(report, rule) == gaps(report, rule)
