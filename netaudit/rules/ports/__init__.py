"""Rules about ports: do two ends fit and find a rate, and is the machine behind them fast enough."""

from __future__ import annotations

from typing import Any

from netaudit.rules.ports.ends import NO_COMMON_RATE, PORT_USED_TWICE
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any], ...] = (NO_COMMON_RATE, PORT_USED_TWICE)
"""The rules of this family, in the order in which a report tells them."""
