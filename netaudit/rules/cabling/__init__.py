"""Rules about cabling: is each cable good enough and short enough for what its ports will run."""

from __future__ import annotations

from typing import Any

from netaudit.rules.cabling.twisted_pair import CATEGORY_TOO_LOW, CHANNEL_TOO_LONG
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any], ...] = (CATEGORY_TOO_LOW, CHANNEL_TOO_LONG)
"""The rules of this family, in the order in which a report tells them."""
