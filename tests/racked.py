"""A room of racks and routes for tests: cables without a length, and the devices that they join."""

from __future__ import annotations

from rooms import plan_of

from netaudit.calculations.run_lengths import measured
from netaudit.model.plan import Plan

ROOM = """\
netaudit: 1
racks:
  bay: {{{bay}}}
  attic rack: {{units: 20, depth: 800 mm}}
rooms: {{loft: {{}}, boat bay: {{}}}}
routes: {{loft-to-bay: 31 m, duct: {duct}}}
devices:
  cut-1: {{role: station, room: loft, ports: {{wire: {{connector: rj45, rates: up to 10G}}}}}}
  adrift: {{role: station, ports: {{wire: {{connector: rj45, rates: up to 10G}}}}}}
  loft-plate: {{role: outlet, ports: {{1-4: {{connector: rj45}}}}}}
  bay-panel: {{role: panel, rack: {{name: bay, unit: {panel}, height: 1{panel_rack}}}, ports: {{1-24: {{connector: rj45}}}}}}
  core: {{role: switch, rack: {{name: bay, unit: 8{core_rack}}}, depth: 300 mm, ports: {{1-8: {{connector: rj45, rates: up to 10G}}}}}}
  attic: {{role: switch, rack: {{name: attic rack, unit: 8}}, ports: {{1-8: {{connector: rj45, rates: up to 10G}}}}}}
  vault: {{role: storage, rack: {{name: bay, unit: 4, height: 2{vault_rack}}}, {vault}ports: {{1-4: {{connector: rj45, rates: up to 10G}}}}}}
  backup: {{role: storage, purpose: backup, rack: {{name: bay, unit: 1}}, ports: {{1-4: {{connector: rj45, rates: up to 10G}}}}}}
cables:
{cables}
"""

PLAIN = {
    "bay": "units: 12, depth: 600 mm", "duct": "12 m", "panel": "10", "panel_rack": "", "core_rack": "",
    "vault_rack": "", "vault": "depth: 550 mm, ",
}  # fmt: skip


def racked(cable: str, **changes: str) -> Plan:
    """The plan of the room with one cable in it and some of its parts changed."""
    return plan_of(ROOM.format(**{**PLAIN, **changes, "cables": f"  X01: {{{cable}}}"}))


def patched(cords: int) -> Plan:
    """The plan of the room with some cords between its panel and its switch."""
    lines = [f"  C{one:02}: {{from: bay-panel/{one}, to: core/{one}}}" for one in range(1, cords + 1)]
    return plan_of(ROOM.format(**PLAIN, cables="\n".join(lines)))


def length_m(cable: str, **changes: str) -> float | None:
    """The length that is worked out for that cable [m]; None where none is."""
    found = measured(racked(cable, **changes)).lengths
    return found[0].length_m if found else None


def how(cable: str, **changes: str) -> str:
    """How the length of that cable came about."""
    return measured(racked(cable, **changes)).lengths[0].how
