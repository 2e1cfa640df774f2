"""Rules about paths: does each seat get to its storage, the way it is meant to, at the rate it wants."""

from __future__ import annotations

from typing import Any

from netaudit.rules.facts import Facts
from netaudit.rules.paths.choice import ROUTE_AMBIGUOUS
from netaudit.rules.paths.loops import LOOP_UNPROTECTED
from netaudit.rules.paths.narrow import NARROW_BEYOND_SEAT
from netaudit.rules.paths.networks import WRONG_NETWORK
from netaudit.rules.paths.reach import NO_PATH
from netaudit.rules.paths.roads import PLANNED_ROAD_IS_RADIO, ROUTER_IN_PATH, SECOND_ROAD_OPEN
from netaudit.rules.paths.shared import SHARED_BEYOND_SEAT
from netaudit.rules.paths.target import PATH_BELOW_TARGET
from netaudit.rules.paths.tree import FAST_LINK_BLOCKED
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any, Facts], ...] = (
    NO_PATH,
    PATH_BELOW_TARGET,
    WRONG_NETWORK,
    LOOP_UNPROTECTED,
    NARROW_BEYOND_SEAT,
    ROUTER_IN_PATH,
    ROUTE_AMBIGUOUS,
    SECOND_ROAD_OPEN,
    PLANNED_ROAD_IS_RADIO,
    FAST_LINK_BLOCKED,
    SHARED_BEYOND_SEAT,
)
"""The rules of this family, in the order in which a report tells them."""
