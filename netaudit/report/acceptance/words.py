"""What a filled sheet comes to, in one sentence and in counts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from netaudit.listing import listed
from netaudit.model.moving import AcceptanceReport, AcceptedCable, Verdict
from netaudit.units import both_rates_text

VERDICTS: tuple[Verdict, ...] = (
    "as expected", "slower", "faster", "not tested", "nothing to hold it against", "no rate to read",
)  # fmt: skip
"""All of them, in the order in which they are counted."""


def counted(report: AcceptanceReport) -> dict[Verdict, int]:
    """How many cables there are of each verdict."""
    counts = Counter(cable.verdict for cable in report.cables)
    return {verdict: counts[verdict] for verdict in VERDICTS}


def sentence(report: AcceptanceReport) -> str:
    """The answer: how many cables run as planned, and what is wrong with the worst of the others."""
    counts = counted(report)
    total = len(report.cables) - counts["no rate to read"]
    if not total:
        return "The plan has no cable that shows a rate, so that there is nothing to accept."
    if counts["as expected"] == total:
        return "The one cable runs as planned." if total == 1 else f"All {total} cables run as planned."
    if counts["not tested"] == total:
        return "The one cable is not tested yet." if total == 1 else f"None of the {total} cables is tested yet."
    return "; ".join((_running(counts["as expected"], total), *_others(report, counts))) + "."


def _running(good: int, total: int) -> str:
    cables = "1 cable" if total == 1 else f"{total} cables"
    return f"{good or 'none'} of {cables} {'runs' if good <= 1 else 'run'} as planned".capitalize()


def _others(report: AcceptanceReport, counts: dict[Verdict, int]) -> Iterator[str]:
    slower = [cable for cable in report.cables if cable.verdict == "slower"]
    if slower:
        yield _worst(slower)
    faster = [cable.row.cable for cable in report.cables if cable.verdict == "faster"]
    if faster:
        yield f"{listed(faster)} {_verb(faster, 'is', 'are')} faster than planned"
    untested = counts["not tested"]
    if untested:
        yield f"{untested} {'is' if untested == 1 else 'are'} not tested"
    unplanned = counts["nothing to hold it against"]
    if unplanned:
        yield f"{unplanned} {'has' if unplanned == 1 else 'have'} no planned rate to hold {_them(unplanned)} against"


def _worst(slower: Sequence[AcceptedCable]) -> str:
    """What is wrong with the slowest of them, the first in the plan where several are as slow."""
    worst = min(slower, key=_seen_bit_per_s)
    planned = both_rates_text(worst.row.expected_bit_per_s or 0)
    fault = f"{worst.row.cable} {came_up(worst)} instead of {planned}"
    return fault if len(slower) == 1 else f"{len(slower)} fall short, the worst of them: {fault}"


def _seen_bit_per_s(cable: AcceptedCable) -> int:
    return (cable.seen.seen_bit_per_s if cable.seen else None) or 0


def came_up(cable: AcceptedCable) -> str:
    """What a tested cable did."""
    seen_bit_per_s = _seen_bit_per_s(cable)
    return f"came up at {both_rates_text(seen_bit_per_s)}" if seen_bit_per_s else "shows no link"


def seen_text(cable: AcceptedCable) -> str:
    """The rate that somebody read off."""
    if cable.seen is None or cable.seen.seen_bit_per_s is None:
        return "not tested"
    return both_rates_text(cable.seen.seen_bit_per_s) if cable.seen.seen_bit_per_s else "no link"


def planned_text(cable: AcceptedCable) -> str:
    """The rate that the plan expects."""
    expected_bit_per_s = cable.row.expected_bit_per_s
    return "none" if expected_bit_per_s is None else both_rates_text(expected_bit_per_s)


def _verb(names: Sequence[str], one: str, many: str) -> str:
    return one if len(names) == 1 else many


def _them(count: int) -> str:
    return "it" if count == 1 else "them"
