"""The machinery of rules."""

from __future__ import annotations

import pytest

from netaudit.citation import PLAN, Citation, Standing
from netaudit.model.place import cable_place
from netaudit.rules.rule import Rule

HARD = Rule(
    name="too-long", family="cabling", severity="fail", subjects=lambda facts: (), judge=lambda subject, facts: None,
    what="x", why="y", todo="z",
)  # fmt: skip


@pytest.mark.parametrize(
    ("standing", "severity"),
    [
        ("read", "fail"),
        ("secondary", "fail"),
        ("computed", "fail"),
        ("plan", "fail"),
        ("memory", "warn"),
        ("common practice", "warn"),
    ],
)
def test_a_remembered_limit_warns_where_a_firm_one_fails(standing: Standing, severity: str) -> None:
    finding = HARD.finding(cable_place("W01"), message="m", remedy="r", source=Citation("d", None, standing))

    assert (severity, "too-long") == (finding.severity, finding.rule)


def test_a_gap_bears_the_name_of_its_rule_and_its_places() -> None:
    gap = HARD.not_checked(cable_place("W01"), cable_place("W02"), reason="r", decides="d")

    assert ("too-long", ["cable W01", "cable W02"]) == (gap.rule, [str(place) for place in gap.where])


def test_a_note_is_never_made_graver() -> None:
    note = Rule(
        name="n", family="ports", severity="note", subjects=lambda facts: (), judge=lambda subject, facts: None,
        what="x", why="y", todo="z",
    )  # fmt: skip

    assert "note" == note.finding(cable_place("W01"), message="m", remedy="r", source=PLAN).severity
