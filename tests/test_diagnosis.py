"""The diagnosis: every live rule on what a probe saw, counted, ranked and gathered."""

from __future__ import annotations

import pytest

from netaudit.diagnosis import diagnose
from netaudit.model.expectation import Expectation
from netaudit.model.finding import NotChecked
from netaudit.model.observation import Skipped
from netaudit.model.place import Place, PortRef
from netaudit.report.probe.words import sentence
from netaudit.rules.live.desk import (
    EN5,
    EXPECTED,
    FAR,
    GBIT,
    OLD_SESSION,
    SEEN,
    SESSION,
    VAULT,
    WLAN0,
    first_look,
    with_far,
    with_interface,
    with_wire,
)
from netaudit.rules.live.examples import example_of


def test_a_desk_in_order_is_judged_and_nothing_is_found() -> None:
    diagnosis = diagnose(SEEN, EXPECTED)

    assert ((), (), ()) == (diagnosis.findings, diagnosis.not_checked, diagnosis.causes)
    assert 25 == diagnosis.checked
    assert 0 == diagnosis.exit_code


@pytest.mark.parametrize("expected", [EXPECTED, EXPECTED._replace(ports={"wire": EXPECTED.ports["wire"]})])
def test_the_sentence_and_the_finding_agree_about_a_vlan_over_wifi(expected: Expectation) -> None:
    vlan = WLAN0._replace(name="wlan0.20", medium="wired", parent="wlan0")
    seen = with_interface(vlan, SEEN._replace(sessions=(OLD_SESSION._replace(interface="wlan0.20"),)))
    diagnosis = diagnose(seen, expected)
    (finding,) = [each for each in diagnosis.findings if each.rule == "traffic-on-wireless"]

    for told in (finding.message, sentence(diagnosis.situation)):
        assert "by wlan0.20" in told
        assert ", Wi-Fi at 866 Mb/s (108 MB/s)" in told


def test_the_sentence_and_the_rules_agree_that_a_vlan_on_the_planned_port_is_as_planned() -> None:
    vlan = EN5._replace(name="en5.20", parent="en5", addresses=())
    seen = with_interface(vlan, SEEN._replace(sessions=(SESSION._replace(interface="en5.20"),)))
    whole, slow = diagnose(seen, EXPECTED), diagnose(with_wire(seen, rate_bit_per_s=GBIT), EXPECTED)

    assert () == whole.findings
    assert sentence(whole.situation).endswith(" by en5.20 at 10 Gb/s (1250 MB/s), as planned (cut-1/wire).")
    assert "link-below-plan" in [finding.rule for finding in slow.findings]
    assert sentence(slow.situation).endswith("but at 1 Gb/s (125 MB/s) instead of 10 Gb/s (1250 MB/s).")


def test_what_was_seen_and_expected_is_handed_on() -> None:
    diagnosis = diagnose(SEEN, EXPECTED)

    assert (SEEN, EXPECTED) == (diagnosis.situation.seen, diagnosis.situation.expected)
    assert [("en5", "session", VAULT)] == [
        (use.interface, use.evidence, use.remote) for use in diagnosis.situation.uses
    ]
    assert PortRef("cut-1", "wire") == diagnosis.situation.plan_ports["en5"]


def test_what_the_chain_should_carry_is_told() -> None:
    assert (9_900_420_447, "link core/9 - vault/fast") == (
        diagnose(SEEN, EXPECTED).expected_bit_per_s,
        diagnose(SEEN, EXPECTED).expected_by,
    )
    unknown = diagnose(with_wire(rate_bit_per_s=None))
    assert (None, None) == (unknown.expected_bit_per_s, unknown.expected_by)


def test_findings_are_told_the_gravest_first_and_else_in_the_order_of_the_rules() -> None:
    seen = with_wire(
        with_far(SEEN, frames=example_of("large-frames-lost").seen.addresses[0].frames), rate_bit_per_s=GBIT
    )
    seen = seen._replace(offers=example_of("storage-offers-slower-port").seen.offers)
    diagnosis = diagnose(seen, EXPECTED)

    assert ["link-below-plan", "large-frames-lost", "storage-offers-slower-port"] == [
        finding.rule for finding in diagnosis.findings
    ]
    assert ["large-frames-lost", "link-below-plan"] == sorted(cause.cause for cause in diagnosis.causes[:2])
    assert 1 == diagnosis.exit_code


@pytest.mark.parametrize("name", ["storage-stalls", "not-the-network"])
def test_what_only_warns_or_is_noted_is_no_failure(name: str) -> None:
    example = example_of(name)

    assert 0 == diagnose(example.seen, example.expected).exit_code


def test_a_judgement_that_lacked_a_fact_is_not_counted() -> None:
    unknown = diagnose(with_wire(rate_bit_per_s=None), EXPECTED)

    assert ["link-below-plan"] == [gap.rule for gap in unknown.not_checked if gap.rule == "link-below-plan"]
    assert diagnose(SEEN, EXPECTED).checked > unknown.checked


def test_a_first_look_judges_the_road_alone_and_misses_nothing_yet() -> None:
    diagnosis = diagnose(first_look(SEEN), EXPECTED)

    assert ((), ()) == (diagnosis.findings, diagnosis.not_checked)
    assert 0 < diagnosis.checked < 25


@pytest.mark.parametrize(
    "name", ["traffic-on-wireless", "traffic-on-other-port", "tunnel-takes-route", "router-between", "session-on-other-port",
             "address-not-planned", "no-route", "carrier-lost"]
)  # fmt: skip
def test_a_first_look_finds_a_wrong_road_already(name: str) -> None:
    example = example_of(name)

    assert name in {finding.rule for finding in diagnose(first_look(example.seen), example.expected).findings}


NOTE = Skipped("the storage's own list", "it wants a name", "give --user", ("storage-offers-slower-port",))


def test_a_rule_that_never_got_its_answer_is_not_checked_at_the_interface_in_use() -> None:
    seen = SEEN._replace(offers=None, skipped=(NOTE,))

    assert (
        NotChecked(
            "storage-offers-slower-port",
            (Place("interface", "en5"),),
            "The storage's own list: it wants a name",
            "give --user",
        ),
    ) == diagnose(seen, EXPECTED).not_checked


def test_a_rule_that_has_spoken_needs_no_note() -> None:
    spoken = ("carrier-lost", "link-below-plan")

    assert () == diagnose(SEEN._replace(skipped=(NOTE._replace(rules=spoken),)), EXPECTED).not_checked


def test_without_an_interface_in_use_the_address_is_named_and_without_that_the_storage() -> None:
    lost = SEEN._replace(sessions=(), timings=(), skipped=(NOTE,), offers=None)
    blind = lost._replace(addresses=(FAR._replace(route=None, knocks={}),))

    assert [(Place("address", str(VAULT)),)] == [
        gap.where for gap in diagnose(blind).not_checked if gap.rule == "storage-offers-slower-port"
    ]
    nowhere = lost._replace(addresses=())
    assert [(Place("device", "vault"),)] == [gap.where for gap in diagnose(nowhere).not_checked]


def test_a_plan_is_not_needed() -> None:
    diagnosis = diagnose(SEEN)

    assert ({}, ()) == (diagnosis.situation.plan_ports, diagnosis.findings)
    assert (9_900_420_447, "en5 at 10 Gb/s (1250 MB/s)") == (diagnosis.expected_bit_per_s, diagnosis.expected_by)
