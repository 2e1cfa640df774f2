"""Moving day in sentences: what to do before the first plug, and how to switch on again. Common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.listing import listed
from netaudit.model.plan import FIBRE_GRADES, Plan
from netaudit.network.topology import Topology
from netaudit.ordering.day.plug_order import loose

_WITH_LIGHT = frozenset({*FIBRE_GRADES, "active-optical"})
_NETWORK = frozenset({"switch", "router", "access-point"})

_FINISH = "Finish every copy and every save first: a plug pulled during a copy leaves half a file."
_SEATS = "Eject the shares and shut down the seats before the first plug is pulled."
_STORAGE = "Then shut down the storage by its own menu, never by its switch, and wait until its lights are out."
_PHOTOGRAPH = "Photograph both ends of everything before you touch it."
_LABELS = "Put a temporary label on both ends of each cable before the first plug is pulled."
_OPEN = "Plug in what is listed and nothing else: a cord too many can close a ring that stops the whole room."
_FIBRE = "Leave the caps on fibre plugs and modules until the moment they are plugged, and never look into a fibre."
_COAT = "Keep bends of cable wide and pull by the jacket, never by the plug."
_LIFT = "Lift what is heavy with two people, and carry a storage upright and slowly: its disks bear no knocks."
_MAINS = "Leave mains, earth and whatever is wired to a UPS to licensed practice and the local code."

_NETWORK_ON = "switch on what joins the others, such as switches and routers, and wait for the links between them"
_STORAGE_ON = "switch on the storage, and wait until its own menu says that it is ready"
_SEATS_ON = "start the seats, one after the other, and set and mount what their address cards say"
_ACCEPT = "go through the acceptance sheet cable by cable, and give it back to `netaudit cables` by --accept"


def before_moving(plan: Plan, topology: Topology) -> tuple[str, ...]:
    """What to do before the first plug is pulled or pushed, a sentence each; nothing where every cable stays.

    What is about pulling plugs is told only where a cable that is plugged by hand is owned already.
    """
    cables = loose(plan)
    if not cables:
        return ()
    roles = {device.role for device in plan.devices.values()}
    pulled = any(cable.owned for cable in cables)
    return _told(
        (_FINISH, pulled),
        (_SEATS, pulled and "station" in roles),
        (_STORAGE, pulled and "storage" in roles),
        (_PHOTOGRAPH, pulled),
        (_LABELS, pulled),
        (_OPEN, "switch" in roles),
        *((sentence, True) for sentence in _rings(plan, topology)),
        (_FIBRE, any(cable.category in _WITH_LIGHT for cable in cables)),
        (_COAT, True),
        (_LIFT, any(device.rack is not None for device in plan.devices.values())),
        (_MAINS, True),
    )


def _rings(plan: Plan, topology: Topology) -> Iterator[str]:
    """A caution about switches whose cables close a ring."""
    ringed = topology.ringed
    names = [name for name, device in plan.devices.items() if device.role == "switch" and name in ringed]
    if names:
        stand = "stands" if len(names) == 1 else "stand"
        yield (
            f"{listed(names)} {stand} in a ring: switch them on alone and turn their spanning tree, or the bond "
            "between them, on before the second cable joins them."
        )


def after_moving(plan: Plan) -> tuple[str, ...]:
    """What to do when all is plugged, a sentence each, from the inside out; nothing where every cable stays."""
    if not loose(plan):
        return ()
    roles = {device.role for device in plan.devices.values()}
    first, *later = _told(
        (_NETWORK_ON, not _NETWORK.isdisjoint(roles)),
        (_STORAGE_ON, "storage" in roles),
        (_SEATS_ON, "station" in roles),
        (_ACCEPT, True),
    )
    return (f"{first[0].upper()}{first[1:]}.", *(f"Then {step}." for step in later))


def _told(*sentences: tuple[str, bool]) -> tuple[str, ...]:
    """Those that apply."""
    return tuple(sentence for sentence, applies in sentences if applies)
