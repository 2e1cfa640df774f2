"""Where to read the rate of a cable, in words; and where there is none, what to try instead."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from netaudit.listing import listed
from netaudit.model.place import PortRef
from netaudit.model.plan import FIBRE_GRADES, HOST_CABLE_KINDS, TWINAX_KINDS, Cable
from netaudit.network.hosts import PHY as HOST_PHY
from netaudit.network.links import Link
from netaudit.units import both_rates_text

# What to try with a cable over which no link runs is common practice, no source.
_TRY_COPPER = "try it between two machines, or with a cable tester"
_TRY_FIBRE = "try it between two modules of its kind, or with a light source and a power meter"
_TRY_DIRECT = "try it between two cages that it is made for"
_TRY_HOST = "try it between a machine and an adapter that are known to be good"


def where(cable: Cable, links: Sequence[Link]) -> str:
    """Where to read the rate of a cable over which some links run, the end that it begins at first."""
    if not links:
        return f"no link runs over it: {_trial(cable)}"
    ends = listed(_ends(cable, links))
    if all(link.phy == HOST_PHY for link in links):
        return f"no rate to read: see in the system's own list of devices that {ends} have found each other"
    if not any(link.runs for link in links):
        return f"no rate in common at {ends}: `netaudit check` says why"
    doubts = dict.fromkeys(doubt for link in links for doubt in _doubt(link))
    return "; ".join((f"read at {ends}", *doubts))


def _trial(cable: Cable) -> str:
    """How to try a cable by itself."""
    if cable.category in FIBRE_GRADES:
        return _TRY_FIBRE
    if cable.category in TWINAX_KINDS:
        return _TRY_DIRECT
    return _TRY_HOST if cable.category in HOST_CABLE_KINDS else _TRY_COPPER


def _ends(cable: Cable, links: Sequence[Link]) -> dict[PortRef, None]:
    """The active ports of some links over a cable: those behind its own first end, then those behind its others."""
    behind: dict[PortRef, list[PortRef]] = {}
    for side, port in (side for link in links for side in _sides(cable, link)):
        behind.setdefault(side, []).append(port)
    return dict.fromkeys(port for end in cable.ends for port in behind.get(end, ()))


def _sides(cable: Cable, link: Link) -> Iterator[tuple[PortRef, PortRef]]:
    """Both ends of a cable, each with the active port that the link has behind it."""
    if link.channel is not None:
        nodes = (link.near, *link.channel.joints, link.far)
        for (entered, left), part in zip(pairwise(nodes), link.channel.cables, strict=True):
            if part.name == cable.name:
                yield from ((entered, link.near), (left, link.far))


def _doubt(link: Link) -> Iterator[str]:
    """What to expect where the limits promise less than both ends agree on."""
    agreed, most = link.agreed_bit_per_s, link.promised.most_bit_per_s
    if agreed is not None and most is not None and most < agreed and link.phy != HOST_PHY:
        promised = both_rates_text(most) if most else "no rate"
        yield f"{both_rates_text(agreed)} may not hold: the limits promise {promised} over the whole link"
