"""The rule on steps in rate, on the roads that films really take."""

from __future__ import annotations

import pytest
from rooms import found, places, report_of, room
from wiring import G, aerial, cable, cage, device, jack, network, seat, switch, vault, wired

from netaudit.audit import audit
from netaudit.model.finding import Finding
from netaudit.model.plan import Cable, Port
from netaudit.rules.ports.steps import SPEED_STEP_DOWN


def steps(*things: object) -> list[Finding]:
    return found(audit(wired(*things)), "speed-step-down")  # type: ignore[arg-type]


def row(desk: Port, up: Port, down: Port, store: Port) -> list[Finding]:
    """A seat, two switches and a storage in a row; the link between the switches joins `up` and `down`."""
    return steps(
        seat("cut-1", {"wire": desk}), switch("desk", {"1": jack(25, 10, 5, 2.5, 1), "2": up}),
        switch("bay", {"1": down, "2": jack(25, 10, 5, 2.5, 1)}), vault(ports={"fast": store}),
        cable("C1", "cut-1/wire", "desk/1", "8.1", 5.0), cable("U1", "desk/2", "bay/1", "8.1", 5.0),
        cable("C2", "bay/2", "vault/fast", "8.1", 5.0),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("desk", "between", "store", "leaving"),
    [
        (1, 10, 10, ["desk/1"]),
        (10, 1, 10, ["bay/1"]),
        (10, 10, 1, []),
        (10, 10, 10, []),
        (1, 2.5, 10, ["desk/1", "bay/1"]),
        (25, 10, 5, []),
        (5, 5, 10, ["bay/1"]),
    ],
)
def test_a_step_is_noted_at_the_port_by_which_films_leave_slower_than_they_came(
    desk: float, between: float, store: float, leaving: list[str]
) -> None:
    findings = row(jack(desk), jack(between), jack(between), jack(store))

    assert [f"port {port}" for port in leaving] == [places(finding)[0] for finding in findings]
    assert {"note"} >= {finding.severity for finding in findings}


def test_the_note_names_both_ports_both_rates_and_how_to_tell() -> None:
    (finding,) = row(jack(1), jack(10), jack(10), jack(10))

    assert ["port desk/1", "port desk/2"] == places(finding)
    assert (
        "What comes in at desk/2 with 10 Gb/s (1250 MB/s) leaves at desk/1 with 1 Gb/s (125 MB/s): "
        "desk has to hold each burst or drop it" == finding.message
    )
    assert (
        "Copy a large file both ways over desk/1: where reading is far slower than writing, a faster link there is "
        "the cure; where both run alike, leave it as it is." == finding.remedy
    )
    assert ((10 * G, "bit/s"), (G, "bit/s")) == (finding.measured, finding.limit)
    assert ("secondary", (finding.source,)) == (finding.source.standing, tuple(SPEED_STEP_DOWN.sources()))


def two_stores(first: float, second: float) -> list[Finding]:
    core = switch("core", {"1": jack(1), "2": jack(25, 10, 5, 2.5, 1), "3": jack(25, 10, 5, 2.5, 1)})
    stores = [vault("one", {"fast": jack(first)}), vault("two", {"fast": jack(second)})]
    lines: list[Cable] = [
        cable("C1", "cut-1/wire", "core/1"),
        cable("C2", "core/2", "one/fast", "8.1"),
        cable("C3", "core/3", "two/fast", "8.1"),
    ]
    return steps(seat("cut-1", {"wire": jack(1)}), core, *stores, *lines)


@pytest.mark.parametrize(("first", "second", "arriving"), [(10, 5, "core/2"), (5, 10, "core/3"), (10, 10, "core/2")])
def test_of_several_ports_that_films_come_in_by_the_fastest_is_named_once(
    first: float, second: float, arriving: str
) -> None:
    (finding,) = two_stores(first, second)

    assert ["port core/1", f"port {arriving}"] == places(finding)


def test_an_unknown_rate_on_either_side_is_no_step() -> None:
    assert [] == row(jack(1), jack(10), Port(connector="rj45"), jack(1))
    assert [] == row(Port(connector="rj45"), jack(10), jack(10), jack(10))


def test_a_road_that_is_not_the_planned_one_and_a_box_nobody_edits_from_are_no_steps() -> None:
    core = switch("core", {"1": jack(), "2": jack(), "3": jack()})
    old = vault("archive", {"slow": jack(1)}, purpose="archive")
    lines = [
        cable("C1", "cut-1/wire", "core/1"),
        cable("C2", "core/2", "vault/fast"),
        cable("C3", "core/3", "archive/slow"),
    ]
    assert [] == steps(seat("cut-1"), core, vault(), old, *lines)

    two_wires = seat("cut-1", {"wire": jack(10), "spare": jack(1)})
    spare = cable("C4", "cut-1/spare", "core/3")
    assert [] == steps(two_wires, core, vault(), *lines[:2], spare)


def test_a_seat_cabled_to_its_storage_has_nothing_between() -> None:
    assert [] == steps(seat("cut-1", {"wire": jack(10, 1)}), vault(ports={"fast": cage(10)}), cable("C1", "cut-1/wire", "vault/fast"))  # fmt: skip


def one_core(store: float, *desks: float) -> list[Finding]:
    """Seats on one switch, and a storage that serves them all through core/9."""
    ports = {str(number): jack(desk) for number, desk in enumerate(desks, 1)}
    core = switch("core", {**ports, "9": jack(store)})
    seats = [seat(f"cut-{number}", {"wire": jack(desk)}) for number, desk in enumerate(desks, 1)]
    lines = [cable(f"C{number}", f"cut-{number}/wire", f"core/{number}") for number in range(1, len(desks) + 1)]
    return steps(*seats, core, vault(ports={"fast": jack(store)}), *lines, cable("C9", "core/9", "vault/fast", "8.1"))


def test_four_desks_behind_one_fast_port_are_one_note_that_names_them_all() -> None:
    (finding,) = one_core(25, 10, 10, 10, 10)

    assert ["port core/1", "port core/9", "port core/2", "port core/3", "port core/4"] == places(finding)
    assert finding.message.startswith(
        "What comes in at core/9 with 25 Gb/s (3125 MB/s) leaves at core/1, core/2, core/3 and core/4 "
        "with 10 Gb/s (1250 MB/s): core has to hold"
    )
    assert "over core/1, core/2, core/3 or core/4: where" in finding.remedy
    assert "25 Gb/s" not in finding.remedy


def test_the_slowest_desk_leads_and_one_as_fast_as_the_storage_is_left_out() -> None:
    (finding,) = one_core(10, 5, 10, 1, 5)

    assert ["port core/3", "port core/9", "port core/1", "port core/4"] == places(finding)
    assert "leaves at core/3, core/1 and core/4 with as little as 1 Gb/s (125 MB/s): " in finding.message
    assert (1 * G, "bit/s") == finding.limit


def test_two_fast_ports_that_feed_two_desks_are_two_notes() -> None:
    core = switch("core", {"1": jack(1), "2": jack(1), "3": jack(10), "4": jack(10)})
    stores = [vault("one", {"fast": jack(10)}), vault("two", {"fast": jack(10)})]
    seats = [seat(f"cut-{n}", {"wire": jack(1)}, edits_from=(store,)) for n, store in ((1, "one"), (2, "two"))]
    lines = [
        cable("C1", "cut-1/wire", "core/1"),
        cable("C2", "cut-2/wire", "core/2"),
        cable("C3", "core/3", "one/fast"),
        cable("C4", "core/4", "two/fast"),
    ]
    found_there = steps(*seats, core, *stores, *lines)

    assert [["port core/1", "port core/3"], ["port core/2", "port core/4"]] == [places(each) for each in found_there]


def test_a_step_into_the_air_is_none_since_every_radio_is_one() -> None:
    things = [
        network("media"),
        seat("cut-1", {"air": aerial(1.2, untagged="media")}),
        device("ap", "access-point", {"wire": jack(), "air": aerial(1.2, untagged="media")}),
        vault(ports={"fast": jack(untagged="media")}),
        cable("C1", "ap/wire", "vault/fast"),
    ]

    assert [] == steps(*things)


def test_a_room_of_one_rate_is_silent() -> None:
    assert [] == found(report_of(room()), "speed-step-down")
