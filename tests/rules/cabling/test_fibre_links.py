"""Links over fibre: which they are, and what they may turn out to run."""

from __future__ import annotations

import pytest
from lightrooms import fibre, run
from rooms import plan_of

from netaudit.model.plan import FIBRE_GRADES
from netaudit.rules.cabling.fibre_links import (
    FibreLink,
    beyond_it,
    farthest,
    fibre_links,
    other_layer,
    rows_of,
    running_fibre_links,
)
from netaudit.rules.facts import build_facts
from netaudit.standards.optics import optics


def the_link(text: str) -> FibreLink:
    (found,) = fibre_links(build_facts(plan_of(text)))
    return found


def test_a_link_over_fibre_knows_its_cables_and_its_ends() -> None:
    found = the_link(run(fibre("OM3"), fibre("OM4"), far="10GBASE-LR"))

    assert ["F1", "F2"] == [cable.name for cable in found.cables]
    assert [("core/9", "10GBASE-SR"), ("vault/fast", "10GBASE-LR")] == [
        (str(port), module) for port, module in found.ends
    ]


@pytest.mark.parametrize(
    "text", [run("category: 6A", near="10GBASE-T"), run("category: twinax", near=None), run("category: 6A")]
)
def test_other_media_are_none(text: str) -> None:
    assert [] == list(fibre_links(build_facts(plan_of(text))))


def test_a_link_that_never_comes_up_has_no_length_to_judge() -> None:
    facts = build_facts(plan_of(run(fibre(), far="1000BASE-SX")))

    assert (1, 0) == (len(list(fibre_links(facts))), len(list(running_fibre_links(facts))))


@pytest.mark.parametrize(
    ("near", "far", "layers"),
    [
        ("10GBASE-SR", "10GBASE-SR", ("10GBASE-SR",)),
        ("10GBASE-SR", None, ("10GBASE-SR",)),
        (None, "10GBASE-SR", ("10GBASE-SR",)),
        ("10GBASE-BR10-U", "10GBASE-BR10-D", ("10GBASE-BR10-U",)),
        ("10GBASE-BR10-U", None, ("10GBASE-BR10-U",)),
        ("10GBASE-SR", "10GBASE-LR", ()),
        ("10GBASE-BR10-U", "10GBASE-BR10-U", ()),
    ],
)
def test_a_named_module_says_what_runs(near: str | None, far: str | None, layers: tuple[str, ...]) -> None:
    assert layers == the_link(run(fibre("OS2"), near=near, far=far, rates="[10G]")).layers


def test_without_a_module_everything_at_the_rates_of_the_ports_may_run() -> None:
    assert {"25GBASE-SR", "25GBASE-LR", "25GBASE-BR10-D", "25GBASE-BR10-U"} == set(
        the_link(run(fibre(), near=None, rates="[25G]")).layers
    )
    unrated = run(fibre(), near=None).replace(", rates: [10G]", "")
    assert tuple(optics()) == the_link(unrated).layers


# Typed from kb.wisc.edu/ns page 7829 and the Ethernet Alliance (June 2012)
@pytest.mark.parametrize(
    ("layer", "length_m", "grade"),
    [
        ("10GBASE-SR", 20, "OM4"),
        ("10GBASE-SR", 400, "OM4"),
        ("10GBASE-SR", 400.1, None),
        ("10GBASE-LR", 5, "OS2"),
        ("1000BASE-LX", 551, "OS2"),
    ],
)
def test_the_farthest_reach_is_of_the_fibre_that_loses_the_least(
    layer: str, length_m: float, grade: str | None
) -> None:
    found = farthest(rows_of(layer), length_m)

    assert grade == (None if found is None else found.grade)


def test_the_rows_of_a_layer_are_its_own() -> None:
    assert ["OM3", "OM4", "OM5"] == [row.grade for row in rows_of("25GBASE-SR")]
    assert {"25GBASE-SR"} == {row.phy for row in rows_of("25GBASE-SR")}


@pytest.mark.parametrize(
    ("layer", "grades", "length_m", "expected"),
    [
        ("10GBASE-LR", ("OM3",), 20, ("10GBASE-LRM", "OM3")),
        ("10GBASE-LR", ("OM3",), 220, ("10GBASE-LRM", "OM3")),
        ("10GBASE-LR", ("OM3",), 221, ("10GBASE-SR", "OM3")),
        ("10GBASE-LR", ("OM3", "OM2"), 82, ("10GBASE-SR", "OM2")),
        ("10GBASE-LR", ("OM2", "OM4"), 83, ("10GBASE-LRM", "OM2")),
        ("10GBASE-LR", ("OM3", "OS2"), 5, None),
        ("10GBASE-LR", (), 5, None),
        ("25GBASE-LR", ("OM2",), 5, None),
        ("25GBASE-SR", ("OS2",), 5, ("25GBASE-LR", "OS2")),
        ("10GBASE-SR", ("OM4",), 230, None),
    ],
)
def test_another_layer_at_the_rate_reaches_over_all_the_grades(
    layer: str, grades: tuple[str, ...], length_m: float, expected: tuple[str, str] | None
) -> None:
    found = other_layer(layer, grades, length_m)

    assert expected == (None if found is None else (found.phy, found.grade))


def test_another_layer_is_never_a_bidirectional_one() -> None:
    for layer in optics():
        for grade in FIBRE_GRADES:
            found = other_layer(layer, (grade,), 1)
            assert found is None or (optics()[found.phy].partner is None and found.phy != layer)


@pytest.mark.parametrize(
    ("length", "step"),
    [
        ("4000 m", "lay OS1 with 40GBASE-LR4 modules at both ends, good to 4 km"),
        ("4000.1 m", "lay OS2 with 40GBASE-LR4 modules at both ends, good to 10 km"),
        ("10000.1 m", "put a switch on the way"),
    ],
)
def test_other_fibre_is_advised_up_to_just_what_it_reaches(length: str, step: str) -> None:
    """IEEE 802.3 clause 87: 40GBASE-LR4 reaches 10 km; over OS1, which loses more, 4 km."""
    assert step == beyond_it(the_link(run(fibre("OM3", length), near="40GBASE-SR4")), "40GBASE-SR4")
