"""Rules about racks and power: does everything fit where the plan puts it."""

from __future__ import annotations

from typing import Any

from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any], ...] = ()
"""The rules of this family, in the order in which a report tells them."""
