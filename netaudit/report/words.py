"""Words that every form of a report shares: the answer in one sentence, and what stands below it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from netaudit.citation import OBSERVED, Citation
from netaudit.listing import NAMES_AT_MOST, listed
from netaudit.model.finding import Finding, NotChecked
from netaudit.model.place import Place
from netaudit.units import both_rates_text, measure_text, share_text

if TYPE_CHECKING:
    from netaudit.model.path import Path
    from netaudit.model.report import JudgedPath, Report, Verdict

STATES: dict[Verdict, str] = {"pass": "good", "incomplete": "open", "fail": "falls short"}
"""What a seat's road does, in a word or two."""
FEW = 3
"""Seats that are named where all are meant."""


def sentence(report: Report) -> str:
    """The answer that a tired person needs, with the number that proves it."""
    planned = [judged for judged in report.paths if judged.path.planned]
    falling = [judged for judged in planned if judged.verdict == "fail"]
    unproven = [judged for judged in planned if judged.verdict == "incomplete"]
    if not planned:
        return "No seat of this plan edits from a storage, so that nothing is proven."
    if falling:
        return _falling_sentence(report, falling)
    if report.summary.fail:
        seats = "No seat falls short" if unproven else "Every seat is good"
        return f"{seats}, but not all is well: {report.findings[0].message}."
    if unproven:
        return f"Nothing fails, but {stations(unproven)} {_is(unproven)} not proven: {_wants(report, unproven)}."
    few = len(_names(planned)) <= FEW
    who = f"{stations(planned)} {_is(planned)} good" if few else "Every seat is good"
    return f"{who}{_slowest(planned)}."


def _falling_sentence(report: Report, falling: Sequence[JudgedPath]) -> str:
    """The first seat's own fault, then who else falls short."""
    first = falling[0].path
    fault = _own_fault(report, first)
    others = [judged for judged in falling if judged.path.station != first.station]
    road_text = "does the road" if len(_names(others)) == 1 else "do the roads"
    more = f" Neither {road_text} of {stations(others)} hold." if others else ""
    lead = "" if fault.where[0].kind == "path" else f"{first.station} cannot rely on its road to {first.storage}. "
    return f"{lead}{fault.message}.{more}"


def _own_fault(report: Report, path: Path) -> Finding:
    """The fault that fails a path: one about the path itself, or else about something on it."""
    places = path.places
    faults = [found for found in report.findings if found.severity == "fail"]
    own = (found for found in faults if found.where[0] == path.place)
    on_it = (found for found in faults if found.where[0].kind != "path" and not places.isdisjoint(found.where))
    return next(own, None) or next(on_it, faults[0])


def _slowest(planned: Sequence[JudgedPath]) -> str:
    """The road that gives the least, where all are known."""
    known = [judged.path for judged in planned if judged.path.goodput_bit_per_s is not None]
    if len(known) < len(planned):
        return ""
    path = min(known, key=lambda one: one.goodput_bit_per_s or 0)
    road_text = "its road" if len(planned) == 1 else f"the slowest road, {path.station} to {path.storage},"
    bound = f", bounded by {path.limited_by}" if path.limited_by is not None else ""
    alone_text = f"{both_rates_text(path.goodput_bit_per_s or 0)} to one seat alone{bound}"
    return f"; {road_text} carries {alone_text}{_all_at_once(known)}"


def _all_at_once(paths: Sequence[Path]) -> str:
    """What is left for the worst off when all read at once, where that is less than it reads alone."""
    shared = [path for path in paths if path.share_bit_per_s is not None]
    least = min(shared, key=lambda path: path.share_bit_per_s or 0, default=None)
    if least is None or least.share_bit_per_s is None or least.share_bit_per_s >= (least.goodput_bit_per_s or 0):
        return ""
    return f"; when all seats read at once, {least.station} gets {both_rates_text(least.share_bit_per_s)}"


def standing_lines(report: Report) -> tuple[str, ...]:
    """Which seats are good, which are not proven for want of what, and the first warning: a line each.

    What the sentence says already is not said again.
    """
    planned = [judged for judged in report.paths if judged.path.planned]
    troubled = {judged.path.station for judged in planned if judged.verdict != "pass"}
    good = [judged for judged in planned if judged.path.station not in troubled]
    unproven = [judged for judged in planned if judged.verdict == "incomplete"]
    lines = []
    if good and len(good) < len(planned):
        lines.append(f"Good: {stations(good)}.")
    if unproven and report.summary.fail:
        lines.append(f"Not proven: {stations(unproven)}; {_wants(report, unproven)}.")
    warnings = [finding.message for finding in report.findings if finding.severity == "warn"]
    if warnings:
        lead = "One warning" if len(warnings) == 1 else f"{len(warnings)} warnings, the first"
        lines.append(f"{lead}: {warnings[0]}.")
    return tuple(lines)


def _wants(report: Report, unproven: Sequence[JudgedPath]) -> str:
    """The facts that would decide about the first few roads, each once."""
    wants = list(dict.fromkeys(_want(report, judged) for judged in unproven[:NAMES_AT_MOST]))
    more = "; more stands below" if len(wants) > FEW or len(unproven) > NAMES_AT_MOST else ""
    return "; ".join(wants[:FEW]) + more


def _want(report: Report, judged: JudgedPath) -> str:
    """The fact that would decide about a road."""
    places = judged.path.places
    for gap in report.not_checked:
        if gap.where[0] == judged.path.place or (gap.where[0].kind != "path" and not places.isdisjoint(gap.where)):
            return gap.decides
    doubts = (found.message for found in report.findings if found.where[0] == judged.path.place)
    return next(doubts, "it is not known well enough")


def _names(judged: Sequence[JudgedPath]) -> list[str]:
    return list(dict.fromkeys(one.path.station for one in judged))


def _is(judged: Sequence[JudgedPath]) -> str:
    """The verb that agrees with the seats of some roads."""
    return "is" if len(_names(judged)) == 1 else "are"


def stations(judged: Sequence[JudgedPath]) -> str:
    """The stations of some roads, each once."""
    return listed(_names(judged))


def title(name: str | None, file: str) -> str:
    """A plan's name and file on one line, whatever is in them."""
    whole = f"{name or 'unnamed plan'} ({file})"
    return "".join(char if char.isprintable() else " " for char in " ".join(whole.split()))


def road(path: Path) -> str:
    """A road in a row: wire > core > vault/fast."""
    if path.from_port is None or path.to_port is None:
        return f"none to {path.storage}"
    between = [hop.to_port.device for hop in path.hops[:-1]]
    return " > ".join((path.from_port.port, *between, str(path.to_port)))


def alone(path: Path) -> str:
    """What one seat reads alone."""
    return _carried(path, path.goodput_bit_per_s)


def together(path: Path) -> str:
    """What a seat reads when all that share its road do."""
    return _carried(path, path.share_bit_per_s)


def usable(path: Path, headroom: float) -> str:
    """The same with the headroom kept free."""
    share = path.share_bit_per_s
    return _carried(path, None if share is None else share * (1 - headroom))


def _carried(path: Path, rate_bit_per_s: float | None) -> str:
    if rate_bit_per_s is not None:
        return both_rates_text(rate_bit_per_s) if rate_bit_per_s else "none promised"
    if not path.hops:
        return "nothing"
    return "radio: no promise" if any(hop.phy == "radio" for hop in path.hops) else "open"


def narrowest(path: Path) -> str:
    """The narrowest thing on a road, with the seats that lean on it."""
    if path.limited_by is None:
        return "-"
    seats = f", {path.shared_by} seats" if path.shared_by > 1 else ""
    return f"{path.limited_by}{seats}"


def kept_free(headroom: float) -> str:
    """The headroom in words."""
    return f"with {share_text(headroom)} kept free"


def evidence(finding: Finding) -> str:
    """What was measured, what is allowed, and who says so."""
    parts = []
    if finding.measured is not None:
        parts.append(f"has {measure_text(*finding.measured)}")
    if finding.limit is not None:
        parts.append(f"limit {measure_text(*finding.limit)}")
    is_plain = finding.source.standing == "plan" or finding.source == OBSERVED
    standing = "" if is_plain else f" ({finding.source.standing})"
    parts.append(f"source: {cited(finding.source)}{standing}")
    return "; ".join(parts)


def cited(source: Citation) -> str:
    """The document of a source, with the clause where one is known."""
    return f"{source.document}, {source.clause}" if source.clause else source.document


def gaps(not_checked: Sequence[NotChecked]) -> tuple[tuple[str, tuple[Place, ...], tuple[str, ...], str], ...]:
    """What was not checked, each missing fact once: reason, places, rules that wanted it, what would decide."""
    grouped: dict[tuple[str, str], tuple[dict[Place, None], dict[str, None]]] = {}
    for gap in not_checked:
        places, rules = grouped.setdefault((gap.reason, gap.decides), ({}, {}))
        places.update(dict.fromkeys(gap.where))
        rules[gap.rule] = None
    return tuple(
        (reason, tuple(places), tuple(rules), decides) for (reason, decides), (places, rules) in grouped.items()
    )


def counts(report: Report) -> str:
    """The last line: the counts of a report."""
    summary = report.summary
    places = "1 place" if summary.not_checked == 1 else f"{summary.not_checked} places"
    made = "1 judgement" if summary.checked == 1 else f"{summary.checked} judgements"
    return (
        f"{summary.fail} fail, {summary.warn} warn, {summary.note} note; "
        f"{made} made, {places} not checked; verdict: {summary.verdict}"
    )
