"""Small rooms for tests: one seat, one run through a wall, one switch, one storage, and what a test changes in them."""

from __future__ import annotations

import netaudit
from netaudit.model.finding import Finding, NotChecked
from netaudit.model.plan import Plan
from netaudit.model.report import Report

ROOM = """\
netaudit: 1
name: Boathouse loft
{top}
networks:
  media: {{subnet: 10.44.20.0/24, mtu: 9000, purpose: storage}}
devices:
  cut-1:
    role: station
    {seat}
    ports:
      wire: {{connector: rj45, rates: {rates}, network: media, mtu: 9000{port}}}
  plate: {{role: outlet, ports: {{1-4: {{connector: rj45{joint}}}}}}}
  panel: {{role: panel, ports: {{1-4: {{connector: rj45}}}}}}
  core:
    role: switch
    ports:
      1-8: {{connector: rj45, rates: {switch}}}
      9-10: {{connector: sfp+, rates: [10G, 1G]}}
  vault:
    role: storage
    ports:
      fast: {{connector: sfp+, rates: {storage}, network: media, mtu: 9000}}
{devices}
cables:
  C01: {{from: cut-1/wire, to: plate/1, category: {cord}, length: 3 m, cord: 26 AWG{cords}}}
  W01: {{from: plate/1, to: panel/1, category: {wall}, installed: true{length}{walls}}}
  P01: {{from: panel/1, to: core/1, category: {cord}, length: 1 m, cord: 26 AWG{cords}}}
  D01: {{from: core/9, to: vault/fast, category: twinax, length: 1 m}}
{cables}
"""

PLAIN = {
    "top": "", "seat": "wants: 10G", "rates": "up to 10G", "port": "", "joint": "", "switch": "up to 10G",
    "storage": "[10G]", "devices": "", "cord": "6A", "cords": "", "wall": "6A", "walls": "", "cables": "",
}  # fmt: skip


def room(length: str | None = "38 m", **changes: str) -> str:
    """The text of the room with some of its parts changed; `length` is the wall's, None leaves it out."""
    parts = {**PLAIN, "length": "" if length is None else f", length: {length}", **changes}
    return ROOM.format(**parts)


def plan_of(text: str) -> Plan:
    """The plan that a text describes."""
    return netaudit.loads(text, "room.yaml")


def report_of(text: str) -> Report:
    """The verdict on the plan that a text describes."""
    return netaudit.check(plan_of(text))


def found(report: Report, rule: str) -> list[Finding]:
    """The findings of one rule."""
    return [finding for finding in report.findings if finding.rule == rule]


def gaps(report: Report, rule: str) -> list[NotChecked]:
    """What one rule could not check."""
    return [gap for gap in report.not_checked if gap.rule == rule]


def places(finding: Finding | NotChecked) -> list[str]:
    """The places of a finding as people write them."""
    return [str(place) for place in finding.where]


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


TRIANGLE = """\
netaudit: 1
networks:
  media: {{purpose: storage}}
devices:
  cut-1: {{role: station, {wants}ports: {{wire: {{connector: rj45, rates: up to 10G, network: media}}}}}}
  attic: {{role: switch, {tree}{attic}ports: {{1-4: {{connector: rj45, rates: up to 10G}}}}}}
  core: {{role: switch, {tree}{core}ports: {{1-4: {{connector: rj45, rates: up to 10G}}}}}}
  old: {{role: switch, {tree}{old}ports: {{1-4: {{connector: rj45, rates: up to 1G}}}}}}
  vault: {{role: storage, ports: {{fast: {{connector: rj45, rates: up to 10G, network: media}}}}}}
cables:
  C01: {{from: cut-1/wire, to: attic/1, category: 6A, length: 3 m}}
  U01: {{from: attic/2, to: core/2, category: 6A, length: 20 m}}
  U02: {{from: attic/3, to: old/1, category: 6A, length: 20 m}}
  U03: {{from: core/3, to: old/2, category: 6A, length: 20 m}}
  C02: {{from: core/1, to: vault/fast, category: 6A, length: 3 m}}
"""


def triangle(attic: str = "", core: str = "", old: str = "", *, tree: str = TREE, wants: str = "wants: 10G, ") -> str:
    """Three switches in a ring, the fast two joined by 10 Gb/s and both joined to an old one of 1 Gb/s."""
    return TRIANGLE.format(attic=attic, core=core, old=old, tree=tree, wants=wants)
