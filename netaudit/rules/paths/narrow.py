"""The rule of paths on narrow places: is anything beyond a seat's own link promised less than that link."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import takewhile

from netaudit.model.finding import Judgement, Measure
from netaudit.model.path import Path
from netaudit.model.place import cable_place
from netaudit.network.hosts import PHY as HOST_PHY
from netaudit.rules.facts import Facts
from netaudit.rules.paths.promises import lacking, links_of, most_of, promise_sources, source_of, widened
from netaudit.rules.rule import Rule
from netaudit.units import both_rates_text


def _wired_at_the_seat(facts: Facts) -> Iterable[Path]:
    """The planned paths of several links that begin with a cable; what a radio is promised, nothing falls short of."""
    return (path for path in facts.planned if len(path.hops) > _host_hops(path) + 1 and path.hops[0].phy != "radio")


def _host_hops(path: Path) -> int:
    """Host buses between a seat and its own link: 1 where an adapter is a device of its own."""
    return sum(1 for _ in takewhile(lambda hop: hop.phy == HOST_PHY, path.hops))


def _judge_narrow(path: Path, facts: Facts) -> Judgement:
    own, *beyond = links_of(path, facts)[_host_hops(path) :]
    seat = facts.topology.promised(own)
    wired = [(link, facts.topology.promised(link)) for link in beyond if link.channel is not None]
    narrow = [one for one in wired if most_of(one[1]) < seat.least_bit_per_s]
    if narrow:
        link, promised = min(narrow, key=lambda one: most_of(one[1]))
        rate = seat.least_bit_per_s
        word = "is promised" if promised.bit_per_s is not None else "never has more than"
        given = both_rates_text(most_of(promised)) if most_of(promised) else "no rate at all"
        return NARROW_BEYOND_SEAT.finding(
            path.place,
            link.place,
            *map(cable_place, link.cables),
            message=f"{path.station}'s own link is promised {both_rates_text(rate)}, but further on "
            f"{link.near} to {link.far} {word} {given}",
            remedy=" ".join(dict.fromkeys(widened(each, rate, rate, facts) for each, _ in narrow)),
            source=source_of(link),
            measured=Measure(most_of(promised), "bit/s"),
            limit=Measure(rate, "bit/s"),
        )
    still_open = next((one for one in wired if one[1].least_bit_per_s < most_of(seat)), None)
    if still_open is None:
        return None
    link, promised = still_open
    missing = lacking(own if promised.bit_per_s is not None else link, facts)
    return NARROW_BEYOND_SEAT.not_checked(path.place, missing.where, reason=missing.reason, decides=missing.decides)


NARROW_BEYOND_SEAT = Rule(
    name="narrow-beyond-seat",
    family="paths",
    severity="warn",
    subjects=_wired_at_the_seat,
    judge=_judge_narrow,
    what="A link between a seat's own link and the storage that is promised less than the seat's own link.",
    why="The desk shows the fast rate and copies at the slow one, so the fault is looked for at the wrong end.",
    todo="Bring the link that is named to the rate of the seat's own; until then the rest of it lies idle.",
    sources=promise_sources,
)
