"""Rules on what a probe sees: does the storage's traffic go the way it should, as fast as it should."""

from __future__ import annotations

from typing import Any

from netaudit.model.situation import Situation
from netaudit.rules.live.network import NETWORK_RULES
from netaudit.rules.live.rates import NOT_THE_NETWORK, SIGNING_OR_ENCRYPTION
from netaudit.rules.live.storage import STORAGE_STALLS
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any, Situation], ...] = (*NETWORK_RULES, STORAGE_STALLS, SIGNING_OR_ENCRYPTION, NOT_THE_NETWORK)
"""The rules of this family, in the order in which a report tells them: those of the network, then those behind it."""
