"""A filled acceptance sheet held against its plan, as plain text: stable, unwrapped, without colour."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from netaudit.model.moving import AcceptanceReport, AcceptedCable, Verdict
from netaudit.report.acceptance.words import counted, planned_text, seen_text, sentence
from netaudit.report.columns import aligned, one_line
from netaudit.report.words import title

HEAD = ("cable", "ends", "planned", "seen", "where", "initials", "note")
UNTESTED_HEAD = ("cable", "ends", "planned", "where")
SLOWER_REMEDIES = (
    "Where a link is slow, read its rate at both ends: one of the ports may be set to a fixed rate.",
    "Then swap one cord at a time for one that is known to be good, and read again.",
    "Still slow: `netaudit explain link-below-plan` tells what else holds a link down; `netaudit probe STORAGE` asks"
    " the machine at the seat itself.",
)
"""What to do about a link that is slower than planned, the cheapest first: common practice, no source."""
NO_LINK_REMEDIES = (
    "Where there is no link, push both plugs in until they click, and compare both ends with the labels; `netaudit"
    " explain carrier-lost` tells what else it may be. Never look into the end of a fibre, nor into its port.",
)
"""What to do about a link that does not come up: common practice, no source."""


def plain(report: AcceptanceReport) -> str:
    """The whole report; ends with a line feed."""
    return "".join(f"{line}\n" for line in _lines(report))


def _lines(report: AcceptanceReport) -> Iterator[str]:
    wrong = _of(report, "slower", "faster")
    untested = _of(report, "not tested")
    unplanned = _of(report, "nothing to hold it against")
    yield sentence(report)
    yield ""
    yield f"{title(report.plan, report.file)}, held against {one_line(report.sheet)}"
    yield from _section("Not as planned", HEAD, [_row(cable) for cable in wrong])
    yield from (f"  To do: {remedy}" for remedy in _remedies(wrong))
    yield from _section("Not tested", UNTESTED_HEAD, [_untested_row(cable) for cable in untested])
    yield from _section("Tested, but the plan has no rate for it", HEAD, [_row(cable) for cable in unplanned])
    if report.remarks:
        yield ""
        yield "What else does not agree"
        yield from (f"  {one_line(remark)}" for remark in report.remarks)
    yield ""
    yield _counts(report)


def _of(report: AcceptanceReport, *verdicts: Verdict) -> list[AcceptedCable]:
    return [cable for cable in report.cables if cable.verdict in verdicts]


def _section(name: str, head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> Iterator[str]:
    """A heading with rows beneath, where there are any."""
    if rows:
        yield ""
        yield name
        yield from (f"  {line}" for line in aligned((head, *rows)))


def _row(cable: AcceptedCable) -> tuple[str, ...]:
    seen = cable.seen
    written = ("", "") if seen is None else (one_line(seen.initials), one_line(seen.note))
    return (cable.row.cable, _ends(cable), planned_text(cable), seen_text(cable), one_line(cable.row.where), *written)


def _untested_row(cable: AcceptedCable) -> tuple[str, ...]:
    return (cable.row.cable, _ends(cable), planned_text(cable), one_line(cable.row.where))


def _ends(cable: AcceptedCable) -> str:
    return f"{cable.row.from_port} - {', '.join(map(str, cable.row.to_ports))}"


def _remedies(wrong: Sequence[AcceptedCable]) -> Iterator[str]:
    rates = [cable.seen.seen_bit_per_s for cable in wrong if cable.verdict == "slower" and cable.seen]
    if not all(rates):
        yield from NO_LINK_REMEDIES
    if any(rates):
        yield from SLOWER_REMEDIES


def _counts(report: AcceptanceReport) -> str:
    counts = counted(report)
    cables = "1 cable" if len(report.cables) == 1 else f"{len(report.cables)} cables"
    told = (
        f"{counts['as expected']} as expected, {counts['slower']} slower, {counts['faster']} faster, "
        f"{counts['not tested']} not tested, {counts['nothing to hold it against']} without a planned rate, "
        f"{counts['no rate to read']} without a rate to read"
    )
    return f"{cables}: {told}"
