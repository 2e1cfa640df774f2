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
        "Give the link at desk/1 10 Gb/s (1250 MB/s) as well, or copy a large file both ways: "
        "where one way is far slower than the other, this is the place." == finding.remedy
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


def test_a_step_into_the_air_counts_as_well() -> None:
    things = [
        network("media"),
        seat("cut-1", {"air": aerial(1.2, untagged="media")}),
        device("ap", "access-point", {"wire": jack(), "air": aerial(1.2, untagged="media")}),
        vault(ports={"fast": jack(untagged="media")}),
        cable("C1", "ap/wire", "vault/fast"),
    ]

    assert ["port ap/air"] == [places(finding)[0] for finding in steps(*things)]


def test_a_room_of_one_rate_is_silent() -> None:
    assert [] == found(report_of(room()), "speed-step-down")
