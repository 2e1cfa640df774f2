"""What to know or to ask before cable is ordered that lies in walls and ceilings, or may."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from netaudit.listing import listed
from netaudit.model.plan import COPPER_CATEGORIES, Cable, Plan
from netaudit.ordering.rooms import room_of
from netaudit.ordering.shop.cable_remarks import is_fixed_fibre
from netaudit.ordering.shop.shopping import Shopping
from netaudit.standards.screens import screened_categories

DESK_CORD_M = 10.0
"""Length to which a cord of twisted pair usually lies open in the room [m]. Common practice, no source."""


def wall_remarks(plan: Plan, cables: Shopping) -> tuple[str, ...]:
    """What to know or to ask before cable for walls is ordered, a sentence each.

    Cautions that name no document: common practice, no source.
    """
    return (
        *_straight(plan, cables.made_up),
        *_solid(cables.bulk),
        *_fire_class(plan, cables),
        *_between_buildings(plan, cables),
        *_screens(plan),
    )


def _straight(plan: Plan, cables: Sequence[Cable]) -> Iterator[str]:
    """Twisted pair of no named gauge that may lie in a wall, and ends at a machine all the same."""
    found = [cable for cable in cables if _runs_straight(plan, cable)]
    if len(found) == 1:
        yield (
            f"{found[0].name} runs from {_straight_way(plan, found[0])} and is bought with a plug at both ends: where "
            "it lies in a wall, let it end in a panel and use solid cable."
        )
    elif found:
        ways = [f"{cable.name} from {_straight_way(plan, cable)}" for cable in found]
        yield (
            f"These are bought with a plug at both ends: {listed(ways)}. Where one lies in a wall, let it end in a "
            "panel and use solid cable."
        )


def _runs_straight(plan: Plan, cable: Cable) -> bool:
    if cable.category not in COPPER_CATEGORIES or cable.cord_awg is not None:
        return False
    passive = [end for end in cable.ends if plan.devices[end.device].passive]
    if len(passive) != 1:
        return False
    if _leaves_room(plan, cable) or (cable.length_m is not None and cable.length_m > DESK_CORD_M):
        return True
    roles = {plan.devices[end.device].role for end in cable.ends}
    near = {room_of(plan, end) for end in cable.ends}
    return "outlet" in roles and "switch" in roles and (None in near or len(near) > 1)


def _straight_way(plan: Plan, cable: Cable) -> str:
    first, *far = sorted(cable.ends, key=lambda end: not plan.devices[end.device].passive)
    return f"the {plan.devices[first.device].role} {first} straight to {listed(far)}"


def _leaves_room(plan: Plan, cable: Cable) -> bool:
    """Whether a cable runs along a route, or between two rooms."""
    rooms = {room_of(plan, end) for end in cable.ends} - {None}
    return bool(cable.via) or len(rooms) > 1


def _solid(bulk: Sequence[Cable]) -> Iterator[str]:
    if bulk:
        yield "Cable in walls has solid conductors; jacks and plugs have to be made for those."


def _fire_class(plan: Plan, cables: Shopping) -> Iterator[str]:
    """EN 50575 in Europe, NFPA 70 in North America."""
    laid = {cable.name for cable in cables.bulk}
    laid |= {cable.name for cable in cables.made_up if _may_be_laid(plan, cable)}
    if laid:
        names = [name for name in plan.cables if name in laid]
        yield (
            f"Ask the local code which fire class the jacket of cable in walls and ceilings must have (in Europe a "
            "Euroclass under EN 50575, in North America a rating such as riser or plenum): the bill cannot know. "
            f"It is asked for {listed(names)}. Where the code wants a licensed installer, that work is theirs."
        )


def _between_buildings(plan: Plan, cables: Shopping) -> Iterator[str]:
    """A question about cable that leaves a building. Common practice, no source."""
    names = [cable.name for cable in (*cables.bulk, *cables.made_up) if len(_buildings(plan, cable)) > 1]
    if names:
        yield (
            f"{listed(names)} {'runs' if len(names) == 1 else 'run'} between two buildings: ask for a jacket made for "
            "outdoors or wet ducts, which is often not one for indoors, and take fibre, since copper joins the earths "
            "of both."
        )


def _buildings(plan: Plan, cable: Cable) -> set[str]:
    """The buildings that a cable's ends stand in, as far as the plan says."""
    rooms = (plan.rooms.get(room_of(plan, end) or "") for end in cable.ends)
    return {room.building for room in rooms if room is not None and room.building is not None}


def _may_be_laid(plan: Plan, cable: Cable) -> bool:
    """Whether a cable that comes with its plugs may lie in a wall or a ceiling all the same."""
    return _leaves_room(plan, cable) or is_fixed_fibre(plan, cable) or _runs_straight(plan, cable)


def _screens(plan: Plan) -> Iterator[str]:
    if any(
        cable.screened or cable.category in screened_categories()
        for cable in plan.cables.values()
        if cable.owned is not True
    ):
        yield (
            "Screened cable needs screened jacks, panels and cords all the way, and its screen joined to earth: have "
            "a licensed electrician do that by the local code, above all between two buildings."
        )
