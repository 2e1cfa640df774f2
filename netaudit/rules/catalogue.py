"""All rules, in the order in which a report tells them."""

from __future__ import annotations

from typing import Any

from netaudit.rules.cabling import CATEGORY_TOO_LOW, CHANNEL_TOO_LONG
from netaudit.rules.loops import LOOP_UNPROTECTED
from netaudit.rules.ports import NO_COMMON_RATE, PORT_USED_TWICE
from netaudit.rules.reach import NO_PATH
from netaudit.rules.rule import Rule
from netaudit.rules.target import PATH_BELOW_TARGET

RULES: tuple[Rule[Any], ...] = (
    NO_PATH,
    PATH_BELOW_TARGET,
    CATEGORY_TOO_LOW,
    CHANNEL_TOO_LONG,
    NO_COMMON_RATE,
    PORT_USED_TWICE,
    LOOP_UNPROTECTED,
)
