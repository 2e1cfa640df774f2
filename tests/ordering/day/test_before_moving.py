"""Moving day in sentences: each caution only where it applies, and the order in which to switch on again."""

from __future__ import annotations

from dataclasses import replace

import pytest
from wiring import aerial, cable, device, jack, panel, seat, switch, vault, wired

from netaudit.model.plan import Cable, Plan, Rack, RackPosition
from netaudit.network.topology import build_topology
from netaudit.ordering.day.before_moving import after_moving, before_moving

ROOM = wired(
    seat("cut-1"), switch("core", rack=RackPosition("bay", 9)), vault(),
    cable("C01", "cut-1/wire", "core/1", owned=True), cable("D01", "core/7", "vault/fast"),
    racks={"bay": Rack("bay", 12)},
)  # fmt: skip
PULLING = ("Finish every copy", "Eject the shares", "its own menu", "Photograph", "temporary label")


def between(cord: Cable, *devices: str) -> Plan:
    """Two machines and a cord, in a room with others of some roles."""
    others = [device(f"{role}-{number}", role, {"1": jack()}) for number, role in enumerate(devices)]  # type: ignore[arg-type]
    return wired(device("a", "other", {"1": jack()}), device("b", "other", {"1": jack()}), *others, cord)


def test_a_storage_is_shut_down_by_its_menu_after_the_seats_and_before_any_plug_is_pulled() -> None:
    told = before_moving(ROOM, build_topology(ROOM))
    seats, storage = (
        next(told.index(one) for one in told if word in one) for word in ("shut down the seats", "its own menu")
    )

    assert seats < storage
    assert 9 == len(told)
    for words in ("Finish every copy", "Photograph both ends", "temporary label on both ends", "nothing else",
                  "by the jacket", "two people", "licensed practice and the local code"):  # fmt: skip
        assert any(words in one for one in told)


def test_nothing_is_said_about_pulling_plugs_where_nobody_owns_a_cable_that_is_plugged() -> None:
    new = replace(ROOM, cables={name: one._replace(owned=None) for name, one in ROOM.cables.items()})
    wall = cable("W01", "plate/1", "bay/1", owned=True)
    laid = replace(
        new, devices={**new.devices, "plate": panel("plate"), "bay": panel("bay")}, cables={**new.cables, "W01": wall}
    )

    assert all(any(word in one for one in before_moving(ROOM, build_topology(ROOM))) for word in PULLING)
    for plan in (new, laid):
        assert not any(
            word in one for one in before_moving(plan, build_topology(plan)) for word in (*PULLING, "pulled")
        )
        assert 4 == len(before_moving(plan, build_topology(plan)))


def test_cautions_are_told_only_where_they_apply() -> None:
    copper = wired(
        seat("cut-1", {"wire": jack(), "air": aerial()}), switch("core"),
        cable("C01", "cut-1/wire", "core/1", owned=True),
    )  # fmt: skip
    light = replace(copper, cables={"F01": cable("F01", "cut-1/wire", "core/1", "OM4")})
    mixed = replace(copper, cables={**copper.cables, **light.cables})
    bare = between(cable("X01", "a/1", "b/1", owned=True))

    assert not any(
        word in one
        for one in before_moving(copper, build_topology(copper))
        for word in ("fibre", "two people", "storage")
    )
    assert any("never look into a fibre" in one for one in before_moving(light, build_topology(light)))
    assert any("never look into a fibre" in one for one in before_moving(mixed, build_topology(mixed)))
    assert not any(
        word in one
        for one in before_moving(bare, build_topology(bare))
        for word in ("seats", "storage", "what is listed")
    )


def test_what_joins_the_others_is_switched_on_first_and_the_seats_last() -> None:
    assert after_moving(ROOM) == (
        "Switch on what joins the others, such as switches and routers, and wait for the links between them.",
        "Then switch on the storage, and wait until its own menu says that it is ready.",
        "Then start the seats, one after the other, and set and mount what their address cards say.",
        "Then go through the acceptance sheet cable by cable, and give it back to `netaudit cables` by --accept.",
    )


@pytest.mark.parametrize("role", ["switch", "router", "access-point"])
def test_whatever_joins_others_is_switched_on_first(role: str) -> None:
    assert after_moving(between(cable("X01", "a/1", "b/1"), role))[0].startswith("Switch on what joins the others")


def test_what_a_room_does_not_have_is_not_switched_on() -> None:
    cord = cable("X01", "a/1", "b/1")

    assert [["Go through"], ["Switch on the storage", "Then go"], ["Start the seats", "Then go"]] == [
        [sentence[: len(start)] for sentence, start in zip(after_moving(between(cord, *roles)), starts, strict=True)]
        for roles, starts in (
            ((), ["Go through"]),
            (("storage",), ["Switch on the storage", "Then go"]),
            (("station",), ["Start the seats", "Then go"]),
        )
    ]


def test_where_every_cable_stays_nothing_is_moved() -> None:
    still = replace(ROOM, cables={"W01": cable("W01", "cut-1/wire", "core/1", installed=True, owned=True)})

    assert ((), ()) == (before_moving(still, build_topology(still)), after_moving(still))


def test_switches_in_a_ring_run_their_tree_before_the_second_cable_closes_it() -> None:
    lines = [cable(f"U{n}", f"core/{n}", f"{{far}}/{n}", owned=True) for n in (1, 2)]
    ring = wired(switch("core"), switch("{far}"), *lines)
    (told,) = [one for one in before_moving(ring, build_topology(ring)) if "ring:" in one]

    assert told.startswith("core and {far} stand in a ring")
    assert not any("ring:" in one for one in before_moving(ROOM, build_topology(ROOM)))
