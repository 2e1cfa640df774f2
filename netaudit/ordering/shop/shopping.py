"""Shopping: which cables are bought made up, which are cut from a box, and which are there or still open."""

from __future__ import annotations

from collections.abc import Set
from typing import NamedTuple

from netaudit.model.plan import COPPER_CATEGORIES, Cable, Plan
from netaudit.standards.screens import screened_categories


class Shopping(NamedTuple):
    """Every cable of a plan, sorted; each tuple is in plan order.

    What is bought is screened where its category is by construction, whatever the plan says.
    """

    made_up: tuple[Cable, ...]
    """Bought as they are: cords, and whatever comes with its ends on."""
    bulk: tuple[Cable, ...]
    """Cut from a box: twisted pair between two passive ports that is no cord."""
    measure: tuple[str, ...]
    """Names of those whose length is not known, there already or not."""
    identify: tuple[str, ...]
    """Names of those whose category is not known; nothing is bought for them."""
    installed: tuple[str, ...]
    owned: tuple[str, ...]
    """Names of those that somebody has and that are not installed."""


def shopping(plan: Plan) -> Shopping:
    """The cables of a plan sorted by what is to be done for them.

    Each one is in exactly one of made_up, bulk, identify, installed and owned, but for those that are there although
    nobody knows their category, which are to be identified as well. What nobody says is owned is bought.
    """
    passive = {device.name for device in plan.devices.values() if device.passive}
    made_up: list[Cable] = []
    bulk: list[Cable] = []
    installed: list[str] = []
    owned: list[str] = []
    for cable in plan.cables.values():
        if cable.installed:
            installed.append(cable.name)
        elif cable.owned:
            owned.append(cable.name)
        elif cable.category != "unknown":
            (bulk if is_laid(cable, passive) else made_up).append(_as_made(cable))
    return Shopping(
        made_up=tuple(made_up),
        bulk=tuple(bulk),
        measure=tuple(cable.name for cable in plan.cables.values() if cable.length_m is None),
        identify=tuple(cable.name for cable in plan.cables.values() if cable.category == "unknown"),
        installed=tuple(installed),
        owned=tuple(owned),
    )


def _as_made(cable: Cable) -> Cable:
    """A cable with the screen that its category has by construction."""
    return cable if cable.screened or cable.category not in screened_categories() else cable._replace(screened=True)


def is_laid(cable: Cable, passive: Set[str]) -> bool:
    """Whether a cable is laid once and stays: twisted pair between ports of passive devices that is no cord."""
    return (
        cable.category in COPPER_CATEGORIES
        and cable.cord_awg is None
        and all(end.device in passive for end in cable.ends)
    )
