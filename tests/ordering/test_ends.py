"""What the two ends of a made-up cable have to be."""

from __future__ import annotations

import pytest
from rooms import plan_of

from netaudit.ordering.ends import ends_of

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
      wide: {{connector: qsfp+, module: 40GBASE-SR4}}
      narrow: {{connector: qsfp28, module: 100GBASE-LR4}}
      base-t: {{connector: sfp+, module: 10GBASE-T}}
      unsaid: {{rates: [10G]}}
      a: {{connector: usb-a}}
      c: {{connector: usb-c}}
      bolt: {{connector: thunderbolt}}
  other: {{role: other, ports: {{1-4: {{connector: sfp+}}, 5: {{connector: sfp28}}, 6: {{connector: thunderbolt}}, 7: {{connector: usb-c}}, 8: {{connector: rj45}}}}}}
  panel: {{role: panel, ports: {{1: {{connector: lc}}, 2: {{connector: sc}}, 3: {{connector: mpo}}, 4: {{}}, 5: {{connector: rj45}}}}}}
cables:
  X01: {{from: {near}, to: {far}, category: {category}}}
"""


def ends(near: str, far: str, category: str) -> str | None:
    """The ends of a cable of one category between two ports."""
    plan = plan_of(PLAN.format(near=near, far=far, category=category))
    return ends_of(plan, plan.cables["X01"])


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
        ("core/fast", "other/1", "active-twinax", "sfp+ - sfp28"),
        ("core/cage", "other/5", "active-optical", "sfp+ - sfp28"),
        ("core/big", "[other/1, other/2, other/3, other/4]", "twinax", "qsfp+ - 4 x sfp+"),
        ("core/big", "[other/5, other/2, other/3, other/4]", "twinax", "qsfp+ - 3 x sfp+, 1 x sfp28"),
        ("core/big", "[other/1, other/8]", "twinax", None),
        ("core/cage", "other/8", "twinax", None),
        ("core/unsaid", "other/1", "twinax", None),
        ("core/a", "other/7", "usb", "usb-a - usb-c"),
        ("core/c", "other/7", "usb", "usb-c - usb-c"),
        ("core/bolt", "other/6", "thunderbolt", None),
        ("core/bolt", "other/7", "thunderbolt", "thunderbolt - usb-c"),
        ("core/copper", "other/7", "usb", None),
    ],
)
def test_a_made_up_cable_has_the_ends_of_both_ports(near: str, far: str, category: str, expected: str | None) -> None:
    assert expected == ends(near, far, category)


def test_twisted_pair_leaves_no_choice() -> None:
    assert ends("core/copper", "other/8", "6A") is None
