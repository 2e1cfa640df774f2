"""Causes: what explains what, so that the one to deal with stands first."""

from __future__ import annotations

from graphlib import TopologicalSorter
from itertools import product

import pytest
from deskwork import situation

from netaudit.citation import OBSERVED
from netaudit.model.diagnosis import Cause
from netaudit.model.finding import Finding
from netaudit.model.observation import Observation
from netaudit.model.place import Place
from netaudit.model.situation import Situation
from netaudit.rules.live import RULES
from netaudit.rules.live.causes import CONSEQUENCES, UPSTREAM, rank
from netaudit.rules.live.desk import (
    BY_AIR,
    EN5,
    FAR,
    SEEN,
    SLOW_FAR,
    with_far,
    with_growth,
    with_interface,
    with_wire,
)
from netaudit.rules.live.examples import example_of

SEVERITY = {rule.name: rule.severity for rule in RULES}
ON_AIR = with_far(SEEN._replace(sessions=()), route=BY_AIR)


AT_AN_ADDRESS = [
    "address-not-planned",
    "large-frames-lost",
    "frame-sizes-differ",
    "name-gives-many-addresses",
    "no-answer",
    "no-route",
    "one-hardware-address-twice",
    "router-between",
    "service-refused",
    "two-answers-for-address",
]


def finding(rule: str, message: str = "", *, interface: str | None = None) -> Finding:
    """A finding at an interface, or else where its rule finds such things: at the address in use, or at the wire."""
    at_address = interface is None and rule in AT_AN_ADDRESS
    where = Place("address", str(FAR.address)) if at_address else Place("interface", interface or "en5")
    return Finding(rule, SEVERITY[rule], (where,), message or rule, "Do it.", OBSERVED)


def roots(*findings: Finding, seen: Observation = SEEN) -> set[str]:
    """Names of the causes behind some findings, each at its own place."""
    return {cause.cause for cause in rank(findings, situation(seen))}


def causes(*rules: str, seen: Observation = SEEN) -> list[str]:
    """Names of the causes behind some findings."""
    return [cause.cause for cause in rank([finding(rule) for rule in rules], situation(seen))]


def test_nothing_has_no_cause() -> None:
    assert () == rank([], situation())


@pytest.mark.parametrize("name", [rule.name for rule in RULES])
def test_a_finding_alone_is_its_own_cause(name: str) -> None:
    assert (Cause(name, (name,)),) == rank([finding(name)], situation())


@pytest.mark.parametrize(
    ("root", "consequence"),
    [
        ("carrier-lost", "no-answer"),
        ("carrier-lost", "no-route"),
        ("carrier-lost", "traffic-on-wireless"),
        ("carrier-lost", "router-between"),
        ("carrier-lost", "address-not-planned"),
        ("no-route", "address-not-planned"),
        ("no-route", "traffic-on-wireless"),
        ("no-answer", "address-not-planned"),
        ("tunnel-takes-route", "router-between"),
        ("tunnel-takes-route", "no-answer"),
        ("session-on-other-port", "traffic-on-wireless"),
        ("session-on-other-port", "traffic-on-other-port"),
        ("session-on-other-port", "replies-on-other-port"),
        ("address-not-planned", "traffic-on-wireless"),
        ("address-not-planned", "name-gives-many-addresses"),
        ("address-not-planned", "frame-sizes-differ"),
        ("traffic-on-wireless", "name-gives-many-addresses"),
        ("traffic-on-wireless", "large-frames-lost"),
        ("traffic-on-wireless", "no-answer"),
        ("traffic-on-other-port", "frame-sizes-differ"),
        ("router-between", "frame-sizes-differ"),
        ("two-answers-for-address", "one-hardware-address-twice"),
        ("two-answers-for-address", "service-refused"),
        ("two-answers-for-address", "large-frames-lost"),
        ("two-answers-for-address", "storage-offers-slower-port"),
        ("replies-on-other-port", "large-frames-lost"),
        ("replies-on-other-port", "retransmits-high"),
        ("link-below-plan", "link-below-capability"),
        ("link-below-plan", "link-full"),
        ("large-frames-lost", "retransmits-high"),
        ("large-frames-lost", "storage-stalls"),
        ("link-flapping", "receive-errors"),
        ("link-flapping", "retransmits-high"),
        ("link-flapping", "link-below-plan"),
        ("receive-errors", "retransmits-high"),
        ("link-full", "retransmits-high"),
        ("link-full", "large-frames-lost"),
        ("link-full", "storage-stalls"),
        ("storage-stalls", "not-the-network"),
        ("signing-or-encryption", "not-the-network"),
    ],
)
def test_what_follows_from_another_is_no_cause_of_its_own(root: str, consequence: str) -> None:
    for order in ((root, consequence), (consequence, root)):
        told = rank([finding(name) for name in order], situation())
        assert [Cause(root, (root, consequence))] == list(told)


@pytest.mark.parametrize("rule", ["frame-sizes-differ", "link-full", "receive-errors"])
@pytest.mark.parametrize(
    "road",
    [
        "traffic-on-wireless",
        "traffic-on-other-port",
        "router-between",
        "tunnel-takes-route",
        "address-not-planned",
        "session-on-other-port",
        "no-route",
    ],
)
def test_no_road_sets_fills_or_damages_the_planned_port(road: str, rule: str) -> None:
    """`en5 is set to 1500, and 9000 is planned` stays true whichever way the traffic goes."""
    assert {road, rule} == roots(finding(road), finding(rule, interface="en5"))


@pytest.mark.parametrize("rule", ["link-full", "receive-errors"])
@pytest.mark.parametrize("road", ["traffic-on-other-port", "address-not-planned", "session-on-other-port"])
def test_what_a_port_shows_that_should_not_be_used_follows_from_its_use(road: str, rule: str) -> None:
    assert {road} == roots(finding(road), finding(rule, interface="en6"))


def test_a_router_fills_and_damages_no_port_of_this_machine() -> None:
    for rule in ("link-full", "receive-errors"):
        assert {"router-between", rule} == roots(finding("router-between"), finding(rule, interface="en6"))


def test_only_what_sizes_differ_at_the_far_end_follows_from_large_frames_that_get_lost() -> None:
    lost = finding("large-frames-lost")

    assert {"large-frames-lost"} == roots(lost, finding("frame-sizes-differ"))
    assert {"large-frames-lost", "frame-sizes-differ"} == roots(lost, finding("frame-sizes-differ", interface="en5"))


def test_of_two_findings_of_one_rule_the_unexplained_one_is_the_cause() -> None:
    own = finding("frame-sizes-differ", "en5 is set to 1500", interface="en5")
    told = rank(
        [finding("router-between", "a router"), finding("frame-sizes-differ", "far is small"), own], situation()
    )

    assert [("router-between", ("a router", "far is small")), ("frame-sizes-differ", ("en5 is set to 1500",))] == list(
        told
    )


@pytest.mark.parametrize(
    ("root", "consequence"),
    [
        ("link-flapping", "receive-errors"),
        ("link-flapping", "link-below-plan"),
        ("link-flapping", "link-below-capability"),
        ("link-below-plan", "link-below-capability"),
        ("link-below-plan", "link-full"),
        ("link-below-capability", "link-full"),
        ("carrier-lost", "receive-errors"),
    ],
)
def test_a_link_explains_only_what_is_seen_on_it(root: str, consequence: str) -> None:
    assert {root} == roots(finding(root), finding(consequence, interface="en5"))
    vlan = with_interface(EN5._replace(name="en5.20", parent="en5"))
    assert {root} == roots(finding(root), finding(consequence, interface="en5.20"), seen=vlan)
    other = finding(root, interface="en6")
    assert {root, consequence} == roots(other, finding(consequence, interface="en5"))


def test_a_wire_that_carries_nothing_explains_no_loss_and_no_slowness() -> None:
    """The sessions of the desk run on en5."""
    for root, consequence in (
        ("receive-errors", "retransmits-high"),
        ("adapter-bus-below-link", "not-the-network"),
        ("link-below-plan", "not-the-network"),
    ):
        slow = finding(consequence)._replace(where=(Place("session", "one"),))
        assert {root, consequence} == roots(finding(root, interface="en6"), slow)
        assert {root} == roots(finding(root), slow)


@pytest.mark.parametrize("road", ["traffic-on-wireless", "traffic-on-other-port", "address-not-planned"])
def test_a_dead_port_bends_the_road_only_where_it_is_the_planned_one(road: str) -> None:
    other = finding("carrier-lost", interface="en6")

    assert {"carrier-lost"} == roots(finding("carrier-lost"), finding(road))
    assert {"carrier-lost", road} == roots(other, finding(road))
    told = rank([other, finding(road)], situation(SEEN, None))
    assert ["carrier-lost"] == [cause.cause for cause in told]


def test_only_a_port_that_is_planned_or_used_keeps_coming() -> None:
    flapping = finding("link-flapping")

    assert {"link-flapping"} == roots(flapping, finding("no-answer"), seen=with_growth("en5", carrier_changes=2))
    assert {"link-flapping", "no-answer"} == roots(
        flapping, finding("no-answer"), seen=with_growth("wlan0", carrier_changes=2)
    )


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("service-refused", "link-below-plan"),
        ("link-below-plan", "large-frames-lost"),
        ("receive-errors", "signing-or-encryption"),
        ("frame-sizes-differ", "storage-offers-slower-port"),
    ],
)
def test_neither_of_two_strangers_explains_the_other(first: str, second: str) -> None:
    assert {first, second} == set(causes(first, second))


def test_what_fails_stands_before_what_warns_before_what_is_noted() -> None:
    assert ["service-refused", "adapter-bus-below-link"] == causes("adapter-bus-below-link", "service-refused")
    assert ["name-gives-many-addresses", "not-the-network"] == causes("not-the-network", "name-gives-many-addresses")


def test_of_equal_severity_the_more_upstream_one_stands_first() -> None:
    assert ["two-answers-for-address", "link-below-plan"] == causes("link-below-plan", "two-answers-for-address")
    assert ["receive-errors", "link-full"] == causes("link-full", "receive-errors")


def test_every_piece_of_evidence_is_told_the_nearest_first() -> None:
    found = [
        finding("no-answer", "nobody answers"),
        finding("carrier-lost", "en5 is dead"),
        finding("address-not-planned", "by another address"),
        finding("address-not-planned", "and by a third"),
    ]

    assert (Cause("carrier-lost", ("en5 is dead", "nobody answers", "by another address", "and by a third")),) == rank(
        found, situation()
    )


def test_what_two_roots_explain_is_evidence_of_both() -> None:
    told = rank([finding("receive-errors"), finding("link-full"), finding("retransmits-high")], situation())

    assert [("receive-errors", "retransmits-high"), ("link-full", "retransmits-high")] == [
        cause.because for cause in told
    ]


def test_a_link_that_keeps_coming_and_going_explains_that_it_is_gone_right_now() -> None:
    assert ["link-flapping"] == causes("carrier-lost", "link-flapping", seen=with_growth("en5", carrier_changes=2))
    assert ["carrier-lost", "link-flapping"] == causes(
        "carrier-lost", "link-flapping", seen=with_growth("en5", carrier_changes=1)
    )
    assert "carrier-lost" == causes("carrier-lost", "link-flapping", seen=SEEN._replace(moved=None))[0]


def test_a_router_explains_wifi_where_the_wire_has_no_address_that_could_reach() -> None:
    gone = with_wire(ON_AIR, addresses=())

    assert ["router-between"] == causes("traffic-on-wireless", "router-between", seen=gone)
    assert ["traffic-on-wireless"] == causes("traffic-on-wireless", "router-between", seen=ON_AIR)
    assert ["router-between"] == causes("traffic-on-other-port", "router-between", seen=gone)
    assert ["traffic-on-other-port"] == causes("traffic-on-other-port", "router-between", seen=ON_AIR)


def test_an_address_explains_wifi_unless_the_planned_address_would_go_through_the_air_too() -> None:
    slow_first = SEEN._replace(sessions=(), addresses=(SLOW_FAR, FAR))
    both_by_air = with_far(slow_first, route=BY_AIR)
    pair = ("traffic-on-wireless", "address-not-planned")

    assert ["address-not-planned"] == causes(*pair, seen=slow_first)
    assert ["traffic-on-wireless"] == causes(*pair, seen=both_by_air)
    assert ["address-not-planned"] == causes(*pair, seen=slow_first._replace(addresses=(SLOW_FAR,)))
    by_back = with_far(slow_first, route=BY_AIR._replace(interface="en6"))
    assert ["traffic-on-other-port"] == causes("traffic-on-other-port", "address-not-planned", seen=by_back)


def test_a_silent_planned_end_explains_why_another_address_is_used_unless_nobody_asked_it() -> None:
    pair = ("no-answer", "address-not-planned")

    assert ["no-answer"] == causes(*pair)
    assert ["address-not-planned"] == causes(*pair, seen=SEEN._replace(addresses=(SLOW_FAR,)))


@pytest.mark.parametrize("road", ["traffic-on-wireless", "traffic-on-other-port", "router-between"])
def test_a_road_explains_silence_only_at_the_address_that_it_leads_to(road: str) -> None:
    elsewhere = SEEN._replace(sessions=(), addresses=(SLOW_FAR, FAR))

    assert [road] == causes("no-answer", road)
    second = SEEN.sessions[0]._replace(remote=SEEN.sessions[0].remote._replace(address=SLOW_FAR.address))
    both = SEEN._replace(sessions=(*SEEN.sessions, second), addresses=(SLOW_FAR, FAR))
    assert {road, "no-answer"} == set(causes("no-answer", road, seen=both))
    assert {road, "no-answer"} == set(causes("no-answer", road, seen=elsewhere))
    assert [road] == [cause.cause for cause in rank([finding("no-answer"), finding(road)], situation(elsewhere, None))]


def test_without_a_plan_the_wires_that_are_alive_are_asked() -> None:
    found = [finding("traffic-on-wireless"), finding("router-between")]

    assert "traffic-on-wireless" == rank(found, situation(ON_AIR, None))[0].cause
    gone = with_interface(SEEN.interfaces["en6"]._replace(carrier=False), with_wire(ON_AIR, carrier=False))
    assert "router-between" == rank(found, situation(gone, None))[0].cause


@pytest.mark.parametrize("name", [rule.name for rule in RULES])
def test_what_an_example_stages_is_its_only_cause_and_its_message_the_first_evidence(name: str) -> None:
    example = example_of(name)
    known: Situation = situation(example.seen, example.expected)
    found = [
        judgement
        for rule in RULES
        for subject in rule.subjects(known)
        if isinstance(judgement := rule.judge(subject, known), Finding)
    ]
    (cause,) = rank(found, known)

    assert name == cause.cause
    assert {each.message for each in found} == set(cause.because)
    assert next(each.message for each in found if each.rule == name) == cause.because[0]


def test_every_rule_that_is_named_exists_and_every_root_has_its_place() -> None:
    names = {rule.name for rule in RULES}
    named = {each for one in CONSEQUENCES for each in (one.root, *one.consequences)}

    assert set() == named - names
    assert {one.root for one in CONSEQUENCES} == set(UPSTREAM)
    assert not any(one.root in one.consequences for one in CONSEQUENCES)


@pytest.mark.parametrize(("flaps", "wire", "by_air", "asked"), list(product((0, 2), *[(True, False)] * 3)))
def test_nothing_explains_itself_round_a_corner(flaps: int, wire: bool, by_air: bool, asked: bool) -> None:
    """Whatever the situation, following what explains what never leads back."""
    seen = SEEN._replace(sessions=(), addresses=(SLOW_FAR, FAR) if asked else (SLOW_FAR,))
    seen = with_growth("en5", with_far(seen, route=BY_AIR) if by_air else seen, carrier_changes=flaps)
    known = situation(seen if wire else with_wire(seen, addresses=()))
    graph: dict[str, set[str]] = {}
    for one in CONSEQUENCES:
        if one.holds(known):
            graph.setdefault(one.root, set()).update(one.consequences)

    TopologicalSorter(graph).prepare()
