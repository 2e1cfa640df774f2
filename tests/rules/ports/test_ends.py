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

    assert "nothing through this cable" in finding.message


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

    assert "core/9 runs nothing through this cable, vault/fast runs only 25 Gb/s (3125 MB/s)" in finding.message
