"""The rule on rates: each seat is promised what it wants."""

from __future__ import annotations

from typing import Any

import pytest
from rooms import TREE, found, gaps, places, report_of, room, triangle, two_switches
from wiring import G, aerial, cable, device, jack, seat, vault, wired

import netaudit


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
    assert "Replace W01 by category 6A, good to 100 m." in finding.remedy
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
    assert (
        "core/1 runs at most 1 Gb/s (125 MB/s): use core/2, which is free and runs 10 Gb/s (1250 MB/s)."
        == finding.remedy
    )


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


def test_equal_links_on_a_protected_ring_leave_nothing_open() -> None:
    report = report_of(two_switches(attic=TREE, core=TREE))

    assert "pass" == report.summary.verdict


def test_of_two_unequal_links_the_tree_blocks_the_slow_one_whoever_is_the_root() -> None:
    report = report_of(two_switches(attic=TREE, core=TREE, second="5"))

    assert "pass" == report.summary.verdict
    assert {"U01"} == {name for hop in report.paths[0].path.hops for name in hop.cables if name.startswith("U")}


def test_a_ring_with_a_slow_link_and_no_known_root_leaves_the_rate_open() -> None:
    report = report_of(triangle())

    (gap,) = gaps(report, "path-below-target")
    assert "ring of attic, core and old" in gap.reason
    assert "set `priority` on the switch that should be the root: the one with the fastest links" == gap.decides
    assert None is report.paths[0].path.promised_bit_per_s
    assert "incomplete" == report.summary.verdict


def test_in_a_plan_without_networks_nobody_has_to_name_one() -> None:
    text = (
        room()
        .replace("networks:\n  media: {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}\n", "")
        .replace(", network: media", "")
        .replace(", mtu: 9000", "")
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
        (SR, SR, "F1: {from: cut-1/w, to: core/1, category: OM3, length: 301 m}", "F1 is 301 m of OM3, over which 10 Gb/s (1250 MB/s) reaches 300 m", "Shorten F1 to 300 m"),
        (SR, LR, "F1: {from: cut-1/w, to: core/1, category: OM3, length: 30 m}", "the modules at cut-1/w and core/1, 10GBASE-SR and 10GBASE-LR, differ", "Put 10GBASE-SR into core/1, to go with 10GBASE-SR in cut-1/w."),
        # The same clause: at most 2.6 dB over OM3.
        (SR, SR, "F1: {from: cut-1/w, to: core/1, category: OM3, length: 30 m, loss: 9 dB}", "F1 is worth more loss than the 2.6 dB that the modules bridge", "Make F1 shorter"),
        (SR, SR, "F1: {from: cut-1/w, to: core/1, category: OS2, length: 30 m}", "F1 is OS2, which 10GBASE-SR is not specified for", "Use ports or modules at cut-1/w and core/1 that are made for it"),
        # SFF-8431 appendix E as quoted in vendors' manuals: passive copper under 7 m.
        ("", "", "D1: {from: cut-1/w, to: core/1, category: twinax, length: 7.5 m}", "D1 is 7.5 m of twinax, over which 10 Gb/s (1250 MB/s) reaches 7 m", "Shorten D1 to 7 m"),
    ],
)  # fmt: skip
def test_glass_and_made_up_cables_that_hold_a_seat_back_are_told_with_their_limit(
    seat: str, switch: str, cables: str, reason: str, remedy: str
) -> None:
    (finding,) = found(report_of(GLASS.format(seat=seat, switch=switch, cables=cables)), "path-below-target")

    assert "is promised no rate at all, because " + reason in finding.message
    assert remedy in finding.remedy
    assert "plan" != finding.source.standing


def test_a_seat_that_names_no_rate_must_still_be_promised_one() -> None:
    text = GLASS.format(seat=SR, switch=LR, cables="F1: {from: cut-1/w, to: core/1, category: OM3, length: 5 m}")

    report = report_of(text.replace("wants: 10G, ", ""))

    (finding,) = found(report, "path-below-target")
    assert (
        "cut-1 is promised no rate on its road to vault, because the modules at cut-1/w and core/1" in finding.message
    )
    assert ("fail", None) == (report.summary.verdict, finding.limit)


def test_a_seat_that_names_no_rate_and_is_promised_none_for_want_of_a_fact_is_open() -> None:
    text = GLASS.format(seat="", switch="", cables="F1: {from: cut-1/w, to: core/1, category: OM3, length: 5 m}")

    report = report_of(text.replace("wants: 10G, ", ""))

    (gap,) = gaps(report, "path-below-target")
    assert "Which module sits in cut-1/w and core/1 is not given" == gap.reason
    assert "incomplete" == report.summary.verdict


def test_a_road_that_is_promised_nothing_has_nothing_measured() -> None:
    text = GLASS.format(seat=SR, switch=LR, cables="F1: {from: cut-1/w, to: core/1, category: OM3, length: 5 m}")

    (finding,) = found(report_of(text), "path-below-target")

    assert (0, "bit/s") == finding.measured


def test_no_more_than_three_steps_are_told_at_once() -> None:
    """USB at 480 Mb/s at both ends and two slow links: four places, three steps."""
    text = room(port=", bus: usb 480M", rates="up to 1G", storage="[1G]").replace(
        "storage\n    ports:\n      fast: {", "storage\n    ports:\n      fast: {bus: usb 480M, "
    )

    (finding,) = found(report_of(text), "path-below-target")

    assert 1 + 4 == len(finding.where)
    assert 3 == finding.remedy.count(".") - finding.remedy.count(".5")


def test_a_bus_in_no_table_comes_before_a_link_that_is_open_as_well() -> None:
    text = GLASS.format(seat=", bus: pcie 7 x1", switch="",
                        cables="F1: {from: cut-1/w, to: core/1, category: OM3, length: 5 m}")  # fmt: skip

    (gap,) = gaps(report_of(text.replace("wants: 10G, ", "")), "path-below-target")

    assert "What PCI Express 7 x1 behind cut-1/w carries is in no table" == gap.reason
    assert ["path cut-1 > vault", "bus cut-1/w"] == places(gap)


def test_a_radio_below_the_target_is_told_to_get_a_cable() -> None:
    base = device("beacon", "access-point", {"air": aerial(1.2), "lan": jack()})
    cut = seat("cut-1", {"air": aerial(1.2)}, wants_bit_per_s=10 * G)

    (finding,) = found(
        netaudit.check(wired(base, cut, vault(), cable("C1", "beacon/lan", "vault/fast"))), "path-below-target"
    )

    assert "Plug cut-1 in by cable: a radio is promised no rate." == finding.remedy


@pytest.mark.parametrize(
    ("category", "most"), [("5e", "never has more than 2.5 Gb/s (312 MB/s)"), ("3", "is promised no rate at all")]
)
@pytest.mark.parametrize("wants", [10 * G, None])
def test_a_cable_that_holds_the_seat_back_whatever_the_far_port_runs_is_the_reason(
    category: Any, most: str, wants: int | None
) -> None:
    """IEEE 802.3 asks category 5 at least of 100BASE-TX and up, and 5e carries 2.5 Gb/s: 802.3bz."""
    cut, box = seat("cut-1", wants_bit_per_s=wants), vault("vault", {"fast": jack()._replace(rates=None)})

    findings = found(
        netaudit.check(wired(cut, box, cable("C1", "cut-1/wire", "vault/fast", category))), "path-below-target"
    )

    assert (wants is not None or category == "3") == bool(findings)
    for finding in findings:
        assert (most if wants else "is promised no rate on its road") in finding.message
        assert finding.message.endswith(f"because C1 is category {category}")
        assert "Replace C1 by category 6A, good to 100 m (6 is enough up to 37 m)." == finding.remedy


@pytest.mark.parametrize(
    ("bus", "what"), [("usb 480M", "fail"), ("usb 9G", "open"), ("pcie 7 x1", "open"), ("usb 40G", "pass")]
)
def test_a_bus_in_no_table_is_judged_by_its_signalling_rate_or_stays_open(bus: str, what: str) -> None:
    report = report_of(room(port=f", bus: {bus}"))

    found_it, open_it = found(report, "path-below-target"), gaps(report, "path-below-target")
    assert {"fail": (1, 0), "open": (0, 1), "pass": (0, 0)}[what] == (len(found_it), len(open_it))


def test_a_limit_that_is_only_remembered_warns_and_leaves_the_seat_open() -> None:
    text = """\
netaudit: 1
devices:
  cut-1: {role: station, wants: 25G, ports: {w: {connector: rj45, rates: [25G], bus: thunderbolt 2}}}
  vault: {role: storage, ports: {f: {connector: rj45, rates: [25G]}}}
cables:
  C1: {from: cut-1/w, to: vault/f, category: "8.1", length: 2 m}
"""
    report = report_of(text)

    (finding,) = found(report, "path-below-target")
    assert ("warn", "memory") == (finding.severity, finding.source.standing)
    assert ("incomplete", 0) == (report.summary.verdict, report.exit_code)


def test_the_free_port_that_is_advised_is_in_the_same_network() -> None:
    text = room().replace("  media: {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}", "  media: {purpose: storage}\n  office: {}").replace(
        "1-8: {connector: rj45, rates: up to 10G}",
        "1: {connector: rj45, rates: up to 1G, network: media}\n      2-4: {connector: rj45, rates: up to 10G, network: office}\n"
        "      5-8: {connector: rj45, rates: up to 10G, network: media}",
    ).replace("9-10: {connector: sfp+, rates: [10G, 1G]}", "9-10: {connector: sfp+, rates: [10G, 1G], network: media}")  # fmt: skip

    (finding,) = found(report_of(text), "path-below-target")

    assert "use core/5, which is free and runs" in finding.remedy


def test_the_row_agrees_with_a_bus_that_bounds_it() -> None:
    path = report_of(room(port=", bus: usb 480M")).paths[0].path

    assert ("bus cut-1/wire", None) == (str(path.limited_by), path.goodput_bit_per_s)


def test_a_rate_that_may_run_is_not_assured_and_one_that_cannot_will_not_hold() -> None:
    (may,) = found(report_of(room("40 m", wall="6", cord="6")), "path-below-target")
    (cannot,) = found(report_of(room("80 m", wall="6", cord="6")), "path-below-target")

    assert may.message.startswith("cut-1 is not assured 10 Gb/s (1250 MB/s): its road to vault is promised 5 Gb/s")
    assert cannot.message.startswith("cut-1 will not hold 10 Gb/s (1250 MB/s)")


def test_a_seat_behind_a_router_is_told_first_to_go_round_it() -> None:
    text = """\
netaudit: 1
networks:
  media: {subnet: 10.44.20.0/24, gateway: 10.44.20.1, purpose: storage}
  office: {subnet: 192.168.44.0/24, gateway: 192.168.44.1}
devices:
  cut-1: {role: station, wants: 10G, ports: {wire: {connector: rj45, rates: up to 10G, network: office}}}
  router: {role: router, ports: {1: {connector: rj45, rates: up to 1G, network: office}, 2: {connector: rj45, rates: up to 10G, network: media}}}
  vault: {role: storage, ports: {fast: {connector: rj45, rates: up to 10G, network: media}}}
cables:
  C01: {from: cut-1/wire, to: router/1, category: 6A, length: 3 m}
  C02: {from: router/2, to: vault/fast, category: 6A, length: 3 m}
"""
    (finding,) = found(report_of(text), "path-below-target")

    assert finding.remedy.startswith(
        "Its road leads through a router: give cut-1 a port in media, the network of vault/fast. router/1 runs at most"
    )
