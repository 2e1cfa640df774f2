"""What to know or to ask before cable for walls is ordered."""

from __future__ import annotations

from typing import Any

import pytest
from wiring import cable, cage, device, jack, panel, seat, switch, vault, wired

from netaudit.model.plan import Port, Rack, RackPosition, Room
from netaudit.ordering.shop.shopping import shopping
from netaudit.ordering.shop.wall_remarks import wall_remarks

SOLID = "Cable in walls has solid conductors; jacks and plugs have to be made for those."


def remarks(*things: Any, **fields: Any) -> tuple[str, ...]:
    plan = wired(*things, **fields)
    return wall_remarks(plan, shopping(plan))


def asked(word: str, *things: Any, **fields: Any) -> list[str]:
    """The remarks that hold a word."""
    return [remark for remark in remarks(*things, **fields) if word in remark]


def tray(name: str) -> Any:
    return device(name, "panel", {str(n): Port("lc") for n in range(1, 5)})


def test_a_plan_of_short_cords_is_told_nothing() -> None:
    assert () == remarks(seat("cut-1"), vault(), cable("C1", "cut-1/wire", "vault/fast"))


def outlet(**fields: Any) -> Any:
    return device("p", "outlet", {"1": Port("rj45"), "2": Port("rj45")}, **fields)


STRAIGHT = (
    "W01 runs from the outlet p/1 straight to sw/1 and is bought with a plug at both ends: where it lies in a wall, let "
    "it end in a panel and use solid cable."
)


@pytest.mark.parametrize(("near", "far"), [("p/1", "sw/1"), ("sw/1", "p/1")])
def test_a_run_that_ends_at_a_switch_is_bought_as_a_cord_and_told(near: str, far: str) -> None:
    assert [STRAIGHT] == asked("straight", outlet(), switch("sw"), cable("W01", near, far, length_m=None))


@pytest.mark.parametrize(
    ("things", "fields"),
    [
        ((outlet(room="loft"), switch("sw", room="bay")), {"length_m": 3.0}),
        ((outlet(room="loft"), switch("sw", room="loft")), {"length_m": 3.0, "via": ("duct",)}),
        ((outlet(room="loft"), switch("sw", room="loft")), {"length_m": 11.0}),
        ((outlet(room="loft"), switch("sw", rack=RackPosition("bay", 1))), {"length_m": 3.0}),
    ],
    ids=["two rooms", "a route", "long", "a rack elsewhere"],
)
def test_what_leaves_the_room_or_is_long_may_lie_in_a_wall(things: tuple[Any, ...], fields: dict[str, Any]) -> None:
    racks = {"bay": Rack("bay", room="boat bay")}
    line = cable("W01", "p/1", "sw/1", **fields)
    assert [STRAIGHT] == asked("straight", *things, line, racks=racks)
    assert 1 == len(asked("asked for W01", *things, line, racks=racks))


def test_cords_at_a_desk_and_in_a_rack_are_no_runs() -> None:
    things = (
        outlet(room="loft"), switch("sw", room="loft"), seat("cut-1"), panel("rows"), panel("more"),
        cable("C1", "cut-1/wire", "p/1", length_m=3.0), cable("C2", "p/2", "sw/1", length_m=3.0),
        cable("C3", "rows/1", "sw/2", length_m=1.0), cable("C4", "cut-1/wire", "sw/3", length_m=30.0),
        cable("C5", "rows/2", "sw/4", length_m=30.0, cord_awg=26), cable("C6", "rows/3", "sw/5", owned=True, length_m=30.0),
    )  # fmt: skip
    assert [] == asked("straight", *things)


def test_several_such_runs_are_one_remark() -> None:
    lines = (cable("W01", "p/1", "sw/1", length_m=30.0), cable("W02", "rows/1", "sw/2", length_m=30.0))
    assert [
        "These are bought with a plug at both ends: W01 from the outlet p/1 straight to sw/1 and W02 from the panel "
        "rows/1 straight to sw/2. Where one lies in a wall, let it end in a panel and use solid cable."
    ] == asked("straight", outlet(), panel("rows"), switch("sw"), *lines)


def wall(**fields: Any) -> tuple[Any, ...]:
    return panel("a"), panel("b"), cable("W1", "a/1", "b/1", **fields)


def test_the_fire_class_of_cable_in_walls_is_a_question_for_the_local_code() -> None:
    """EN 50575 is the harmonised standard of the European Union for it; riser and plenum are ratings of NFPA 70."""
    assert (
        SOLID,
        "Ask the local code which fire class the jacket of cable in walls and ceilings must have (in Europe a Euroclass "
        "under EN 50575, in North America a rating such as riser or plenum): the bill cannot know. It is asked for W1. "
        "Where the code wants a licensed installer, that work is theirs.",
    ) == remarks(*wall())


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        (cable("F1", "t/1", "u/1", "OM4"), True),
        (cable("F1", "a/1", "b/1", "OM4", via=("duct",)), True),
        (cable("F1", "a/1", "loft/1", "OM4"), True),
        (cable("D1", "a/1", "loft/1", "active-optical"), True),
        (cable("C1", "a/2", "loft/2", cord_awg=24), True),
        (cable("F1", "a/1", "b/1", "OM4"), False),
        (cable("F1", "a/1", "nowhere/1", "OM4"), False),
        (cable("F1", "t/1", "u/1", "OM4", installed=True), False),
    ],
)
def test_any_cable_that_may_lie_in_a_wall_is_asked_for_its_fire_class(line: Any, expected: bool) -> None:
    ports = {"1": cage(), "2": jack()}
    things = (
        tray("t"), tray("u"), switch("a", ports, room="bay"), switch("b", ports, room="bay"),
        switch("loft", ports, room="loft"), switch("nowhere", ports),
    )  # fmt: skip
    assert expected is (f"It is asked for {line.name}." in " ".join(remarks(*things, line)))
    assert SOLID not in remarks(*things, line)


@pytest.mark.parametrize("fields", [{"screened": True}, {"category": "7"}, {"category": "8.2"}])
def test_screened_cable_has_its_earth_joined_by_somebody_licensed(fields: dict[str, Any]) -> None:
    (said,) = asked("licensed electrician", *wall(**fields))
    assert "joined to earth" in said
    assert [said] == asked("licensed electrician", *wall(**fields), cable("W2", "a/2", "b/2"))
    assert [] == asked("licensed electrician", *wall(**fields, owned=True))
    assert [] == asked("licensed electrician", *wall())


def test_cable_between_two_buildings_asks_for_a_jacket_for_outdoors_and_for_fibre() -> None:
    rooms = {"loft": Room("loft", "boathouse"), "barn": Room("barn", "barn"), "store": Room("store", "barn")}
    ends = (switch("core", room="loft"), switch("far", room="barn"), switch("near", room="store"))
    out = cable("U1", "core/1", "far/1")
    within = cable("U2", "far/2", "near/2")
    plan = wired(*ends, out, within, rooms=rooms)
    (told,) = [one for one in wall_remarks(plan, shopping(plan)) if "buildings: ask" in one]

    assert told.startswith("U1 runs between two buildings: ask for a jacket made for outdoors")
