"""Budgets: what a link may lose by each physical layer that it may run, and what is still open about that."""

from __future__ import annotations

import pytest
from lightrooms import fibre, run
from rooms import plan_of

from netaudit.rules.cabling.fibre_budgets import Budgets, budgets_of
from netaudit.rules.cabling.fibre_links import fibre_links
from netaudit.rules.facts import build_facts


def budgets(text: str) -> Budgets | None:
    (found,) = fibre_links(build_facts(plan_of(text)))
    return budgets_of(found)


def test_a_budget_tells_the_loss_with_decent_joints_and_with_the_worst() -> None:
    """OM4, 100 m at 3.5 dB/km and one pair at 0.5 or 0.75 dB (FOA; TIA-568): 0.85 and 1.1 dB of 1.9 dB."""
    found = budgets(run(fibre("OM4", "60 m"), fibre("OM4", "40 m"), near="25GBASE-SR"))

    assert found is not None
    (budget,) = found.known
    assert (pytest.approx(0.85), pytest.approx(1.1)) == (budget.typical_db, budget.worst_db)
    assert (1.9, 1.9, False, False) == (budget.promised_db, budget.possible_db, budget.too_high, budget.doubtful)
    assert (True, True) == (found.bounding, found.final)


def test_of_two_grades_the_tighter_budget_stands_for_the_layer() -> None:
    found = budgets(run(fibre("OM4", "20 m"), fibre("OM3", "20 m")))

    assert found is not None
    assert ["OM3"] == [budget.row.grade for budget in found.known]


@pytest.mark.parametrize(
    ("text", "bounding", "final"),
    [
        (run(fibre("OM3", "20 m")), True, True),
        (run(fibre("OM3", None)), True, False),
        (run(fibre("OM3", None, ", loss: 1 dB")), True, True),
        (run(fibre("OM3", "20 m"), fibre("unknown", "20 m")), False, False),
        (run(fibre("unknown", "20 m")), False, False),
        (run(fibre("OS2", "20 m"), near="PSM4"), False, False),
    ],
)
def test_what_is_open_about_a_budget(text: str, bounding: bool, final: bool) -> None:
    found = budgets(text)

    assert found is not None
    assert (bounding, final) == (found.bounding, found.final)


@pytest.mark.parametrize("text", [run(fibre("OS2")), run(fibre("OM3"), far="10GBASE-LRM")])
def test_what_cannot_run_has_no_budget(text: str) -> None:
    assert budgets(text) is None


@pytest.mark.parametrize(
    ("broken", "bounding", "final", "expected"),
    [
        ([True, True], True, True, True),
        ([True, True], True, False, True),
        ([True, True], False, False, None),
        ([True, False], True, True, None),
        ([False, False], True, True, False),
        ([False, False], True, False, None),
        ([], False, False, None),
    ],
)
def test_a_limit_is_broken_only_if_it_is_whatever_is_unknown(
    broken: list[bool],
    bounding: bool,
    final: bool,
    expected: bool | None,
) -> None:
    assert expected is Budgets((), bounding, final).all_broken(broken)
