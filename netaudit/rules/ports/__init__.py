"""Rules about ports: do two ends fit and find a rate, and is the machine behind them fast enough."""

from __future__ import annotations

from typing import Any

from netaudit.rules.facts import Facts
from netaudit.rules.ports.buses import BUS_BELOW_LINK
from netaudit.rules.ports.ends import NO_COMMON_RATE, PORT_USED_TWICE
from netaudit.rules.ports.modules import MODULE_DOES_NOT_FIT
from netaudit.rules.ports.plugs import CONNECTOR_MISMATCH
from netaudit.rules.ports.rates import LINK_BELOW_BOTH, MIDDLE_RATE_ASSUMED
from netaudit.rules.ports.steps import SPEED_STEP_DOWN
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any, Facts], ...] = (
    NO_COMMON_RATE,
    CONNECTOR_MISMATCH,
    MODULE_DOES_NOT_FIT,
    PORT_USED_TWICE,
    LINK_BELOW_BOTH,
    BUS_BELOW_LINK,
    MIDDLE_RATE_ASSUMED,
    SPEED_STEP_DOWN,
)
"""The rules of this family, in the order in which a report tells them."""
