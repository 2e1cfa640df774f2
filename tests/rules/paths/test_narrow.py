"""The rule on narrow places: nothing beyond a seat's own link is promised less than it."""

from __future__ import annotations

import pytest
from rooms import found, gaps, places, report_of
from uplinks import room
from wiring import G, aerial, cable, cage, device, jack, many, network, panel, seat, switch, vault, wired

import netaudit
from netaudit.rules.facts import build_facts
from netaudit.rules.paths.narrow import NARROW_BEYOND_SEAT
from netaudit.standards.copper import copper_reach
from netaudit.standards.phys import phys

NARROW, SHARED = "narrow-beyond-seat", "shared-beyond-seat"


def test_an_uplink_that_is_narrower_than_the_seats_own_link_is_named_with_what_would_widen_it() -> None:
    (finding,) = found(netaudit.check(room(up=1)), NARROW)

    assert "warn" == finding.severity
    assert ["path cut-1 > vault", "link attic/8 - core/8", "cable U1"] == places(finding)
    assert (
        "cut-1's own link is promised 10 Gb/s (1250 MB/s), but further on attic/8 to core/8 is promised "
        "1 Gb/s (125 MB/s)" == finding.message
    )
    assert "attic/8 runs at most 1 Gb/s (125 MB/s): use attic/2, which is free and runs 10 Gb/s" in finding.remedy
    assert "core/8 runs at most" in finding.remedy
    assert finding.measured is not None
    assert finding.limit is not None
    assert ((G, "bit/s"), (10 * G, "bit/s")) == (finding.measured, finding.limit)
    assert "plan" == finding.source.standing


@pytest.mark.parametrize(
    ("own", "up", "far", "strikes"), [(10, 10, 10, False), (1, 10, 10, False), (5, 2.5, 10, True), (10, 10, 5, True)]
)
def test_only_what_is_promised_less_than_the_seats_own_link_strikes(
    own: float, up: float, far: float, strikes: bool
) -> None:
    assert strikes == bool(found(netaudit.check(room(own=own, up=up, far=far)), NARROW))


def test_of_two_narrow_places_the_narrowest_is_named_and_both_are_to_be_widened() -> None:
    (finding,) = found(netaudit.check(room(up=2.5, far=1)), NARROW)

    assert "link core/1 - vault/fast" == places(finding)[1]
    assert all(port in finding.remedy for port in ("attic/8 runs", "vault/fast runs"))


def test_a_narrow_link_that_lacks_nothing_but_cable_gets_better_cable_and_its_source() -> None:
    """IEEE 802.3an asks category 6 at least of 10GBASE-T; 5e is promised 2.5 Gb/s by IEEE 802.3bz."""
    (finding,) = found(netaudit.check(room(cable("U1", "attic/8", "core/8", "5e"))), NARROW)

    assert "is promised 2.5 Gb/s (312 MB/s)" in finding.message
    assert finding.remedy.startswith("Replace U1 by category 6A")


@pytest.mark.parametrize("key", sorted(copper_reach()), ids=str)
def test_an_uplink_strikes_one_step_past_what_its_category_is_promised_and_not_at_it(
    key: tuple[str, str, bool],
) -> None:
    row = copper_reach()[key]
    rate = phys()[row.phy].rate_bit_per_s
    ports = [jack(rate / G), jack(rate / G)]

    def judged(length_m: float) -> bool:
        wire = cable("U1", "attic/2", "core/2", row.category, length_m, screened=row.screened, installed=True)  # type: ignore[arg-type]
        plan = wired(
            switch("attic", {"1": ports[0], "2": ports[1]}), switch("core", {"1": ports[0], "2": ports[1]}),
            seat("cut-1", {"wire": ports[0]}), vault("vault", {"fast": ports[0]}), wire,
            cable("C1", "cut-1/wire", "attic/1", "8.2", 5, screened=True, installed=True),
            cable("C2", "core/1", "vault/fast", "8.2", 5, screened=True, installed=True),
        )  # fmt: skip
        report = netaudit.check(plan)
        return bool(found(report, NARROW)) or bool(gaps(report, NARROW))

    if row.assured_m is not None:
        assert not judged(row.assured_m)
    assert judged(row.possible_m + 0.01)


def test_what_bounds_decide_is_told_though_a_fact_is_missing() -> None:
    """An unread jacket leaves open what the seat's link is promised, but never that 1 Gb/s is under 2.5 Gb/s."""
    cord = cable("C1", "cut-1/wire", "attic/1", "unknown")
    plan = room(up=1)
    plan = wired(*plan.devices.values(), cord, *list(plan.cables.values())[1:])

    report = netaudit.check(plan)

    (gap,) = gaps(report, NARROW)
    assert ["path cut-1 > vault", "cable C1"] == places(gap)
    assert "The category of C1 is not known" == gap.reason
    assert gap.decides.startswith("read the jacket of C1")


def test_an_uplink_that_nobody_read_is_not_checked_and_told_once_with_the_rule_on_rates() -> None:
    report = netaudit.check(room(cable("U1", "attic/8", "core/8", "unknown"), wants_bit_per_s=10 * G))

    (gap,) = gaps(report, NARROW)
    (other,) = gaps(report, "path-below-target")
    assert (other.reason, other.decides, other.where) == (gap.reason, gap.decides, gap.where)


def test_rates_that_are_not_given_bound_nothing() -> None:
    cut = seat("cut-1", {"wire": jack()._replace(rates=None)})
    core = switch("core", many(4, jack()._replace(rates=None)))
    plan = wired(core, cut, vault(), cable("C1", "cut-1/wire", "core/1"), cable("C2", "core/2", "vault/fast"))

    (gap,) = gaps(netaudit.check(plan), NARROW)

    assert "The rates of core/2 are not given" == gap.reason


def test_a_link_that_may_be_narrower_at_most_is_told_so() -> None:
    cut = seat("cut-1", {"wire": jack(10)})
    core = switch("core", {"1": jack(), "2": jack()._replace(rates=None)})
    plan = wired(
        core, cut, vault("vault", {"slow": jack(1)}),
        cable("C1", "cut-1/wire", "core/1"), cable("C2", "core/2", "vault/slow"),
    )  # fmt: skip

    (finding,) = found(netaudit.check(plan), NARROW)

    assert "core/2 to vault/slow never has more than 1 Gb/s (125 MB/s)" in finding.message


def test_a_link_that_is_promised_nothing_is_told_so() -> None:
    (finding,) = found(netaudit.check(room(cable("U1", "attic/8", "core/8", "3"), up=1)), NARROW)

    assert "is promised no rate at all" in finding.message


def test_a_seat_on_the_storages_own_port_has_nothing_beyond_its_link() -> None:
    plan = wired(seat("cut-1"), vault("vault", {"fast": jack(1)}), cable("C1", "cut-1/wire", "vault/fast"))

    assert [] == found(netaudit.check(plan), NARROW)
    assert NARROW not in {gap.rule for gap in netaudit.check(plan).not_checked}
    assert [] == list(NARROW_BEYOND_SEAT.subjects(build_facts(plan)))


def test_a_radio_is_promised_nothing_at_the_seat_and_left_to_its_own_rule_beyond() -> None:
    base = device("beacon", "access-point", {"air": aerial(1.2), "lan": jack(0.1)})
    air_seat = wired(base, seat("cut-1", {"air": aerial(1.2)}), vault(), cable("C1", "beacon/lan", "vault/fast"))
    air_vault = wired(
        base, seat("cut-1"), vault("vault", {"air": aerial(0.05)}), cable("C1", "beacon/lan", "cut-1/wire")
    )

    for plan in (air_seat, air_vault):
        report = netaudit.check(plan)
        assert ([], []) == (found(report, NARROW), gaps(report, NARROW))


def test_passive_ports_on_the_way_change_nothing() -> None:
    plate = panel("plate")
    plan = room(cable("U1", "attic/8", "plate/1"), cable("U2", "plate/1", "core/8"), up=1)

    (finding,) = found(netaudit.check(wired(plate, *plan.devices.values(), *plan.cables.values())), NARROW)

    assert ["cable U1", "cable U2"] == places(finding)[2:]


def test_four_seats_on_one_switch_with_a_gateway_and_an_archive_box_are_told_no_fault() -> None:
    flat = network("flat", "192.168.44.0/24", "192.168.44.1")
    seats = [seat(f"cut-{n}", {"wire": jack(10, untagged="flat")}) for n in range(1, 5)]
    cords = [cable(f"C{n}", f"cut-{n}/wire", f"core/{n}") for n in range(1, 5)]
    box = vault("vault", {"fast": cage(10, untagged="flat")})
    archive = vault("shelf", {"lan": jack(1, untagged="flat")}, purpose="archive")
    core = switch("core", {**many(8, jack()), "up": cage()})
    plan = wired(
        flat, *seats, core, box, archive, *cords,
        cable("D1", "core/up", "vault/fast", "twinax", 1), cable("C9", "core/8", "shelf/lan"),
    )  # fmt: skip

    own = {NARROW, "wrong-network", "router-in-path", "planned-road-is-radio", "second-road-open", "route-ambiguous"}
    report = netaudit.check(plan)
    assert own.isdisjoint(finding.rule for finding in report.findings)
    assert own.isdisjoint(gap.rule for gap in report.not_checked)
    assert ["note"] == [finding.severity for finding in found(report, SHARED)]


def test_the_bus_of_an_adapter_is_not_the_seats_own_link() -> None:
    """Thunderbolt 3 gives an adapter 22 Gb/s; its network port of 10 Gb/s is the seat's own link."""
    text = """\
netaudit: 1
devices:
  cut-1: {role: station, ports: {host: {connector: thunderbolt, bus: thunderbolt 3}}}
  dongle: {role: adapter, bridges: [host, lan], ports: {host: {connector: thunderbolt}, lan: {connector: rj45, rates: up to 10G}}}
  core: {role: switch, ports: {1: {connector: rj45, rates: up to 10G}, 2: {connector: rj45, rates: RATE}}}
  vault: {role: storage, ports: {fast: {connector: rj45, rates: up to 10G}}}
cables:
  H01: {from: cut-1/host, to: dongle/host, category: thunderbolt, length: 0.5 m}
  C01: {from: dongle/lan, to: core/1, category: 6A, length: 3 m}
  C02: {from: core/2, to: vault/fast, category: 6A, length: 3 m}
"""
    even, narrow = (report_of(text.replace("RATE", rate)) for rate in ("up to 10G", "up to 1G"))

    assert [] == found(even, "narrow-beyond-seat")
    (finding,) = found(narrow, "narrow-beyond-seat")
    assert finding.message.startswith("cut-1's own link is promised 10 Gb/s (1250 MB/s), but further on core/2")
