"""The rule on reach: each seat gets to its storage."""

from __future__ import annotations

import pytest
from rooms import found, gaps, places, report_of, room, two_switches

NO_ROADS = {
    "no cable leaves cut-1": room().replace("  C01: {from: cut-1/wire", "  C01: {from: panel/3"),
    "the cables from cut-1/wire stop at panel/1": room().replace("from: panel/1, to: core/1", "from: panel/2, to: core/1"),
    "no cable reaches vault": room().replace("  D01: {from: core/9, to: vault/fast", "  D01: {from: core/9, to: core/10"),
    "cut-1/wire and core/1 have no rate in common": room(rates="[2.5G]", switch="[10G, 1G]"),
    "cut-1 is in office, vault serves in media": room(devices="").replace(
        "  media: {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}",
        "  media: {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}\n  office: {subnet: 192.168.44.0/24}",
    ).replace("up to 10G, network: media", "up to 10G, network: office"),
    "vault/fast serves no files": room().replace("network: media, mtu: 9000}\n\ncables", "network: media, serves: false}\n\ncables"),
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


def test_a_seat_whose_network_is_not_given_is_not_proven_in_a_plan_with_networks() -> None:
    report = report_of(room().replace("rates: up to 10G, network: media", "rates: up to 10G"))

    (gap,) = gaps(report, "no-path")
    assert ["path cut-1 > vault", "port cut-1/wire"] == places(gap)
    assert "incomplete" == report.summary.verdict


def test_a_cable_between_two_networks_is_the_reason_and_both_its_ends_are_named() -> None:
    text = room().replace("  media: {subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}", "  media: {purpose: storage}\n  office: {}").replace(
        "1-8: {connector: rj45, rates: up to 10G}", "1-8: {connector: rj45, rates: up to 10G, network: office}"
    )  # fmt: skip

    (finding,) = found(report_of(text), "no-path")

    assert "cut-1/wire is in media and core/1, at the other end of its cable, in office" in finding.message
    assert "Put cut-1/wire and core/1 into one network." == finding.remedy


def test_a_trunk_that_lacks_a_network_is_the_reason() -> None:
    text = room().replace(
        "connector: rj45, rates: up to 10G, network: media",
        "connector: rj45, rates: up to 10G, networks: {tagged: [media]}",
    )

    (finding,) = found(report_of(text), "no-path")

    assert "cut-1/wire carries media tagged, and core/1, at the other end of its cable, does not" in finding.message
    assert "Let core/1 carry media tagged, or cut-1/wire as core/1 does." == finding.remedy


def test_a_port_that_is_named_and_serves_no_files_is_the_reason() -> None:
    text = room(seat="edits_from: [vault/slow]").replace(
        "  vault:\n    role: storage\n    ports:\n",
        "  vault:\n    role: storage\n    ports:\n      slow: {connector: rj45, rates: [1G], serves: false}\n",
    )

    (finding,) = found(report_of(text), "no-path")

    assert "vault/slow serves no files" in finding.message
