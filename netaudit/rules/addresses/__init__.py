"""Rules about addresses: can every port be told from every other one, and do packets of one size fit everywhere."""

from __future__ import annotations

from typing import Any

from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any], ...] = ()
"""The rules of this family, in the order in which a report tells them."""
