"""Conductors of copper all through."""

from __future__ import annotations

import pytest
from rooms import places
from runs import cord, only, run_report, silent
from wiring import cable, cage, device, jack, seat, switch, wired

import netaudit
from netaudit.model.plan import COPPER_CATEGORIES, Cable
from netaudit.model.report import Report
from netaudit.rules.cabling.conductors import CABLE_NOT_STANDARD
from netaudit.standards.copper import conductor_rule

RULE = "cable-not-standard"
CLAD = "aluminium-clad"


def between_cages(part: Cable, **fields: str) -> Report:
    """The verdict on one cable between the cages of two switches."""
    one, other = switch("one", {"1": cage(**fields)}), switch("other", {"1": cage(**fields)})
    return netaudit.check(wired(one, other, part))


@pytest.mark.parametrize("category", COPPER_CATEGORIES)
def test_no_category_of_twisted_pair_allows_clad_aluminium(category: str) -> None:
    """ANSI/TIA-568-C.2 section 5.3 asks for solid copper, as given by CCCA and CDA at copper.org (4 March 2011)."""
    finding = only(run_report(cord("C01", 2, category=category, material=CLAD), gbit=0.01), RULE)
    assert ("fail", conductor_rule()) == (finding.severity, finding.source)
    assert ["cable C01"] == places(finding)
    assert "C01 has conductors of copper-clad aluminium, which no category of twisted pair allows" == finding.message
    assert (
        f"Replace C01 by cable of category {category} whose conductors are copper all through; until then send no power "
        "over it, since such conductors heat up more." == finding.remedy
    )
    assert silent(run_report(cord("C01", 2, category=category), gbit=0.01), RULE)


def test_only_the_clad_cable_of_a_run_is_named() -> None:
    finding = only(run_report(cord("C01", 2), cord("C02", 3, material=CLAD), cord("C03", 3)), RULE)
    assert ["cable C02"] == places(finding)


def test_a_cable_of_unknown_category_counts_unless_its_ports_are_for_another_medium() -> None:
    finding = only(run_report(cord("C01", 2, category="unknown", material=CLAD)), RULE)
    assert finding.remedy.startswith("Replace C01 by cable of the category of the rest of the run whose conductors")
    bare = cable("F01", "one/1", "other/1", "unknown", material=CLAD)
    assert only(between_cages(bare), RULE)
    assert silent(between_cages(bare, module="10GBASE-SR"), RULE)
    assert silent(between_cages(bare, module="10GSFP+Cu"), RULE)


def test_a_spare_run_counts_as_well() -> None:
    plan = wired(
        seat("cut-1"), device("plate", "outlet", {"1": jack()}), cable("W01", "cut-1/wire", "plate/1", material=CLAD)
    )
    assert only(netaudit.check(plan), RULE)


@pytest.mark.parametrize("category", ["OM4", "twinax", "usb"])
def test_other_media_are_not_asked(category: str) -> None:
    assert silent(between_cages(cable("F01", "one/1", "other/1", category, material=CLAD)), RULE)  # type: ignore[arg-type]


def test_the_source_of_the_table_is_named() -> None:
    assert (conductor_rule(),) == CABLE_NOT_STANDARD.sources()
