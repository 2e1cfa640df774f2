"""Misfits: the facts behind fibre that does not go together."""

from __future__ import annotations

import pytest
from lightrooms import fibre, run
from rooms import plan_of

from netaudit.rules.cabling.fibre_links import FibreLink, fibre_links
from netaudit.rules.cabling.fibre_misfits import (
    known_cables,
    most_fibres,
    too_few,
    unequal,
    unfit_cables,
    unfit_grade,
)
from netaudit.rules.facts import build_facts

CLEAN = [
    run(fibre("OM3"), fibre("OM4")),
    run(fibre("OS1"), fibre("OS2"), near="10GBASE-LR"),
    run(fibre("OM1"), near="1000BASE-LX"),
    run(fibre("OS2"), near="1000BASE-LX"),
    run(fibre("unknown")),
    run(fibre("OM4", more=", fibres: 8"), near="40GBASE-SR4"),
]


def the_link(text: str) -> FibreLink:
    (found,) = fibre_links(build_facts(plan_of(text)))
    return found


@pytest.mark.parametrize("text", CLEAN)
def test_what_goes_together_is_no_misfit(text: str) -> None:
    link = the_link(text)

    assert (None, None, None) == (unequal(link), unfit_grade(link), too_few(link))


def test_a_cable_of_unknown_grade_is_neither_known_nor_unfit() -> None:
    link = the_link(run(fibre("OM3"), fibre("unknown"), fibre("OM2"), near="25GBASE-SR"))

    assert ["F1", "F3"] == [cable.name for cable in known_cables(link)]
    assert ["F3"] == [cable.name for cable in unfit_cables(link, "25GBASE-SR")]
    assert ["F1", "F3"] == [cable.name for cable in unfit_cables(link, "25GBASE-LR")]


@pytest.mark.parametrize(
    ("near", "far", "expected"),
    [
        ("40GBASE-SR4", "40GBASE-SR4", ("40GBASE-SR4", 8)),
        (None, "100GBASE-SR10", ("100GBASE-SR10", 20)),
        ("40GBASE-SR4", "40GBASE-LR4", ("40GBASE-SR4", 8)),
        ("40GBASE-LR4", "40GBASE-SR4", ("40GBASE-SR4", 8)),
        ("10GBASE-BR10-D", None, ("10GBASE-BR10-D", 1)),
        (None, None, None),
    ],
)
def test_the_end_that_needs_the_most_fibres_decides(
    near: str | None, far: str | None, expected: tuple[str, int] | None
) -> None:
    assert expected == most_fibres(the_link(run(fibre("OM4"), near=near, far=far, rates="[100G, 40G, 10G]")))


@pytest.mark.parametrize(
    ("text", "step"),
    [
        (run(fibre("OM1", "50 m"), fibre("OM3", "10 m"), near="25GBASE-SR"), "Replace F1 by OM3"),
        (run(fibre("OM1", "50 m"), fibre("OM3", "10 m"), near="10GBASE-SR"), "Replace F2 by OM1"),
        (run(fibre("OM1", "50 m"), fibre("OM2", "10 m"), near="25GBASE-SR"), "Replace F2 by OM1"),
        (run(fibre("OM1", None), fibre("OM3", "200 m"), near="10GBASE-SR"), "Replace F2 by OM1"),
    ],
)
def test_of_two_kinds_in_a_run_the_one_that_the_modules_cannot_use_goes_and_else_the_shorter(
    text: str, step: str
) -> None:
    misfit = unequal(the_link(text))

    assert f"{step}, so that one kind of fibre runs from end to end." == (misfit and misfit.remedy)


def test_fibre_that_is_not_made_for_the_modules_is_told_with_the_ports_of_those_modules() -> None:
    both, one = (
        unfit_grade(the_link(run(fibre("OS2")))),
        unfit_grade(the_link(run(fibre("OS2"), near=None, far="10GBASE-SR"))),
    )

    assert ["cable F1", "port core/9", "port vault/fast"] == [str(place) for place in (both.where if both else ())]
    assert ["cable F1", "port core/9", "port vault/fast"] == [str(place) for place in (one.where if one else ())]


def test_without_a_module_only_fibre_that_no_module_at_the_rate_is_for_is_unfit() -> None:
    assert unfit_grade(the_link(run(fibre("OS2"), near=None, rates="[25G]"))) is None
    misfit = unfit_grade(the_link(run(fibre("OM2"), near=None, rates="[25G]")))

    assert "F1 is OM2; no module at that rate is for it" == (misfit and misfit.message)
