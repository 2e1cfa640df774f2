"""Rules about ports: a rate in common, and one plug in each."""

from __future__ import annotations

from rooms import found, gaps, places, report_of, room


def test_a_25g_adapter_in_a_cage_of_10g_and_1g_finds_no_rate_and_both_ports_are_named() -> None:
    text = room(
        devices="  ingest: {role: station, edits_from: [], ports: {wire: {connector: rj45, rates: [5G, 2.5G]}}}",
        cables="  D02: {from: core/10, to: ingest/wire, category: 6A, length: 2 m}",
    )

    (finding,) = found(report_of(text), "no-common-rate")

    assert ["port core/10", "port ingest/wire", "cable D02"] == places(finding)
    assert "core/10 runs 10 Gb/s (1250 MB/s) and 1 Gb/s (125 MB/s)" in finding.message
    assert "plan" == finding.source.standing
    assert "Use a port or a module at core/10 that runs 5 Gb/s (625 MB/s) or 2.5 Gb/s (312 MB/s)." == finding.remedy


def test_the_port_with_fewer_rates_decides() -> None:
    text = room(switch="[5G, 2.5G]", rates="[1G]")

    (finding,) = found(report_of(text), "no-common-rate")

    assert ["port cut-1/wire", "port core/1", "cable C01", "cable W01", "cable P01"] == places(finding)


def test_a_free_port_of_the_same_device_that_fits_is_the_remedy() -> None:
    text = room(rates="[2.5G]").replace(
        "1-8: {connector: rj45, rates: up to 10G}",
        "1: {connector: rj45, rates: [10G, 1G]}\n      2-8: {connector: rj45, rates: up to 10G}",
    )

    (finding,) = found(report_of(text), "no-common-rate")

    assert (
        "Move the cable from core/1 to core/2, which is free and has a rate in common with cut-1/wire."
        == finding.remedy
    )


def test_one_rate_in_common_is_enough() -> None:
    assert [] == found(report_of(room(rates="[10G, 1G]", switch="[1G, 100M]", seat="")), "no-common-rate")


def test_the_module_in_a_cage_bounds_its_rates() -> None:
    text = room(
        devices="  archive: {role: storage, purpose: archive, ports: {a: {connector: sfp+, rates: [10G, 1G], module: 1000BASE-SX}}}",
        cables="  F01: {from: core/10, to: archive/a, category: OM3, length: 5 m}",
    ).replace(
        "9-10: {connector: sfp+, rates: [10G, 1G]}",
        "9: {connector: sfp+, rates: [10G, 1G]}\n      10: {connector: sfp+, rates: [10G, 1G], module: 10GBASE-SR}",
    )

    (finding,) = found(report_of(text), "no-common-rate")

    assert "core/10 runs only 10 Gb/s (1250 MB/s), archive/a runs only 1 Gb/s (125 MB/s)" in finding.message


def test_a_made_up_cable_of_another_rate_bounds_both_ends() -> None:
    text = room().replace("category: twinax, length: 1 m", "category: twinax, length: 1 m, rates: [25G]")

    (finding,) = found(report_of(text), "no-common-rate")

    assert (
        "core/9 runs 10 Gb/s (1250 MB/s) and 1 Gb/s (125 MB/s), vault/fast runs only 10 Gb/s (1250 MB/s), "
        "D01 is made for 25 Gb/s (3125 MB/s): no rate in common, they never link" == finding.message
    )


def test_rates_that_are_not_given_leave_it_open() -> None:
    text = room().replace("rates: [10G], network", "network")

    (gap,) = gaps(report_of(text), "no-common-rate")

    assert ["port vault/fast"] == places(gap)
    assert "write down `rates` of vault/fast, as its data sheet has them" == gap.decides


def test_two_cables_in_one_active_port_are_a_finding() -> None:
    text = room(cables="  X01: {from: plate/2, to: core/1, category: 6A, length: 5 m}")

    (finding,) = found(report_of(text), "port-used-twice")

    assert ["port core/1", "cable P01", "cable X01"] == places(finding)
    assert "Plug X01 into core/2, which is free." == finding.remedy


def test_two_cables_in_one_passive_port_are_a_spare_run_and_no_finding() -> None:
    assert [] == found(report_of(room()), "port-used-twice")


def test_an_end_that_can_run_nothing_is_told_apart_from_one_whose_rates_are_not_given() -> None:
    text = room().replace("rates: [10G], network", "network").replace(
        "category: twinax, length: 1 m", "category: twinax, length: 1 m, rates: [25G]"
    ).replace("9-10: {connector: sfp+, rates: [10G, 1G]}", "9-10: {connector: sfp+, rates: [10G, 1G], module: 10GBASE-SR}")  # fmt: skip

    (finding,) = found(report_of(text), "no-common-rate")

    assert (
        "core/9 runs only 10 Gb/s (1250 MB/s), vault/fast runs only 25 Gb/s (3125 MB/s), "
        "D01 is made for 25 Gb/s (3125 MB/s): no rate in common, they never link" == finding.message
    )


def test_a_cage_and_a_module_that_share_no_rate_are_told_each_by_its_own() -> None:
    text = room().replace(
        "9-10: {connector: sfp+, rates: [10G, 1G]}", "9-10: {connector: sfp+, rates: [10G], module: 1000BASE-SX}"
    )
    text = text.replace("category: twinax, length: 1 m", "category: OM3, length: 1 m").replace(
        "rates: [10G], network", "rates: [10G], module: 10GBASE-SR, network"
    )

    (finding,) = found(report_of(text), "no-common-rate")

    assert (
        "core/9 is a cage that runs 10 Gb/s (1250 MB/s) with a 1000BASE-SX module that runs 1 Gb/s (125 MB/s), "
        "vault/fast runs only 10 Gb/s (1250 MB/s): no rate in common, they never link" == finding.message
    )


def test_the_part_of_a_made_up_cable_is_named_and_another_cable_is_the_remedy() -> None:
    text = room().replace("category: twinax, length: 1 m", "category: twinax, length: 1 m, rates: [25G]")

    (finding,) = found(report_of(text), "no-common-rate")

    assert ", D01 is made for 25 Gb/s (3125 MB/s): no rate in common, they never link" in finding.message
    assert "Use a cable made for 10 Gb/s (1250 MB/s) instead of D01." == finding.remedy


BREAKOUT = """\
netaudit: 1
devices:
  core: {{role: switch, ports: {{q: {{connector: qsfp28, rates: {trunk}}}}}}}
  v1: {{role: storage, purpose: archive, ports: {{a: {{connector: sfp+, rates: [10G]}}}}}}
  v2: {{role: storage, purpose: archive, ports: {{a: {{connector: sfp+, rates: [10G]}}}}}}
  v3: {{role: storage, purpose: archive, ports: {{a: {{connector: sfp+, rates: [10G]}}}}}}
  v4: {{role: storage, purpose: archive, ports: {{a: {{connector: sfp+, rates: [10G]}}}}}}
cables:
  B1: {{from: core/q, to: [v1/a, v2/a, v3/a, v4/a], category: twinax, length: 2 m{cable}}}
"""


def test_the_part_of_a_breakout_is_named() -> None:
    findings = found(report_of(BREAKOUT.format(trunk="[100G]", cable="")), "no-common-rate")
    (first,) = (finding for finding in findings if "port v1/a" in places(finding))

    assert 4 == len(findings)
    assert (
        "core/q runs only 25 Gb/s (3125 MB/s), v1/a runs only 10 Gb/s (1250 MB/s), "
        "B1 divides the rate of core/q by 4: no rate in common, they never link" == first.message
    )
    assert "Use a port or a module at core/q that runs 10 Gb/s (1250 MB/s)." == first.remedy
    assert [] == found(report_of(BREAKOUT.format(trunk="[40G]", cable="")), "no-common-rate")


def test_a_cable_is_no_cure_where_its_ports_share_nothing_themselves() -> None:
    (finding, *_) = found(report_of(BREAKOUT.format(trunk="[100G]", cable=", rates: [10G]")), "no-common-rate")

    assert "B1 is made for 10 Gb/s (1250 MB/s), B1 divides the rate of core/q by 4" in finding.message
    assert "instead of B1" not in finding.remedy


def test_without_made_up_cables_nothing_is_said_of_the_cable() -> None:
    (finding,) = found(report_of(room(switch="[5G, 2.5G]", rates="[1G]")), "no-common-rate")

    assert "made for" not in finding.message
    assert "divides" not in finding.message


def test_a_breakout_of_two_lanes_is_named_as_well() -> None:
    text = BREAKOUT.format(trunk="[40G]", cable="").replace("[v1/a, v2/a, v3/a, v4/a]", "[v1/a, v2/a]")

    assert all("divides the rate of core/q by 2" in one.message for one in found(report_of(text), "no-common-rate"))
    assert 2 == len(found(report_of(text), "no-common-rate"))


def test_the_far_port_decides_where_it_has_fewer_rates_and_an_unknown_one_never_does() -> None:
    (fewer,) = found(report_of(room(rates="[5G, 2.5G]", switch="[1G]")), "no-common-rate")
    unknown = room(rates="[5G], module: 10GBASE-T").replace("{connector: rj45, rates: up to 10G}", "{connector: rj45}")
    (nothing,) = found(report_of(unknown), "no-common-rate")

    assert ["port core/1", "port cut-1/wire"] == places(fewer)[:2]
    assert ["port cut-1/wire", "port core/1"] == places(nothing)[:2]
    assert "core/1 is not said to run any" in nothing.message
    assert "Use a port or a module at cut-1/wire that runs a common rate." == nothing.remedy


def test_a_second_plug_without_a_free_port_goes_to_another_one() -> None:
    text = room(cables="  X01: {from: plate/2, to: core/1, category: 6A, length: 5 m}").replace("1-8: {c", "1: {c")

    (finding,) = found(report_of(text), "port-used-twice")

    assert "Plug X01 into another port." == finding.remedy
