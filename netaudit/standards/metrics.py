"""Metrics: what a system counts a way out by, where nobody set it by hand; the lowest number wins."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.standards.reading import Row, table


class Metric(NamedTuple):
    """What one kind of way out counts."""

    metric: int
    """The lowest of several wins."""
    source: Citation


class SpeedMetric(NamedTuple):
    """What a way out counts from one speed up to that of the row before."""

    from_bit_per_s: int
    """Least speed of the link [bit/s]."""
    metric: int
    source: Citation


@cache
def speed_metrics() -> Mapping[str, tuple[SpeedMetric, ...]]:
    """Windows: the rows of each kind of link, `wired` and `wi-fi`, the fastest first and the last one from 0."""
    found: dict[str, list[SpeedMetric]] = {}
    for row in _rows("windows"):
        one = SpeedMetric(row.whole("from_bit_per_s"), row.whole("metric"), row.citation())
        found.setdefault(row.text("kind"), []).append(one)
    return {kind: tuple(rows) for kind, rows in found.items()}


def speed_metric(kind: str, rate_bit_per_s: float) -> Metric:
    """Windows: what a link of a kind, `wired` or `wi-fi`, counts at a speed [bit/s]."""
    row = next(row for row in speed_metrics()[kind] if rate_bit_per_s >= row.from_bit_per_s)
    return Metric(row.metric, row.source)


@cache
def manager_metrics() -> Mapping[tuple[str, str], Metric]:
    """Linux: by what manages the network, in small letters, and kind of link; `any` where all are alike."""
    return {
        (row.text("manager").casefold(), row.text("kind")): Metric(row.whole("metric"), row.citation())
        for row in _rows("linux")
    }


def manager_metric(manager: str, kind: str) -> Metric | None:
    """Linux: what a link counts, by its kind and by what manages the network; None where that is in no table."""
    rows = manager_metrics()
    own = manager.casefold()
    return rows.get((own, kind)) or rows.get((own, "any"))


@cache
def service_ranks() -> Mapping[bool, Metric]:
    """macOS: whether a service has a gateway, to its rank, which counts before its place in the service order."""
    kinds = {"with gateway": True, "without gateway": False}
    return {kinds[row.text("kind")]: Metric(row.whole("metric"), row.citation()) for row in _rows("macos")}


def _rows(system: str) -> list[Row]:
    return [row for row in table("metrics.csv") if row.text("system") == system]
