"""Rules about paths: does each seat get to its storage, the way it is meant to, at the rate it wants."""

from __future__ import annotations

from typing import Any

from netaudit.rules.paths.loops import LOOP_UNPROTECTED
from netaudit.rules.paths.reach import NO_PATH
from netaudit.rules.paths.target import PATH_BELOW_TARGET
from netaudit.rules.paths.tree import FAST_LINK_BLOCKED
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any], ...] = (NO_PATH, PATH_BELOW_TARGET, LOOP_UNPROTECTED, FAST_LINK_BLOCKED)
"""The rules of this family, in the order in which a report tells them."""
