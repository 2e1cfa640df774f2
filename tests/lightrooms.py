"""Rooms with one run of fibre between a switch and a storage, for tests of what light gets through."""

from __future__ import annotations

from collections.abc import Sequence

from rooms import found, report_of

from netaudit.model.finding import Finding
from netaudit.model.report import Report
from netaudit.standards.phys import phys
from netaudit.units import rate_text

RULES = ("fibre-type-mismatch", "optics-differ", "fibre-too-long", "fibre-loss-too-high", "fibre-loss-doubtful")


def cage(module: str | None, rates: str | None = None) -> str:
    """A port that takes a module, at the module's rate unless others are given."""
    own = "10G" if module is None else rate_text(phys()[module].rate_bit_per_s).replace(" ", "").replace("b/s", "")
    return f"connector: qsfp28, rates: {rates or f'[{own}]'}" + ("" if module is None else f", module: {module}")


def fibre(category: str = "OM3", length: str | None = "20 m", more: str = "") -> str:
    """A piece of fibre as a plan describes it."""
    return f"category: {category}" + ("" if length is None else f", length: {length}") + more


def run(
    *pieces: str,
    near: str | None = "10GBASE-SR",
    far: str | None = "same",
    rates: str | None = None,
) -> str:
    """A plan whose switch core/9 and storage vault/fast are joined by pieces F1, F2 … through as many panels as needed."""
    last = len(pieces)
    ends = ["core/9", *(f"p{number}/1" for number in range(1, last)), "vault/fast"]
    panels = [f"  p{number}: {{role: panel, ports: {{1-4: {{connector: lc}}}}}}" for number in range(1, last)]
    cables = [
        f"  F{number}: {{from: {ends[number - 1]}, to: {ends[number]}, {piece}}}"
        for number, piece in enumerate(pieces, 1)
    ]
    lines = [
        "netaudit: 1",
        "devices:",
        f"  core: {{role: switch, ports: {{9: {{{cage(near, rates)}}}}}}}",
        f"  vault: {{role: storage, ports: {{fast: {{{cage(near if far == 'same' else far, rates)}}}}}}}",
        *panels,
        "cables:",
        *cables,
    ]
    return "\n".join(lines) + "\n"


def joined(pieces: int, length_m: float, grade: str) -> Sequence[str]:
    """So many pieces of one grade that come to a length [m] together."""
    return [fibre(grade, f"{length_m / pieces:.9f} m")] * pieces


def told(report: Report) -> dict[str, str]:
    """What a report has against the fibre: rule to severity."""
    return {finding.rule: finding.severity for rule in RULES for finding in found(report, rule)}


def only(text: str, rule: str) -> Finding:
    """The one finding of a rule on a plan."""
    (finding,) = found(report_of(text), rule)
    return finding
