"""The acceptance sheet: what each cable should show when the room stands, and the filled sheet held to the plan."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence

from netaudit.calculations.run_lengths import with_run_lengths
from netaudit.errors import InputError, Problem, nearest
from netaudit.listing import listed
from netaudit.model.moving import Acceptance, AcceptanceReport, AcceptedCable, SeenRate, Verdict
from netaudit.model.plan import Cable, Plan
from netaudit.network.hosts import PHY as HOST_PHY
from netaudit.network.links import Link
from netaudit.network.topology import Topology, build_topology
from netaudit.ordering.day.acceptance_places import where
from netaudit.units import both_rates_text

COMPARED = 200
"""Cables with which a misspelt one is compared: those that stand beside it in the alphabet."""
MOST_TOLD = 100
"""Rows that cannot be held against the plan and are told one by one."""
LONGEST_NAME = 64
"""Characters of a name that is compared, the most that a plan allows."""


def acceptance_sheet(plan: Plan, topology: Topology) -> tuple[Acceptance, ...]:
    """A row for each cable, in plan order.

    The expected rate is the agreed one, even where the published limits promise less over this cable: it is what the
    ports show. None where it is unknown, where no link runs, where the links of a breakout differ, and for the cable of
    an adapter, whose bus shows no rate.
    """
    links: dict[str, list[Link]] = {}
    for link in topology.links:
        for cable in link.cables:
            links.setdefault(cable, []).append(link)
    return tuple(_row(cable, links.get(cable.name, ())) for cable in plan.cables.values())


def _row(cable: Cable, links: Sequence[Link]) -> Acceptance:
    rates = {link.agreed_bit_per_s for link in links if link.phy != HOST_PHY}
    expected = rates.pop() if len(rates) == 1 else None
    shown = any(link.runs and link.phy != HOST_PHY for link in links)
    return Acceptance(cable.name, cable.from_port, cable.to_ports, expected, where(cable, links), shown)


def accepted(plan: Plan, seen: Sequence[SeenRate], sheet: str) -> AcceptanceReport:
    """A filled sheet, named `sheet`, held against a plan, with lengths worked out where the plan has none.

    Raises InputError with every row of the sheet whose cable is not in the plan, or that stands there twice.
    """
    whole = with_run_lengths(plan)
    return judged(whole, acceptance_sheet(whole, build_topology(whole)), seen, sheet)


def judged(plan: Plan, rows: Sequence[Acceptance], seen: Sequence[SeenRate], sheet: str) -> AcceptanceReport:
    """A filled sheet, named `sheet`, held against the rows that the plan expects.

    A cable that is in the plan in other letters, small or capital, is taken for that one if there is only one such.
    Raises InputError with every row of the sheet whose cable is not in the plan, or that stands there twice.
    """
    known = _as_in_plan(plan, seen)
    problems = list(_problems(plan, known, sheet))
    if len(problems) > MOST_TOLD:
        problems[MOST_TOLD:] = [Problem(sheet, f"and {len(problems) - MOST_TOLD} more rows that are not in the plan")]
    if problems:
        raise InputError(problems)
    by_cable = {one.cable: one for one in known}
    cables = tuple(AcceptedCable(row, by_cable.get(row.cable), _verdict(row, by_cable.get(row.cable))) for row in rows)
    return AcceptanceReport(plan.file, plan.name, sheet, cables, tuple(_remarks(cables)))


def _as_in_plan(plan: Plan, seen: Iterable[SeenRate]) -> list[SeenRate]:
    """The rows with the names of cables as the plan has them, where only the case of letters differs."""
    alike: dict[str, list[str]] = {}
    for name in plan.cables:
        alike.setdefault(name.casefold(), []).append(name)
    rows = []
    for one in seen:
        found = [one.cable] if one.cable in plan.cables else alike.get(one.cable.casefold(), [])
        rows.append(one._replace(cable=found[0]) if len(found) == 1 else one)
    return rows


def _problems(plan: Plan, seen: Sequence[SeenRate], sheet: str) -> Iterator[Problem]:
    """Rows that cannot be held against the plan, in the order of the sheet."""
    first: dict[str, int] = {}
    names = sorted(plan.cables)
    for one in seen:
        if one.cable in first:
            message = f"cable {one.cable!r} stands in line {first[one.cable]} already: keep one of the two rows"
            yield Problem(sheet, message, one.line)
        elif one.cable not in plan.cables:
            yield Problem(sheet, _unknown(one.cable, names), one.line)
        first.setdefault(one.cable, one.line)


def _unknown(name: str, names: Sequence[str]) -> str:
    """What to say of a cable that is not in the plan, whose cables are given in alphabetical order."""
    place = max(bisect_left(names, name) - COMPARED // 2, 0)
    near = nearest(name, names[place : place + COMPARED]) if len(name) <= LONGEST_NAME else None
    hint = f"did you mean {near!r}?" if near else "take the row out, or print the sheet anew."
    return f"cable {name!r} is not in the plan; {hint}"


def _verdict(row: Acceptance, seen: SeenRate | None) -> Verdict:
    """What a row of the sheet says of its cable; no link at all is slower than any link."""
    if seen is None or seen.seen_bit_per_s is None:
        return "not tested" if row.shown else "no rate to read"
    if row.expected_bit_per_s is None:
        return "nothing to hold it against"
    if seen.seen_bit_per_s == row.expected_bit_per_s:
        return "as expected"
    return "slower" if seen.seen_bit_per_s < row.expected_bit_per_s else "faster"


def _remarks(cables: Iterable[AcceptedCable]) -> Iterator[str]:
    """What else the sheet tells, a sentence each; cables without initials in one."""
    nameless = []
    for row, seen, verdict in cables:
        if seen is None:
            continue
        if seen.ends not in _namings(row):
            yield f"The sheet has {row.cable} between {seen.ends}, the plan between {_ends(row)}: print a new sheet."
        if verdict == "faster":
            yield _beaten(row, seen)
        if seen.seen_bit_per_s is not None and not seen.initials:
            nameless.append(row.cable)
    if nameless:
        yield f"Nobody signed for {listed(nameless)}: who read the rate?"


def _beaten(row: Acceptance, seen: SeenRate) -> str:
    """What to say of a cable that shows more than the plan has for it."""
    rates = [both_rates_text(rate) for rate in (seen.seen_bit_per_s, row.expected_bit_per_s) if rate is not None]
    return f"{row.cable} shows {' where the plan has '.join(rates)}: the plan is out of date there, so correct it."


def _ends(row: Acceptance) -> str:
    return " - ".join((str(row.from_port), _far(row)))


def _far(row: Acceptance) -> str:
    return ", ".join(map(str, row.to_ports))


def _namings(row: Acceptance) -> tuple[str, ...]:
    """The ends of a cable as a sheet may have them: in either order, one of them alone, or not at all."""
    near, far = str(row.from_port), _far(row)
    return (f"{near} - {far}", f"{far} - {near}", near, far, "")
