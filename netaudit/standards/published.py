"""The published limits about one topic, as tables for people."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import cast

from netaudit.model.limits import Cell, Column, LimitRow, LimitTable, Topic
from netaudit.standards.phys import phys
from netaudit.standards.reading import Row, table
from netaudit.standards.views import VIEWS
from netaudit.standards.views.view import Family, View

UNITS = {
    "_bit_per_s": "bit/s",
    "_db_per_km": "dB/km",
    "_db_per_100_m": "dB/100 m",
    "_db_per_decade": "dB/decade",
    "_ns_per_100_m": "ns/100 m",
    "_ohm_per_km": "ohm/km",
    "_m_per_c": "m/°C",
    "_percent": "%",
    "_mhz": "MHz",
    "_awg": "AWG",
    "_ohm": "ohm",
    "_db": "dB",
    "_nm": "nm",
    "_ns": "ns",
    "_um": "µm",
    "_mm": "mm",
    "_ft": "ft",
    "_m": "m",
    "_c": "°C",
    "_w": "W",
}
"""End of a column's name to the unit of its numbers, the longer first."""
COUNTS = frozenset(
    {
        "cable_share",
        "channel_connections",
        "connections",
        "default_priority",
        "fibres",
        "link_connections",
        "long_cost",
        "loss_factor",
        "metric",
        "most_connections",
        "short_cost",
    }
)
"""Columns of numbers without a unit."""
NAMES = {"phy": "physical layer", "reach_m": "promised", "fixed_at_from_m": "solid cable at from"}
"""Columns whose name alone would not tell what is in them."""
FAMILIES: dict[str, Family] = {
    "copper": "copper",
    "multimode": "fibre",
    "singlemode": "fibre",
    "either": "fibre",
    "twinax": "twinax",
}


def published(topic: Topic) -> tuple[LimitTable, ...]:
    """Every published limit about a topic, the most asked first; a table without a row for it is left out."""
    tables = (_about(view, topic) for view in VIEWS)
    return tuple(one for one in tables if one is not None and one.rows)


def merged(answers: Iterable[Sequence[LimitTable]]) -> tuple[LimitTable, ...]:
    """What the answers to several topics come to together: each table once, with the rows of all."""
    found: dict[str, LimitTable] = {}
    for own in (one for answer in answers for one in answer):
        known = found.get(own.title)
        rows = own.rows if known is None else tuple(dict.fromkeys((*known.rows, *own.rows)))
        found[own.title] = replace(own, rows=rows)
    return tuple(found.values())


def in_all(answers: Sequence[Sequence[LimitTable]]) -> tuple[LimitTable, ...]:
    """What several answers have in common: the rows of the first that stand in the same table of all.

    All of them together where they have nothing in common.
    """
    first, *others = answers
    common = []
    for own in first:
        alike = [{row for one in other if one.title == own.title for row in one.rows} for other in others]
        rows = tuple(row for row in own.rows if all(row in wanted for wanted in alike))
        if rows:
            common.append(replace(own, rows=rows))
    return tuple(common) or merged(answers)


def shown(view: View, wanted: Callable[[Row], bool]) -> LimitTable:
    """The rows of a view that are wanted."""
    rows = (
        LimitRow(tuple(_cell(row, name) for name in view.columns), source)
        for row in table(view.file)
        if (source := row.optional_citation(view.source)) is not None and wanted(row)
    )
    return LimitTable(view.title, tuple(_column(name) for name in view.columns), tuple(rows), view.notes)


def _about(view: View, topic: Topic) -> LimitTable | None:
    if topic.kind == "subject":
        return shown(view, lambda _: True) if set(topic.names) & set(view.subjects) else None
    if set(families(topic)) & set(view.whole_for):
        return shown(view, lambda _: True)
    if topic.kind in view.by:
        return shown(view, lambda row: row.optional_text(view.by[topic.kind]) in topic.names)
    if topic.kind == "rate" and "phy" in view.by:
        layers = {phy.name for phy in phys().values() if str(phy.rate_bit_per_s) in topic.names}
        return shown(view, lambda row: row.optional_text(view.by["phy"]) in layers)
    return None


def families(topic: Topic) -> tuple[Family, ...]:
    """What the channels are made of that a topic is about; none for a rate, which runs over all of them."""
    if topic.kind == "phy":
        return tuple(FAMILIES[phys()[name].medium] for name in topic.names)
    known: dict[str, tuple[Family, ...]] = {"category": ("copper",), "grade": ("fibre",)}
    return known.get(topic.kind, ())


def _column(name: str) -> Column:
    if name in COUNTS:
        return Column(name.replace("_", " "), "")
    end = next((end for end in UNITS if name.endswith(end)), None)
    spelt = NAMES.get(name) or (name.removesuffix(end) if end else name).replace("_", " ").replace(" mhz", " MHz")
    return Column(spelt, None if end is None else UNITS[end])


def _cell(row: Row, name: str) -> Cell:
    """A number where the column holds numbers, although a word such as `any` may stand in it."""
    text = row.optional_text(name)
    if text is None or _column(name).unit is None:
        return text
    try:
        return cast("Cell", int(text) if text.isdecimal() else float(text))
    except ValueError:
        return text
