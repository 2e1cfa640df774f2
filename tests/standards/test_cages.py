"""Cages and the modules that go into them, against what public tables of compatibility say."""

from __future__ import annotations

import pytest

from netaudit.model.plan import Connector
from netaudit.network.plugs import CAGES
from netaudit.standards.cages import WIDE_LANES, Form, cages, form_of
from netaudit.standards.phys import phys

FORMS: tuple[Form, ...] = ("sfp", "sfp+", "sfp28", "sfp56", "qsfp+", "qsfp28", "cfp")
FITS = {"y": "yes", "u": "usually", "a": "adapter", "n": "no"}

# Typed from i7fiber.com, "Compatibility: SFP and SFP+, SFP28 and SFP+, and QSFP28 and QSFP+": an SFP runs in nearly every
# SFP+ port, an SFP+ in an SFP port stays dark, an SFP+ runs in an SFP28 port, an SFP28 does not link in an SFP+ port,
# a QSFP+ runs in a QSFP28 port set to 40 Gb/s, a QSFP28 is not supported in a QSFP+ port; and from the article
# Small Form-factor Pluggable of Wikipedia: SFP modules go into QSFP ports with an adapter, and are narrower than they.
# Nothing public takes a module for 50 Gb/s or of ten lanes into one of these cages.
TABLE = {
    "sfp": "ynnnnnn",
    "sfp+": "uynnnnn",
    "sfp28": "uuynnnn",
    "qsfp+": "aannynn",
    "qsfp28": "aaanuyn",
}


def test_every_module_form_has_an_answer_for_every_cage() -> None:
    assert {(cage, form) for cage in TABLE for form in FORMS} == set(cages())
    assert set(CAGES) == set(TABLE)
    assert all(key == (row.cage, row.form) for key, row in cages().items())


@pytest.mark.parametrize("cage", TABLE)
def test_what_goes_into_a_cage_is_what_the_public_tables_say(cage: Connector) -> None:
    assert [FITS[letter] for letter in TABLE[cage]] == [cages()[cage, form].fits for form in FORMS]
    assert [letter in "yu" for letter in TABLE[cage]] == [cages()[cage, form].works for form in FORMS]


def test_a_figure_that_may_fail_a_plan_stands_behind_every_refusal_on_which_pages_agree() -> None:
    """25 Gb/s in an SFP+ cage and 100 Gb/s in a QSFP+ cage: walsun.com and internetfuture.net let them run slower."""
    disputed = {key for key, row in cages().items() if not row.works and not row.source.may_fail}

    assert {("sfp+", "sfp28"), ("qsfp+", "sfp28"), ("qsfp+", "qsfp28")} == disputed


@pytest.mark.parametrize(("lane", "whole"), [("10GBASE-SR", "40GBASE-SR4"), ("25GBASE-SR", "100GBASE-SR4")])
def test_the_lanes_of_a_wide_cage_make_up_its_rate(lane: str, whole: str) -> None:
    """IEEE 802.3 clauses 86 and 95: 40GBASE-SR4 and 100GBASE-SR4 run over four lanes, one fibre each way for each."""
    assert phys()[whole].rate_bit_per_s == WIDE_LANES * phys()[lane].rate_bit_per_s


# The forms of public data sheets: INF-8074, SFF-8431, SFF-8402, SFF-8436 and SFF-8665 as the article Small Form-factor
# Pluggable of Wikipedia sums them up; SFP56 by table 1 of a switch maker's paper on 50G; ten lanes by the CFP agreement.
OF_PHY: dict[str, Form] = {
    "100BASE-FX": "sfp",
    "1000BASE-T": "sfp",
    "1000BASE-SX": "sfp",
    "1000BASE-LX10": "sfp",
    "2.5GBASE-T": "sfp",
    "5GBASE-T": "sfp+",
    "10GBASE-T": "sfp+",
    "10GBASE-SR": "sfp+",
    "10GBASE-LR": "sfp+",
    "10GSFP+Cu": "sfp+",
    "25GBASE-SR": "sfp28",
    "25GBASE-CR": "sfp28",
    "40GBASE-SR4": "qsfp+",
    "40GBASE-LR4": "qsfp+",
    "50GBASE-SR": "sfp56",
    "100GBASE-SR4": "qsfp28",
    "100GBASE-DR": "qsfp28",
    "CWDM4": "qsfp28",
    "100GBASE-SR10": "cfp",
    "100GBASE-CR10": "cfp",
}


@pytest.mark.parametrize("phy", OF_PHY)
def test_a_module_has_the_form_of_its_rate_or_one_of_its_own(phy: str) -> None:
    assert OF_PHY[phy] == form_of(phy).form


def test_every_physical_layer_has_a_form_that_the_cages_know() -> None:
    assert {form_of(phy).form for phy in phys()} == set(FORMS)


def test_a_form_that_is_only_remembered_may_not_fail_a_plan() -> None:
    assert ["5GBASE-T"] == [phy for phy in phys() if not form_of(phy).source.may_fail]
