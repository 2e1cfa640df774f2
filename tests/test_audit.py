"""The audit: counting, order, lines, verdicts, what is taken for granted, and the part for one seat."""

from __future__ import annotations

from collections import Counter

import pytest
from rooms import found, plan_of, report_of, room

from netaudit.audit import audit, narrowed
from netaudit.rules.catalogue import RULES
from netaudit.rules.facts import build_facts

SECOND_SEAT = {
    "devices": "  cut-2: {role: station, wants: 1G, ports: {wire: {connector: rj45, rates: [10G], network: media}}}",
    "cables": "  C02: {from: cut-2/wire, to: core/2, category: 6A, length: 2 m}",
}


def test_each_rule_counts_once_for_each_subject_it_was_asked_about() -> None:
    report = report_of(room())
    asked = Counter(rule.name for rule in RULES for _ in rule.subjects(build_facts(plan_of(room()))))

    assert asked.total() == report.summary.checked
    assert (2, 1, 1, 4) == tuple(
        asked[name] for name in ("no-common-rate", "channel-too-long", "no-path", "port-used-twice")
    )
    assert 0 == asked["loop-unprotected"] + asked["units-overlap"] + asked["fibre-too-long"]
    assert (0, 0, 0, 0) == (report.summary.fail, report.summary.warn, report.summary.note, report.summary.not_checked)


def test_what_was_not_checked_is_not_counted_as_checked() -> None:
    known, unknown = report_of(room()), report_of(room(None))

    assert 3 == len(unknown.not_checked)
    assert known.summary.checked - len(unknown.not_checked) == unknown.summary.checked
    assert 2 == unknown.summary.not_checked == len({gap.where[0] for gap in unknown.not_checked})


def test_what_could_only_earn_a_warning_leaves_a_seat_good() -> None:
    """The packet of the seat is not known, and it might differ from the storage's: a warning at the worst."""
    report = report_of(room().replace("network: media, mtu: 9000", "network: media", 1))

    assert ["mtu-differs"] == [gap.rule for gap in report.not_checked]
    assert ("pass", "pass") == (report.summary.verdict, report.paths[0].verdict)


def test_the_gravest_come_first_and_then_the_order_of_the_rules() -> None:
    findings = report_of(room("120 m", wall="5e")).findings
    order = [rule.name for rule in RULES]

    assert ["path-below-target", "category-too-low", "channel-too-long"] == [finding.rule for finding in findings]
    assert sorted(findings, key=lambda finding: order.index(finding.rule)) == list(findings)


def test_a_finding_bears_the_line_of_its_first_place_and_a_path_that_of_its_seat() -> None:
    text = room(wall="5e")
    lines = text.splitlines()
    path, category = report_of(text).findings

    assert "cut-1:" == lines[(path.line or 0) - 1].strip()
    assert lines[(category.line or 0) - 1].startswith("  W01:")


def test_a_seat_whose_own_target_is_met_passes_beside_one_that_falls_short_over_the_same_uplink() -> None:
    report = report_of(
        room(storage="[1G]", **SECOND_SEAT).replace("category: twinax", "category: 6A").replace("sfp+", "rj45")
    )

    assert {"cut-1": "fail", "cut-2": "pass"} == {judged.path.station: judged.verdict for judged in report.paths}
    assert "fail" == report.summary.verdict


def test_a_seat_on_a_faulty_cable_fails_even_if_it_wants_nothing() -> None:
    (judged,) = report_of(room(wall="5e", seat="")).paths

    assert "fail" == judged.verdict


def test_what_the_figures_take_for_granted_is_told() -> None:
    silent = report_of(room().replace(", mtu: 9000}", "}"))

    assert "packets of 1500 octets where a port gives no MTU" in silent.assumed
    assert "disks that keep up in vault: how fast they read does not follow from the plan" in silent.assumed
    assert {"ambient 20 °C", "headroom 30 %", "regime iso"} < set(silent.assumed)
    assert not any("packets of 1500" in text for text in report_of(room()).assumed)
    assert "packets of 9000 octets through core, as planned for media" in report_of(room()).assumed


def test_one_seats_part_keeps_its_paths_its_faults_and_nothing_else() -> None:
    report = report_of(room(wall="5e", **SECOND_SEAT))

    good, bad = narrowed(report, ["cut-2"]), narrowed(report, ["cut-1"])

    assert ("pass", 0, ["note"]) == (good.summary.verdict, good.exit_code, [one.severity for one in good.findings])
    assert ("fail", 1, ["fail", "fail", "note"]) == (
        bad.summary.verdict, bad.exit_code, [one.severity for one in bad.findings]
    )  # fmt: skip
    assert report.summary.checked == good.summary.checked


def test_a_loop_touches_every_seat_on_its_switches() -> None:
    text = room(cables="  X01: {from: core/5, to: core/6, category: 6A, length: 1 m}", devices="")

    report = report_of(text)

    assert ["loop-unprotected"] == [finding.rule for finding in report.findings]
    assert ["fail"] == [judged.verdict for judged in report.paths]


@pytest.mark.parametrize("text", ["netaudit: 1\n", "netaudit: 1\ndevices: {a: {role: station}}\n"])
def test_a_plan_that_proves_nothing_is_incomplete(text: str) -> None:
    assert "incomplete" == audit(plan_of(text)).summary.verdict


def test_a_bus_that_is_not_given_is_taken_for_granted_by_name() -> None:
    silent, told = report_of(room()), report_of(room(port=", bus: pcie 3 x4"))

    assert "a bus that keeps up behind cut-1/wire, vault/fast: not given" in silent.assumed
    assert "a bus that keeps up behind vault/fast: not given" in told.assumed


def test_a_pool_without_a_rate_beside_one_that_has_it_is_named() -> None:
    text = room(storage="[10G]").replace(
        "mtu: 9000}\n\ncables", "mtu: 9000}\n    pools: {fast: {measured_read: 900 MB/s}, slow: {drives: 4}}\ncables"
    )

    assert (
        "disks that keep up in vault/slow: how fast they read does not follow from the plan" in report_of(text).assumed
    )


def test_one_seats_part_keeps_what_is_wrong_with_an_outlet_on_its_way() -> None:
    part = narrowed(report_of(room(joint=", category: 5e", seat="")), ["cut-1"])

    assert ["category-too-low"] == [finding.rule for finding in part.findings]
    assert ("fail", "fail") == (part.summary.verdict, part.paths[0].verdict)


def test_the_part_of_a_seat_without_a_road_keeps_why() -> None:
    part = narrowed(report_of(room(rates="[2.5G]", switch="[10G, 1G]")), ["cut-1"])

    assert ["no-path", "no-common-rate"] == [finding.rule for finding in part.findings]


def test_what_another_seat_lacks_on_a_shared_uplink_is_not_told_of_this_one() -> None:
    report = report_of(
        room(storage="[1G]", **SECOND_SEAT).replace("category: twinax", "category: 6A").replace("sfp+", "rj45")
    )

    part = narrowed(report, ["cut-2"])

    assert ("pass", 0) == (part.summary.verdict, part.exit_code)
    assert [] == found(part, "path-below-target")


def test_a_switch_that_passes_smaller_packets_than_both_ends_sets_the_figure() -> None:
    text = room().replace(
        "1-8: {connector: rj45, rates: up to 10G}", "1-8: {connector: rj45, rates: up to 10G, mtu: 1500}"
    )

    assert [9_900_420_447, 9_414_824_447] == [
        report_of(each).paths[0].path.goodput_bit_per_s for each in (room(), text)
    ]


TRUNK = """\
netaudit: 1
networks: {media: {purpose: storage}, office: {}, guests: {}}
devices:
  cut-1: {role: station, ports: {wire: {connector: rj45, rates: up to 10G, network: media}}}
  mail: {role: station, edits_from: [shelf], ports: {wire: {connector: rj45, rates: up to 10G, network: office}}}
  attic:
    role: switch
    ports:
      1: {connector: rj45, rates: up to 10G, network: media}
      2: {connector: rj45, rates: up to 10G, network: office}
      up: {connector: rj45, rates: up to 10G, networks: {untagged: office, tagged: [media]}}
  core:
    role: switch
    ports:
      1: {connector: rj45, rates: up to 10G, network: media}
      2: {connector: rj45, rates: up to 10G, network: guests}
      up: {connector: rj45, rates: up to 10G, networks: {untagged: guests, tagged: [media]}}
  vault: {role: storage, ports: {fast: {connector: rj45, rates: up to 10G, network: media}}}
  shelf: {role: storage, purpose: archive, ports: {fast: {connector: rj45, rates: up to 10G, network: guests}}}
cables:
  C01: {from: cut-1/wire, to: attic/1, category: 6A, length: 3 m}
  C02: {from: mail/wire, to: attic/2, category: 6A, length: 3 m}
  U01: {from: attic/up, to: core/up, category: 6A, length: 20 m}
  C03: {from: vault/fast, to: core/1, category: 6A, length: 3 m}
  C04: {from: shelf/fast, to: core/2, category: 6A, length: 3 m}
"""


def test_what_is_wrong_with_one_network_says_nothing_about_a_seat_in_another() -> None:
    report = report_of(TRUNK)

    assert ["port attic/up"] == [str(finding.where[0]) for finding in found(report, "wrong-network")]
    assert {"cut-1": "pass", "mail": "fail"} == {judged.path.station: judged.verdict for judged in report.paths}
