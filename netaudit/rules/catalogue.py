"""All rules, in the order in which a report tells them."""

from __future__ import annotations

from typing import Any

from netaudit.rules.cabling.twisted_pair import CATEGORY_TOO_LOW, CHANNEL_TOO_LONG
from netaudit.rules.paths.loops import LOOP_UNPROTECTED
from netaudit.rules.paths.reach import NO_PATH
from netaudit.rules.paths.target import PATH_BELOW_TARGET
from netaudit.rules.ports.ends import NO_COMMON_RATE, PORT_USED_TWICE
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any], ...] = (
    NO_PATH,
    PATH_BELOW_TARGET,
    CATEGORY_TOO_LOW,
    CHANNEL_TOO_LONG,
    NO_COMMON_RATE,
    PORT_USED_TWICE,
    LOOP_UNPROTECTED,
)
