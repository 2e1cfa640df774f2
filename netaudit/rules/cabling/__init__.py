"""Rules about cabling: is each cable good enough and short enough for what its ports will run."""

from __future__ import annotations

from typing import Any

from netaudit.rules.cabling.conductors import CABLE_NOT_STANDARD
from netaudit.rules.cabling.connections import TOO_MANY_CONNECTIONS
from netaudit.rules.cabling.copper_loss import CORDS_TOO_LONG, TOO_WARM_FOR_LENGTH
from netaudit.rules.cabling.copper_modules import COPPER_MODULE_HEAT, COPPER_MODULE_REACH
from netaudit.rules.cabling.copper_reach import REACH_NOT_ASSURED
from netaudit.rules.cabling.earths import EARTHS_JOINED
from netaudit.rules.cabling.fibre_length import FIBRE_TOO_LONG
from netaudit.rules.cabling.fibre_loss import FIBRE_LOSS_DOUBTFUL, FIBRE_LOSS_TOO_HIGH
from netaudit.rules.cabling.fibre_types import FIBRE_TYPE_MISMATCH, OPTICS_DIFFER
from netaudit.rules.cabling.host_cables import HOST_CABLE_TOO_LONG
from netaudit.rules.cabling.twinax import TWINAX_TOO_LONG
from netaudit.rules.cabling.twisted_pair import CATEGORY_TOO_LOW, CHANNEL_TOO_LONG
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any, Facts], ...] = (
    CATEGORY_TOO_LOW,
    CHANNEL_TOO_LONG,
    CORDS_TOO_LONG,
    TOO_WARM_FOR_LENGTH,
    TOO_MANY_CONNECTIONS,
    CABLE_NOT_STANDARD,
    FIBRE_TYPE_MISMATCH,
    OPTICS_DIFFER,
    FIBRE_TOO_LONG,
    FIBRE_LOSS_TOO_HIGH,
    TWINAX_TOO_LONG,
    HOST_CABLE_TOO_LONG,
    REACH_NOT_ASSURED,
    FIBRE_LOSS_DOUBTFUL,
    COPPER_MODULE_REACH,
    COPPER_MODULE_HEAT,
    EARTHS_JOINED,
)
"""The rules of this family, in the order in which a report tells them."""
