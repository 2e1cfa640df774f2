"""The sections of a probe's answer, in the order in which every text form tells them."""

from __future__ import annotations

from netaudit.model.diagnosis import Diagnosis
from netaudit.model.situation import Situation
from netaudit.report.probe import tables, traffic
from netaudit.report.probe.causes import plain_words
from netaudit.report.probe.tables import Table
from netaudit.units import duration_text


def sections(diagnosis: Diagnosis) -> tuple[Table, ...]:
    """Every table that has something to tell."""
    situation = diagnosis.situation
    every = (
        mount(situation),
        tables.addresses(situation),
        tables.links(situation),
        traffic.sessions(situation),
        traffic.channels(situation),
        traffic.moved(situation),
        traffic.files(situation),
        tables.storage(situation),
        tables.switch_port(situation),
    )
    return tuple(table for table in every if table.rows)


def mount(situation: Situation) -> Table:
    """The mount that holds the folder which was asked about."""
    mounted = situation.seen.mount
    if mounted is None:
        return Table("Mount", (), ())
    finer = (", ".join(mounted.options),) if mounted.options else ()
    cells = (f"{mounted.folder} is {mounted.source}, mounted as {mounted.kind}",)
    return Table("Mount", (), (tables.Row(cells, finer),))


def because(diagnosis: Diagnosis) -> tuple[str, ...]:
    """What goes with the likeliest cause, the nearest first; what names the cause itself is not said again."""
    if not diagnosis.causes:
        return ()
    cause = diagnosis.causes[0]
    return tuple(piece for piece in cause.because if piece != plain_words(diagnosis, cause))


def counts(diagnosis: Diagnosis) -> str:
    """The last line: how much was judged and how long it took."""
    severities = [finding.severity for finding in diagnosis.findings]
    told = ", ".join(f"{severities.count(each)} {each}" for each in ("fail", "warn", "note"))
    places = len({place for gap in diagnosis.not_checked for place in gap.where[:1]})
    made = "1 judgement" if diagnosis.checked == 1 else f"{diagnosis.checked} judgements"
    open_places = "1 place" if places == 1 else f"{places} places"
    bound_s = diagnosis.observation.bound_s
    most = "" if bound_s is None else f" of at most {bound_s:.0f} s"
    return f"{told}; {made} made, {open_places} not checked; took {duration_text(diagnosis.observation.took_s)}{most}"
