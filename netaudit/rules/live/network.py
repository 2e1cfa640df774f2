"""The live rules of the network, and whether all of them are silent."""

from __future__ import annotations

from typing import Any

from netaudit.model.finding import Finding
from netaudit.model.situation import Situation
from netaudit.rules.live.adapter import ADAPTER_BUS_BELOW_LINK, LINK_FLAPPING, RECEIVE_ERRORS
from netaudit.rules.live.between import ROUTER_BETWEEN, TUNNEL_TAKES_ROUTE
from netaudit.rules.live.far_end import ONE_HARDWARE_ADDRESS_TWICE, TWO_ANSWERS_FOR_ADDRESS
from netaudit.rules.live.frames import FRAME_SIZES_DIFFER, LARGE_FRAMES_LOST
from netaudit.rules.live.link import CARRIER_LOST, LINK_BELOW_CAPABILITY, LINK_BELOW_PLAN
from netaudit.rules.live.loss import RETRANSMITS_HIGH
from netaudit.rules.live.names import ADDRESS_NOT_PLANNED, NAME_GIVES_MANY_ADDRESSES, NO_ROUTE
from netaudit.rules.live.replies import REPLIES_ON_OTHER_PORT
from netaudit.rules.live.room import LINK_FULL
from netaudit.rules.live.route import TRAFFIC_ON_OTHER_PORT, TRAFFIC_ON_WIRELESS
from netaudit.rules.live.services import NO_ANSWER, SERVICE_REFUSED
from netaudit.rules.live.session import SESSION_ON_OTHER_PORT
from netaudit.rules.live.storage import STORAGE_OFFERS_SLOWER_PORT
from netaudit.rules.rule import Rule

NETWORK_RULES: tuple[Rule[Any, Situation], ...] = (
    TRAFFIC_ON_WIRELESS,
    TRAFFIC_ON_OTHER_PORT,
    SESSION_ON_OTHER_PORT,
    REPLIES_ON_OTHER_PORT,
    CARRIER_LOST,
    LINK_BELOW_PLAN,
    TWO_ANSWERS_FOR_ADDRESS,
    LARGE_FRAMES_LOST,
    ADDRESS_NOT_PLANNED,
    TUNNEL_TAKES_ROUTE,
    NO_ANSWER,
    SERVICE_REFUSED,
    NO_ROUTE,
    LINK_BELOW_CAPABILITY,
    ONE_HARDWARE_ADDRESS_TWICE,
    NAME_GIVES_MANY_ADDRESSES,
    ROUTER_BETWEEN,
    FRAME_SIZES_DIFFER,
    LINK_FLAPPING,
    LINK_FULL,
    RECEIVE_ERRORS,
    RETRANSMITS_HIGH,
    STORAGE_OFFERS_SLOWER_PORT,
    ADAPTER_BUS_BELOW_LINK,
)
"""The rules on whose silence it rests that the network is not to blame, in the order in which a report tells them."""


def network_passes(situation: Situation) -> bool:
    """Whether no rule of the network finds anything."""
    judgements = (rule.judge(subject, situation) for rule in NETWORK_RULES for subject in rule.subjects(situation))
    return not any(isinstance(judgement, Finding) for judgement in judgements)
