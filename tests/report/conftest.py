"""One small report for every form."""

from __future__ import annotations

import pytest

from netaudit.citation import PLAN, Citation
from netaudit.model.finding import Finding, Measure, NotChecked
from netaudit.model.path import Hop, Path
from netaudit.model.place import Place, PortRef, cable_place, link_place, path_place
from netaudit.model.report import JudgedPath, Report, Summary

SEAT = PortRef("cut-1", "wire")
CORE = PortRef("core", "1")
UP = PortRef("core", "9")
VAULT = PortRef("vault", "fast")


def hop(near: PortRef, far: PortRef, *cables: str, promised: int | None = 10_000_000_000) -> Hop:
    """A link of a road."""
    return Hop(
        from_port=near,
        to_port=far,
        cables=cables,
        phy="10GBASE-T",
        agreed_bit_per_s=10_000_000_000,
        promised_bit_per_s=promised,
        length_m=42.0 if promised else None,
        limit_m=100.0,
        loss_equivalent_m=44.0 if promised else None,
        connections=2,
    )


def road(station: str, promised: int | None, goodput: int | None, cable: str) -> Path:
    """A planned road from a seat to the vault."""
    port = PortRef(station, "wire")
    return Path(
        station=station,
        storage="vault",
        from_port=port,
        to_port=VAULT,
        planned=True,
        network="media",
        agreed_bit_per_s=10_000_000_000,
        promised_bit_per_s=promised,
        at_least_bit_per_s=promised or 0,
        at_most_bit_per_s=10_000_000_000,
        goodput_bit_per_s=goodput,
        share_bit_per_s=None if goodput is None else min(goodput, 3_300_140_149),
        shared_by=3,
        limited_by=link_place(UP, VAULT),
        hops=(hop(port, CORE, cable, promised=promised), hop(UP, VAULT, "D01")),
    )


@pytest.fixture
def report() -> Report:
    """Four seats: one good, one too slow, one open, one without a road; names with markup, a formula and an accent."""
    slow = path_place("[bold]cut-2[/]", "vault")
    return Report(
        file="boathouse.yaml",
        name="Boathouse <b>café</b>",
        headroom=0.3,
        assumed=("ambient 20 °C", "packets of 1500 octets where a port gives no MTU"),
        summary=Summary(verdict="fail", fail=2, warn=1, note=0, not_checked=1, checked=17),
        paths=(
            JudgedPath(road("cut-1", 10_000_000_000, 9_900_420_447, "W01"), "pass"),
            JudgedPath(road("[bold]cut-2[/]", 2_500_000_000, 2_475_105_112, "W02"), "fail"),
            JudgedPath(road("=cut-3", None, None, "W03"), "incomplete"),
            JudgedPath(Path(station="cut-4", storage="vault", planned=True), "fail"),
            JudgedPath(road("cut-1", None, None, "W01"), "pass"),
        ),
        findings=(
            Finding(
                rule="path-below-target",
                severity="fail",
                where=(slow, link_place(PortRef("[bold]cut-2[/]", "wire"), CORE)),
                message="[bold]cut-2[/] will not hold 10 Gb/s (1250 MB/s): its road to vault is promised "
                "2.5 Gb/s (312 MB/s), because W02 is category 5e",
                remedy="Replace W02.",
                source=PLAN,
                measured=Measure(2_500_000_000, "bit/s"),
                limit=Measure(10_000_000_000, "bit/s"),
                line=12,
            ),
            Finding(
                rule="channel-too-long",
                severity="fail",
                where=(cable_place("W02"), cable_place("C02")),
                message="W02 + C02: 62 m",
                remedy="Shorten it.",
                source=Citation("A standard", "clause 55", "secondary"),
                measured=Measure(62.0, "m"),
                limit=Measure(55.0, "m"),
                line=41,
            ),
            Finding(
                rule="loop-unprotected",
                severity="warn",
                where=(Place("device", "core"),),
                message="a ring",
                remedy="Break it.",
                source=Citation("A habit", None, "common practice"),
            ),
        ),
        not_checked=(
            NotChecked(
                rule="path-below-target",
                where=(path_place("=cut-3", "vault"), cable_place("W03")),
                reason="the length of W03 is not given",
                decides="measure W03: up to 58 m is good",
            ),
            NotChecked(
                rule="channel-too-long",
                where=(cable_place("W03"),),
                reason="the length of W03 is not given",
                decides="measure W03: up to 58 m is good",
            ),
        ),
    )
