"""Rules about racks and power: does everything fit where the plan puts it."""

from __future__ import annotations

from typing import Any

from netaudit.rules.facts import Facts
from netaudit.rules.racks.depth import TOO_DEEP
from netaudit.rules.racks.units import OUTSIDE_RACK, UNITS_OVERLAP
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any, Facts], ...] = (UNITS_OVERLAP, OUTSIDE_RACK, TOO_DEEP)
"""The rules of this family, in the order in which a report tells them."""
