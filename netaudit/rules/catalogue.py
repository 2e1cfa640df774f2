"""All rules, in the order in which a report tells them."""

from __future__ import annotations

from typing import Any

from netaudit.rules import addresses, cabling, paths, ports, racks
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any, Facts], ...] = (*paths.RULES, *cabling.RULES, *ports.RULES, *addresses.RULES, *racks.RULES)
