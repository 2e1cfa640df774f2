"""The rule on sharing: the links of several seats add up to no more than what they cross."""

from __future__ import annotations

from typing import Any

import pytest
from rooms import found, gaps, places
from uplinks import ATTIC_TO_CORE, room
from wiring import G, aerial, cable, device, jack, seat, switch, vault, wired

import netaudit
from netaudit.model.plan import Bond, Device, Plan
from netaudit.model.report import Report
from netaudit.rules.paths.shared import SHARED_BEYOND_SEAT
from netaudit.units import both_rates_text

SHARED = "shared-beyond-seat"


def test_an_uplink_that_several_seats_share_names_them_and_both_sums() -> None:
    report = netaudit.check(room(seats=3))

    uplink, trunk = found(report, SHARED)
    assert "note" == uplink.severity
    assert ["port attic/8", "port core/8", "cable U1"] == places(uplink)
    assert (
        "cut-1, cut-2 and cut-3 share attic/8 to core/8: their own links add up to 30 Gb/s (3750 MB/s), "
        "and it is promised 10 Gb/s (1250 MB/s)" == uplink.message
    )
    assert "each gets about 3.33 Gb/s (417 MB/s)" in uplink.remedy
    assert ((30 * G, "bit/s"), (10 * G, "bit/s")) == (uplink.measured, uplink.limit)
    assert ["port core/1", "port vault/fast"] == places(trunk)[:2]


@pytest.mark.parametrize(("own", "up", "seats", "strikes"), [(5, 10, 2, False), (5, 10, 3, True), (10, 1, 1, False)])
def test_seats_whose_own_links_add_up_to_no_more_than_the_link_share_it_freely(
    own: float, up: float, seats: int, strikes: bool
) -> None:
    report = netaudit.check(room(own=own, up=up, seats=seats))

    assert (strikes, []) == (bool(found(report, SHARED)), gaps(report, SHARED))


def test_a_seat_with_two_storages_counts_once_by_each_of_its_own_links() -> None:
    boxes = [vault("one", {"fast": jack(10)}), vault("two", {"fast": jack(10)})]
    cut = seat("cut-1", {"wire": jack(10)})
    core, attic = switch("core"), switch("attic")
    cords = [cable("C1", "cut-1/wire", "attic/1"), cable("U1", "attic/8", "core/8")]
    ends = [cable("D1", "core/1", "one/fast"), cable("D2", "core/2", "two/fast")]

    assert [] == found(netaudit.check(wired(core, attic, cut, *boxes, *cords, *ends)), SHARED)
    other = seat("cut-2", {"wire": jack(1)})
    shared = found(
        netaudit.check(wired(core, attic, cut, other, *boxes, *cords, *ends, cable("C2", "cut-2/wire", "attic/2"))),
        SHARED,
    )
    assert [11 * G] * 3 == [finding.measured.value for finding in shared if finding.measured]


def test_what_a_seat_is_promised_counts_and_where_that_is_open_what_it_agrees_on() -> None:
    """Category 5e is promised 2.5 Gb/s (IEEE 802.3bz); of an unread jacket the ports' 10 Gb/s count."""

    def measured(category: Any) -> list[float]:
        plan = room(seats=2)
        cord = cable("C1", "cut-1/wire", "attic/1", category)
        report = netaudit.check(wired(*plan.devices.values(), cord, *list(plan.cables.values())[1:]))
        return [finding.measured.value for finding in found(report, SHARED) if finding.measured]

    assert [12.5 * G] * 2 == measured("5e")
    assert [20 * G] * 2 == measured("unknown")


def test_a_seat_of_unknown_rate_leaves_it_open_unless_the_others_are_enough() -> None:
    def plan(seats: int) -> Plan:
        made = room(seats=seats)
        mute = seat("mute", {"wire": jack()._replace(rates=None)})
        return wired(*made.devices.values(), mute, *made.cables.values(), cable("CX", "mute/wire", "attic/7"))

    (gap,) = set(gaps(netaudit.check(plan(1)), SHARED))
    assert ("The rates of mute/wire are not given", ["port mute/wire"]) == (gap.reason, places(gap))
    assert "add up to at least 20 Gb/s" in found(netaudit.check(plan(2)), SHARED)[0].message


def test_a_shared_link_whose_own_promise_is_open_lacks_that_fact() -> None:
    report = netaudit.check(room(cable("U1", "attic/8", "core/8", "unknown"), own=2.5, seats=2))

    (gap,) = gaps(report, SHARED)
    assert ("The category of U1 is not known", ["cable U1"]) == (gap.reason, places(gap))


def test_bonded_links_carry_together_what_their_members_do() -> None:
    def bonded(seats: int, both: bool = True) -> Report:
        plan = room(ATTIC_TO_CORE, cable("U2", "attic/9", "core/9"), seats=seats, far=10)
        bonds = {"trunk": Bond(("8", "9"))}

        def with_bond(device: Device) -> Device:
            from dataclasses import replace

            return (
                replace(device, bonds=bonds) if device.name in (("attic", "core") if both else ("attic",)) else device
            )

        return netaudit.check(wired(*map(with_bond, plan.devices.values()), *plan.cables.values()))

    def uplinks(report: Report) -> list[str]:
        return [finding.message for finding in found(report, SHARED) if "attic/8" in finding.message]

    assert [] == uplinks(bonded(2))
    assert uplinks(bonded(2, both=False))[0].endswith("and it is promised 10 Gb/s (1250 MB/s)")
    assert ["cut-1, cut-2 and cut-3 share attic/8 to core/8: their own links add up to 30 Gb/s (3750 MB/s), "
            "and the 2 links bonded there are promised 20 Gb/s (2500 MB/s)"] == uplinks(bonded(3))  # fmt: skip


def test_a_radio_that_several_seats_share_is_left_to_its_own_rule() -> None:
    base = device("beacon", "access-point", {"air": aerial(1.2), "a": jack(10), "b": jack(10)})
    plan = wired(
        base, seat("cut-1"), seat("cut-2"), vault("vault", {"air": aerial(1.2)}),
        cable("C1", "cut-1/wire", "beacon/a"), cable("C2", "cut-2/wire", "beacon/b"),
    )  # fmt: skip

    assert [] == found(netaudit.check(plan), SHARED)


def test_a_link_that_is_held_back_by_its_cables_has_their_source() -> None:
    (uplink, _) = found(netaudit.check(room(cable("U1", "attic/8", "core/8", "6", 60), seats=2)), SHARED)

    assert uplink.source.document.startswith("TIA TSB-155-A")
    assert uplink.source in SHARED_BEYOND_SEAT.sources()
    assert both_rates_text(5 * G) in uplink.message


def test_a_link_that_is_promised_nothing_leaves_nothing_to_share() -> None:
    report = netaudit.check(room(cable("U1", "attic/8", "core/8", "3"), up=1, seats=2))

    assert ([], []) == ([one for one in found(report, SHARED) if "attic/8" in one.message], gaps(report, SHARED))


def test_a_bonded_link_that_never_comes_up_adds_nothing() -> None:
    bonds = {"trunk": Bond(("8", "9"))}
    attic = switch("attic", {"1": jack(), "2": jack(), "8": jack(), "9": jack(2.5)}, bonds=bonds)
    core = switch("core", {"1": jack(), "8": jack(), "9": jack(10)}, bonds=bonds)
    ends = [
        ("cut-1/wire", "attic/1"),
        ("cut-2/wire", "attic/2"),
        ("attic/8", "core/8"),
        ("attic/9", "core/9"),
        ("core/1", "vault/fast"),
    ]
    cords = [cable(f"C{n}", *pair) for n, pair in enumerate(ends)]

    report = netaudit.check(wired(attic, core, seat("cut-1"), seat("cut-2"), vault(), *cords))

    assert found(report, SHARED)[0].message.endswith("and it is promised 10 Gb/s (1250 MB/s)")


def test_a_seat_on_the_storages_own_port_shares_nothing() -> None:
    plan = wired(seat("cut-1"), vault(), cable("C1", "cut-1/wire", "vault/fast"))

    assert [] == found(netaudit.check(plan), SHARED)
