"""Rules about paths: a road at the wanted rate for every seat, and no ring."""

from __future__ import annotations

import pytest
from rooms import found, gaps, places, report_of, room

TWO_SWITCHES = """\
netaudit: 1
networks:
  media: {{purpose: storage}}
devices:
  cut-1: {{role: station, wants: 10G, ports: {{wire: {{connector: rj45, rates: up to 10G, network: media}}}}}}
  attic: {{role: switch, {attic}ports: {{1-4: {{connector: rj45, rates: up to 10G{keys}}}, 5-8: {{connector: rj45, rates: up to 1G{keys}}}}}}}
  core: {{role: switch, {core}ports: {{1-4: {{connector: rj45, rates: up to 10G{keys}}}, 5-8: {{connector: rj45, rates: up to 1G{keys}}}}}}}
  vault: {{role: storage, ports: {{fast: {{connector: rj45, rates: up to 10G, network: media}}}}}}
cables:
  C01: {{from: cut-1/wire, to: attic/1, category: 6A, length: 3 m}}
  U01: {{from: attic/2, to: core/2, category: 6A, length: 20 m}}
  U02: {{from: attic/{second}, to: core/{second}, category: 6A, length: 20 m}}
  C02: {{from: core/1, to: vault/fast, category: 6A, length: 3 m}}
"""


def two_switches(attic: str = "", core: str = "", keys: str = "", second: str = "3") -> str:
    """Two switches joined by two cables."""
    return TWO_SWITCHES.format(attic=attic, core=core, keys=keys, second=second)


TREE = "spanning_tree: true, "


def test_a_good_room_has_no_finding_and_passes() -> None:
    report = report_of(room())

    assert () == report.findings
    assert () == report.not_checked
    assert "pass" == report.summary.verdict


def test_a_run_that_is_promised_less_than_wanted_fails_and_names_the_part() -> None:
    (finding,) = found(report_of(room(wall="5e")), "path-below-target")

    assert ["path cut-1 > vault", "link cut-1/wire - core/1"] == places(finding)
    assert (
        "cut-1 will not hold 10 Gb/s (1250 MB/s): its road to vault is promised 2.5 Gb/s (312 MB/s), "
        "because W01 is category 5e" == finding.message
    )
    assert "Replace W01 by category 6A, which is good to 100 m." in finding.remedy
    assert finding.measured is not None
    assert finding.limit is not None
    assert (2_500_000_000, "bit/s") == (finding.measured.value, finding.measured.unit)
    assert (10_000_000_000, "bit/s") == (finding.limit.value, finding.limit.unit)


def test_a_slow_port_is_named_with_a_free_one_that_would_do() -> None:
    text = room().replace(
        "1-8: {connector: rj45, rates: up to 10G}",
        "1: {connector: rj45, rates: up to 1G}\n      2-8: {connector: rj45, rates: up to 10G}",
    )

    (finding,) = found(report_of(text), "path-below-target")

    assert "because cut-1/wire and core/1 agree on no more" in finding.message
    assert "core/1 runs at most 1 Gb/s (125 MB/s): use core/2, which is free and does." == finding.remedy


@pytest.mark.parametrize(
    ("bus", "severity"),
    [("usb 5G", "fail"), ("usb 10G", None), ("pcie 3 x1", "fail"), ("pcie 3 x2", None), ("thunderbolt 3", None)],
)
def test_a_bus_more_than_a_tenth_under_the_wanted_rate_fails(bus: str, severity: str | None) -> None:
    findings = found(report_of(room(port=f", bus: {bus}")), "path-below-target")

    assert [severity] * len(findings) == [finding.severity for finding in findings]
    assert (severity is None) == (not findings)
    if findings:
        assert "bus cut-1/wire" in places(findings[0])


@pytest.mark.parametrize(("wants", "fails"), [("2.5G", False), ("2.77 Gb/s", False), ("2.78 Gb/s", True), ("5G", True)])
def test_a_tenth_under_the_wanted_rate_is_tolerated_and_no_more(wants: str, fails: bool) -> None:
    findings = found(report_of(room(wall="5e", seat=f"wants: {wants}")), "path-below-target")

    assert fails == bool(findings)


def test_a_seat_that_wants_nothing_is_not_counted() -> None:
    wanting, content = report_of(room()), report_of(room(seat=""))

    assert [] == found(content, "path-below-target")
    assert wanting.summary.checked == content.summary.checked + 1


def test_the_storage_port_can_be_the_narrowest() -> None:
    (finding,) = found(report_of(room(storage="[1G]")), "path-below-target")

    assert "link core/9 - vault/fast" in places(finding)
    assert "vault/fast runs at most 1 Gb/s (125 MB/s)" in finding.remedy


def test_every_place_below_the_target_is_named_the_narrowest_first() -> None:
    (finding,) = found(report_of(room(wall="5e", storage="[1G]")), "path-below-target")

    assert ["path cut-1 > vault", "link core/9 - vault/fast", "link cut-1/wire - core/1"] == places(finding)


def test_an_unknown_length_leaves_the_target_open_and_says_what_is_good() -> None:
    (gap,) = gaps(report_of(room(None)), "path-below-target")

    assert ["path cut-1 > vault", "cable W01"] == places(gap)
    assert "measure W01: up to 96 m is good" == gap.decides


def test_bounds_decide_where_the_unknown_cannot_help() -> None:
    report = report_of(room(None, wall="5e"))

    (finding,) = found(report, "path-below-target")
    assert "never has more than 2.5 Gb/s (312 MB/s)" in finding.message
    assert [] == gaps(report, "path-below-target")


def test_a_radio_below_the_target_fails_and_one_above_it_stays_open() -> None:
    text = """\
netaudit: 1
devices:
  cut-1: {{role: station, wants: {wants}, ports: {{air: {{connector: radio, rates: 1200M}}}}}}
  beacon: {{role: access-point, ports: {{air: {{connector: radio, rates: 2400M}}, wire: {{connector: rj45, rates: [10G]}}}}}}
  vault: {{role: storage, ports: {{fast: {{connector: rj45, rates: [10G]}}}}}}
cables:
  C01: {{from: beacon/wire, to: vault/fast, category: 6A, length: 3 m}}
"""
    (finding,) = found(report_of(text.format(wants="10G")), "path-below-target")
    (gap,) = gaps(report_of(text.format(wants="1G")), "path-below-target")

    assert "never has more than 1.2 Gb/s (150 MB/s), because it goes through the air" in finding.message
    assert "A radio is promised no rate" == gap.reason


NO_ROADS = {
    "no cable leaves cut-1": room().replace("  C01: {from: cut-1/wire", "  C01: {from: panel/3"),
    "the cables from cut-1/wire stop at panel/1": room().replace("from: panel/1, to: core/1", "from: panel/2, to: core/1"),
    "no cable reaches vault": room().replace("  D01: {from: core/9, to: vault/fast", "  D01: {from: core/9, to: core/10"),
    "cut-1/wire and core/1 have no rate in common": room(rates="[2.5G]", switch="[10G, 1G]"),
    "cut-1 is in office, vault serves in media": room(devices="").replace(
        "  media: {subnet: 10.44.20.0/24, purpose: storage}",
        "  media: {subnet: 10.44.20.0/24, purpose: storage}\n  office: {subnet: 192.168.44.0/24}",
    ).replace("up to 10G, network: media", "up to 10G, network: office"),
    "vault has no port for it": room().replace("network: media, mtu: 9000}\n\ncables", "network: media, serves: false}\n\ncables"),
}  # fmt: skip


@pytest.mark.parametrize("reason", NO_ROADS)
def test_a_seat_without_a_road_is_told_the_first_gap_and_the_step_that_closes_it(reason: str) -> None:
    report = report_of(NO_ROADS[reason])

    (finding,) = found(report, "no-path")
    assert ["path cut-1 > vault"] == places(finding)
    assert reason in finding.message
    assert finding.remedy.endswith(".")
    (judged,) = report.paths
    assert ("fail", None, (), True) == (
        judged.verdict, judged.path.agreed_bit_per_s, judged.path.hops, judged.path.planned
    )  # fmt: skip


def test_two_islands_of_one_network_are_named() -> None:
    text = two_switches().replace("  U01:", "  #U01:").replace("  U02:", "  #U02:")

    (finding,) = found(report_of(text), "no-path")

    assert "cut-1 (plugged into attic) and vault (plugged into core) are not joined in media" in finding.message


def test_two_cables_between_two_switches_without_a_tree_are_a_ring() -> None:
    (finding,) = found(report_of(two_switches()), "loop-unprotected")

    assert ["device attic", "device core"] == places(finding)[:2]
    assert {"cable U01", "cable U02"} < set(places(finding))
    assert "in media, and attic and core do not run a spanning tree" in finding.message


def test_one_switch_without_a_tree_leaves_the_ring_open_and_is_named_first() -> None:
    (finding,) = found(report_of(two_switches(attic=TREE)), "loop-unprotected")

    assert ["device core", "device attic"] == places(finding)[:2]


def test_a_ring_on_which_every_switch_runs_a_tree_is_protected() -> None:
    assert [] == found(report_of(two_switches(attic=TREE, core=TREE)), "loop-unprotected")


def test_equal_links_on_a_protected_ring_leave_nothing_open() -> None:
    report = report_of(two_switches(attic=TREE, core=TREE))

    assert "pass" == report.summary.verdict


def test_unequal_links_on_a_protected_ring_leave_the_rate_open() -> None:
    report = report_of(two_switches(attic=TREE, core=TREE, second="5"))

    (gap,) = gaps(report, "path-below-target")
    assert "ring of attic and core" in gap.reason
    assert None is report.paths[0].path.promised_bit_per_s
    assert "incomplete" == report.summary.verdict


def test_a_cord_from_a_switch_through_outlets_back_into_itself_is_a_ring() -> None:
    text = room(cables="  X01: {from: core/5, to: plate/4, category: 6A, length: 3 m}\n"
                       "  X02: {from: plate/4, to: core/6, category: 6A, length: 3 m}")  # fmt: skip

    (finding,) = found(report_of(text), "loop-unprotected")

    assert "A cord leads from core back into itself" in finding.message


def test_a_cable_for_each_of_two_networks_is_no_ring() -> None:
    text = two_switches(keys=", network: media", second="5").replace(
        "  media: {purpose: storage}", "  media: {purpose: storage}\n  office: {}"
    ).replace("5-8: {connector: rj45, rates: up to 1G, network: media}", "5-8: {connector: rj45, rates: up to 1G, network: office}")  # fmt: skip

    assert [] == found(report_of(text), "loop-unprotected")


def test_a_seat_whose_network_is_not_given_is_not_proven_in_a_plan_with_networks() -> None:
    report = report_of(room().replace("rates: up to 10G, network: media", "rates: up to 10G"))

    (gap,) = gaps(report, "no-path")
    assert ["path cut-1 > vault", "port cut-1/wire"] == places(gap)
    assert "incomplete" == report.summary.verdict


def test_in_a_plan_without_networks_nobody_has_to_name_one() -> None:
    text = (
        room()
        .replace("networks:\n  media: {subnet: 10.44.20.0/24, purpose: storage}\n", "")
        .replace(", network: media", "")
    )

    report = report_of(text)

    assert ("pass", ()) == (report.summary.verdict, report.not_checked)


GLASS = """\
netaudit: 1
devices:
  cut-1: {{role: station, wants: 10G, ports: {{w: {{connector: sfp+, rates: [10G]{seat}}}}}}}
  p: {{role: panel, ports: {{1-4: {{connector: lc}}}}}}
  q: {{role: panel, ports: {{1-4: {{connector: lc}}}}}}
  core: {{role: switch, ports: {{1: {{connector: sfp+, rates: [10G]{switch}}}, 2: {{connector: rj45, rates: [10G]}}}}}}
  vault: {{role: storage, ports: {{f: {{connector: rj45, rates: [10G]}}}}}}
cables:
  {cables}
  C2: {{from: core/2, to: vault/f, category: 6A, length: 2 m}}
"""
SR, LR = ", module: 10GBASE-SR", ", module: 10GBASE-LR"


@pytest.mark.parametrize(
    ("seat", "switch", "cables", "reason", "remedy"),
    [
        # IEEE 802.3 clause 52 as quoted by the Fiber Optic Association: 10GBASE-SR reaches 300 m over OM3.
        (SR, SR, "F1: {from: cut-1/w, to: core/1, category: OM3, length: 301 m}", "F1 is 301 m of OM3, over which 10 Gb/s (1250 MB/s) reaches 300 m", "Make F1 shorter"),
        (SR, LR, "F1: {from: cut-1/w, to: core/1, category: OM3, length: 30 m}", "the modules at its ends, 10GBASE-SR and 10GBASE-LR, differ", "Put the same kind of module into cut-1/w and core/1."),
        # The same clause: at most 2.6 dB over OM3.
        (SR, SR, "F1: {from: cut-1/w, to: core/1, category: OM3, length: 30 m, loss: 9 dB}", "F1 is worth more loss than the 2.6 dB that the modules bridge", "Make F1 shorter"),
        (SR, SR, "F1: {from: cut-1/w, to: core/1, category: OS2, length: 30 m}", "F1 is OS2, which is not made for 10 Gb/s (1250 MB/s)", "Put modules into cut-1/w and core/1 that are made for it"),
        # SFF-8431 appendix E as quoted in vendors' manuals: passive copper under 7 m.
        ("", "", "D1: {from: cut-1/w, to: core/1, category: twinax, length: 7.5 m}", "D1 is 7.5 m of twinax, over which 10 Gb/s (1250 MB/s) reaches 7 m", "Make D1 shorter"),
    ],
)  # fmt: skip
def test_glass_and_made_up_cables_that_hold_a_seat_back_are_told_with_their_limit(
    seat: str, switch: str, cables: str, reason: str, remedy: str
) -> None:
    (finding,) = found(report_of(GLASS.format(seat=seat, switch=switch, cables=cables)), "path-below-target")

    assert "is promised no rate at all, because " + reason in finding.message
    assert remedy in finding.remedy
    assert "plan" != finding.source.standing
