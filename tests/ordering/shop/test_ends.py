"""What the two ends of a made-up cable have to be."""

from __future__ import annotations

import pytest
from rooms import plan_of

from netaudit.network.topology import build_topology
from netaudit.ordering.equipment.module_choice import choices
from netaudit.ordering.shop.ends import ends_of, plugs_of, tails_of
from netaudit.ordering.shop.fitting import Fitted, fitted

PLAN = """\
netaudit: 1
devices:
  core:
    role: switch
    ports:
      copper: {{connector: rj45}}
      cage: {{connector: sfp+}}
      fast: {{connector: sfp28}}
      single: {{connector: sfp+, module: 10GBASE-LR}}
      big: {{connector: qsfp+}}
      huge: {{connector: qsfp28}}
      both: {{connector: sfp28, rates: [25G, 10G]}}
      quick: {{connector: qsfp28, rates: [100G, 40G]}}
      old: {{connector: sfp, rates: [1G]}}
      wide: {{connector: qsfp+, module: 40GBASE-SR4}}
      narrow: {{connector: qsfp28, module: 100GBASE-LR4}}
      base-t: {{connector: sfp+, module: 10GBASE-T}}
      unsaid: {{rates: [10G]}}
      a: {{connector: usb-a}}
      c: {{connector: usb-c}}
      bolt: {{connector: thunderbolt}}
  peer:
    role: switch
    ports:
      1-3: {{connector: sfp28, rates: [25G, 10G]}}
      4: {{connector: sfp+, rates: [10G]}}
      5: {{connector: qsfp+, rates: [40G]}}
      6: {{connector: qsfp28, rates: [100G]}}
      7: {{connector: qsfp+, module: 40GBASE-SR4}}
      8: {{connector: qsfp+, module: 40GBASE-LR4}}
      9: {{connector: sfp+, rates: [10G, 1G]}}
      10-11: {{connector: qsfp28}}
  other: {{role: other, ports: {{1-4: {{connector: sfp+}}, 5: {{connector: sfp28}}, 6: {{connector: thunderbolt}}, 7: {{connector: usb-c}}, 8: {{connector: rj45}}}}}}
  panel: {{role: panel, ports: {{1: {{connector: lc}}, 2: {{connector: sc}}, 3: {{connector: mpo}}, 4: {{}}, 5: {{connector: rj45}}, 6: {{connector: lc}}, 7: {{connector: mpo}}}}}}
cables:
  X01: {{from: {near}, to: {far}, category: {category}}}
"""


def fit(near: str, far: str, category: str) -> Fitted:
    plan = plan_of(PLAN.format(near=near, far=far, category=category))
    topology = build_topology(plan)
    return fitted(plan, topology, choices(plan, topology).chosen)


def ends(near: str, far: str, category: str) -> str | None:
    """The ends of a cable of one category between two ports."""
    made = fit(near, far, category)
    return ends_of(made, made.plan.cables["X01"])


@pytest.mark.parametrize(
    ("near", "far", "expected"),
    [
        ("core/cage", "panel/1", "lc - lc"),
        ("core/fast", "panel/2", "lc - sc"),
        ("panel/2", "core/fast", "lc - sc"),
        ("panel/1", "core/cage", "lc - lc"),
        ("core/single", "panel/3", "lc - mpo"),
        # IEEE 802.3 clauses 86 and 87: four lanes each way leave 40GBASE-SR4 by a 12-fibre connector, those of
        # 40GBASE-LR4 and 100GBASE-LR4 share two fibres by their colours
        ("core/wide", "panel/3", "mpo - mpo"),
        ("core/narrow", "panel/1", "lc - lc"),
        ("core/big", "panel/3", None),
        ("core/unsaid", "panel/1", None),
        # what follows from the far end: the same module
        ("core/big", "peer/7", "mpo - mpo"),
        ("core/big", "peer/8", "lc - lc"),
        ("core/base-t", "panel/1", None),
        ("core/copper", "panel/1", None),
        ("core/cage", "panel/4", None),
        ("core/cage", "panel/5", None),
    ],
)
def test_a_fibre_takes_the_connector_of_the_port_or_of_its_module_and_none_is_guessed(
    near: str, far: str, expected: str | None
) -> None:
    assert expected == ends(near, far, "OM4")


@pytest.mark.parametrize(
    ("near", "far", "category", "expected"),
    [
        ("core/cage", "other/1", "twinax", "sfp+ - sfp+"),
        ("core/fast", "other/5", "twinax", "sfp28 - sfp28"),
        ("core/a", "other/7", "usb", "usb-a - usb-c"),
        ("core/c", "other/7", "usb", "usb-c - usb-c"),
        ("core/bolt", "other/6", "thunderbolt", None),
        ("core/bolt", "other/7", "thunderbolt", "thunderbolt - usb-c"),
        ("core/copper", "other/7", "usb", None),
        ("core/cage", "other/8", "twinax", None),
        ("core/unsaid", "other/1", "twinax", None),
        ("core/big", "[other/1, other/8]", "twinax", None),
    ],
)
def test_a_made_up_cable_has_the_ends_of_both_ports(near: str, far: str, category: str, expected: str | None) -> None:
    assert expected == ends(near, far, category)


@pytest.mark.parametrize("category", ["twinax", "active-twinax", "active-optical"])
@pytest.mark.parametrize(
    ("near", "far", "expected"),
    [
        ("core/both", "peer/4", "sfp+ - sfp+"),
        ("peer/4", "core/both", "sfp+ - sfp+"),
        ("core/both", "peer/1", "sfp28 - sfp28"),
        ("core/quick", "peer/5", "qsfp+ - qsfp+"),
        ("core/quick", "peer/6", "qsfp28 - qsfp28"),
        ("core/quick", "peer/10", "qsfp28 - qsfp28"),
        ("core/fast", "other/1", "sfp+ - sfp+"),
        ("core/huge", "peer/5", "qsfp+ - qsfp+"),
        ("core/both", "other/1", "sfp+ - sfp+"),
        ("core/cage", "peer/9", "sfp+ - sfp+"),
        # no made-up cable for 1 Gb/s is in the tables: the cages decide
        ("core/old", "peer/9", "sfp - sfp+"),
        # nor is there one that fits both a wide and a small cage
        ("core/big", "other/1", "qsfp+ - sfp+"),
    ],
)
def test_the_plugs_are_of_the_rate_that_both_cages_run(near: str, far: str, category: str, expected: str) -> None:
    """An SFP28 cage takes SFP+, a QSFP28 one QSFP+, never the other way round: SFF-8431, SFF-8402 and SFF-8665."""
    assert expected == ends(near, far, category)


def test_the_rates_of_the_cable_itself_decide_where_the_ports_leave_two() -> None:
    text = PLAN.format(near="core/both", far="peer/1", category="twinax, rates: 10G")
    plan = plan_of(text)
    made = fitted(plan, build_topology(plan), {})
    assert "sfp+ - sfp+" == ends_of(made, plan.cables["X01"])


@pytest.mark.parametrize(
    ("near", "far", "category", "expected", "tails"),
    [
        ("core/big", "[other/1, other/2, other/3, other/4]", "twinax", "qsfp+ - 4 x sfp+", 4),
        ("core/big", "[other/5, other/2, other/3, other/4]", "twinax", "qsfp+ - 4 x sfp+", 4),
        ("core/big", "[other/1, other/2]", "twinax", "qsfp+ - 4 x sfp+", 4),
        ("core/quick", "[peer/1, peer/2, peer/3]", "active-optical", "qsfp28 - 4 x sfp28", 4),
        ("core/quick", "[peer/1, peer/2, peer/3, peer/4]", "twinax", "qsfp+ - 4 x sfp+", 4),
        ("core/huge", "[peer/10, peer/11]", "twinax", "qsfp28 - 2 x qsfp28", 2),
        ("core/big", "[core/old, other/1]", "twinax", "qsfp+ - 1 x sfp, 1 x sfp+", 2),
        ("core/big", "[other/1, peer/10]", "twinax", "qsfp+ - 1 x qsfp28, 1 x sfp+", 2),
        ("core/wide", "[panel/1, panel/6]", "OM4", "mpo - 4 x lc", 4),
        ("core/wide", "[panel/1, panel/2]", "OM4", "mpo - 1 x lc, 1 x sc", 2),
        ("panel/3", "[panel/1, panel/6]", "OM4", "mpo - 2 x lc", 2),
        ("panel/3", "[panel/1, panel/6]", "OM4, fibres: 12", "mpo - 6 x lc", 6),
        ("core/wide", "[panel/3, panel/7]", "OM4", "mpo - 2 x mpo", 2),
        ("core/cage", "other/1", "twinax", "sfp+ - sfp+", 1),
    ],
)
def test_a_breakout_is_sold_with_all_its_tails(near: str, far: str, category: str, expected: str, tails: int) -> None:
    made = fit(near, far, category)
    cable = made.plan.cables["X01"]
    assert (expected, tails) == (ends_of(made, cable), tails_of(made, cable))


def test_each_end_is_told_by_itself_where_another_one_is_not_known() -> None:
    made = fit("core/cage", "panel/4", "OM4")
    assert ("lc", None) == plugs_of(made, made.plan.cables["X01"])


def test_twisted_pair_leaves_no_choice() -> None:
    assert ends("core/copper", "other/8", "6A") is None
