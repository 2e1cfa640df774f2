"""Rules about the largest packet."""

from __future__ import annotations

from typing import Any

import pytest
from rooms import found, gaps, places
from wiring import aerial, cable, device, jack, many, network, seat, switch, vault, wired

import netaudit
from netaudit.model.finding import Measure
from netaudit.model.plan import Bond, Cable, Device, Network
from netaudit.model.report import Report
from netaudit.rules.addresses.packets import MTU_DIFFERS, MTU_MIXED, taken_for_granted
from netaudit.rules.facts import build_facts

MIXED, DIFFERS = "mtu-mixed", "mtu-differs"
CABLES = (cable("C01", "cut-1/wire", "core/1"), cable("C02", "vault/fast", "core/2"))


def report(near: int | None, far: int | None, *core: int | None, planned: int | None = None) -> Report:
    """A seat and a storage on a switch: packets of both, of the switch's ports, and the one that is planned."""
    return netaudit.check(
        wired(
            network("media", "10.44.20.0/24", mtu=planned),
            seat("cut-1", {"wire": jack(untagged="media", mtu=near)}),
            switch("core", {str(nth): jack(mtu=mtu) for nth, mtu in enumerate(core, start=1)}),
            vault("vault", {"fast": jack(untagged="media", mtu=far)}),
            *CABLES,
        )
    )


def test_a_switch_that_passes_less_than_both_ends_send_fails_on_that_path() -> None:
    (finding,) = found(report(9000, 9000, 9216, 1500), MIXED)

    assert ["path cut-1 > vault", "port core/2"] == places(finding)
    assert (
        "cut-1/wire and vault/fast send packets of 9000 octets, and core/2 between them passes 1500 at the most"
        == finding.message
    )
    assert "Let core/2 pass 9000 octets or more, or set cut-1/wire and vault/fast to 1500." == finding.remedy
    assert ("fail", "plan") == (finding.severity, finding.source.standing)
    assert (Measure(1500, "octets"), Measure(9000, "octets")) == (finding.measured, finding.limit)


def test_the_narrowest_port_is_named_first_and_every_narrow_one_in_the_remedy() -> None:
    (finding,) = found(report(9000, 9000, 4000, 1500), MIXED)

    assert ["path cut-1 > vault", "port core/2", "port core/1"] == places(finding)
    assert finding.remedy.startswith("Let core/1 and core/2 pass 9000 octets or more")


@pytest.mark.parametrize(("passed", "mixed"), [(8999, True), (9000, False), (9216, False)])
def test_as_much_as_the_ends_send_is_enough_and_more_is_right(passed: int, mixed: bool) -> None:
    """IEEE 802.3 leaves more than 1500 octets to agreement; the packet itself, as the ends count it, must pass."""
    told = report(9000, 9000, passed, passed)

    assert mixed == bool(found(told, MIXED))
    assert [] == gaps(told, MIXED)


def test_the_smaller_packet_of_the_two_ends_is_the_one_that_must_pass() -> None:
    assert [] == found(report(9000, 1500, 1500, 1500), MIXED)
    assert [] == found(report(1500, 9000, 1500, 1500), MIXED)
    (finding,) = found(report(9000, 4000, 3999, 9000), MIXED)
    assert Measure(4000, "octets") == finding.limit


@pytest.mark.parametrize(("near", "far"), [(1500, 1500), (1400, 9000), (None, None), (1500, None)])
def test_every_port_passes_1500_octets_so_that_a_silent_switch_is_fine(near: int | None, far: int | None) -> None:
    """IEEE 802.3 clause 3.2.7: a basic frame carries 1500 octets."""
    told = report(near, far, None, None)

    assert [] == found(told, MIXED)
    assert [] == gaps(told, MIXED)


def test_a_silent_switch_between_large_packets_is_left_open() -> None:
    (gap,) = gaps(report(1501, 9000, None, 9216), MIXED)

    assert ["path cut-1 > vault", "device core"] == places(gap)
    assert "The largest packet that core passes is not given" == gap.reason
    assert "read the largest frame in the settings of core: packets of 1501 octets must pass" == gap.decides


def test_several_silent_devices_are_named_together() -> None:
    plan = wired(
        seat("cut-1", {"wire": jack(mtu=9000)}), switch("desk"), switch("core"), vault("vault", {"fast": jack(mtu=9000)}),
        cable("C01", "cut-1/wire", "desk/1"), cable("U01", "desk/2", "core/2"), cable("C02", "vault/fast", "core/1"),
    )  # fmt: skip

    (gap,) = gaps(netaudit.check(plan), MIXED)

    assert ["path cut-1 > vault", "device desk", "device core"] == places(gap)
    assert "The largest packet that desk and core pass is not given" == gap.reason


@pytest.mark.parametrize(("planned", "is_open"), [(None, True), (8999, True), (9000, False), (9216, False)])
def test_a_plan_for_the_network_counts_for_what_says_nothing_itself(planned: int | None, is_open: bool) -> None:
    assert is_open == bool(gaps(report(9000, 9000, None, None, planned=planned), MIXED))
    assert 1 == len(found(report(9000, 9000, 1500, None, planned=planned), MIXED))


def test_an_end_that_says_nothing_leaves_it_open_where_it_matters() -> None:
    (gap,) = gaps(report(9000, None, 1500, 1500), MIXED)
    assert ["path cut-1 > vault", "port vault/fast"] == places(gap)
    assert "The largest packet of vault/fast is not given" == gap.reason
    assert (
        "read it in the settings of vault/fast and write it down as `mtu`: cut-1/wire uses 9000 octets" == gap.decides
    )
    (gap,) = gaps(report(None, 9000, None, None), MIXED)
    assert ["path cut-1 > vault", "port cut-1/wire"] == places(gap)
    assert gap.decides.endswith("vault/fast uses 9000 octets")
    assert [] == gaps(report(9000, None, 9216, 9216), MIXED)
    assert [] == gaps(report(9000, None, None, None, planned=9000), MIXED)


def test_a_bond_sets_the_packets_of_its_members() -> None:
    pair = {"one": jack(mtu=1500), "two": jack()}
    plan = wired(
        seat("cut-1", {"wire": jack(mtu=9000)}), switch("core", many(4, jack(mtu=9216))),
        vault("vault", pair, bonds={"idle": Bond(("two",)), "pair": Bond(("one",), mtu=9000)}),
        cable("C01", "cut-1/wire", "core/1"), cable("C02", "vault/one", "core/2"),
    )  # fmt: skip

    assert [] == found(netaudit.check(plan), DIFFERS)


def routed(**planned: Any) -> tuple[Device | Network | Cable, ...]:
    """A seat in the office and a storage in media, joined by a router that says nothing of its packets."""
    media = network("media", "10.44.20.0/24", "10.44.20.1", mtu=planned.get("media"))
    office = network("office", "192.168.44.0/24", "192.168.44.1", mtu=planned.get("office"))
    return (
        media, office, seat("cut-1", {"wire": jack(untagged="office", mtu=9000)}),
        device("router", "router", {"in": jack(untagged="office"), "out": jack(untagged="media")}),
        vault("vault", {"fast": jack(untagged="media", mtu=9000)}),
        cable("C01", "cut-1/wire", "router/in"), cable("C02", "vault/fast", "router/out"),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("office", "media", "is_open"),
    [(9000, 9000, False), (9000, None, True), (None, 9000, True), (1500, 9000, True), (9000, 1500, True)],
)
def test_through_a_router_both_networks_must_be_planned_for_it(
    office: int | None, media: int | None, is_open: bool
) -> None:
    told = netaudit.check(wired(*routed(office=office, media=media)))

    assert is_open == bool(gaps(told, MIXED))


def test_a_path_without_a_network_has_no_plan() -> None:
    plan = wired(
        seat("cut-1", {"wire": jack(mtu=9000)}), switch("core"), vault("vault", {"fast": jack(mtu=9000)}), *CABLES
    )

    assert 1 == len(gaps(netaudit.check(plan), MIXED))


def test_ends_of_different_packets_warn() -> None:
    (finding,) = found(report(1500, 9000, 9216, 9216), DIFFERS)

    assert ["path cut-1 > vault", "port cut-1/wire", "port vault/fast"] == places(finding)
    assert "cut-1/wire uses packets of 1500 octets and vault/fast of 9000: they settle on 1500" == finding.message
    assert (
        "Set cut-1/wire and vault/fast to the same: 9000 if everything between them passes it, or 1500."
        == finding.remedy
    )
    assert ("warn", "plan") == (finding.severity, finding.source.standing)
    assert (Measure(1500, "octets"), Measure(9000, "octets")) == (finding.measured, finding.limit)
    assert 1 == len(found(report(9001, 9000, 9216, 9216), DIFFERS))
    assert [] == found(report(9000, 9000, 9216, 9216), DIFFERS)


@pytest.mark.parametrize(("known", "is_open"), [(1499, False), (1500, False), (1501, True), (9000, True)])
def test_an_unknown_end_matters_only_beside_a_large_packet(known: int, is_open: bool) -> None:
    for told in (report(known, None, 9216, 9216), report(None, known, 9216, 9216)):
        assert is_open == bool(gaps(told, DIFFERS))
        assert [] == found(told, DIFFERS)


def test_ends_that_both_say_nothing_and_seats_without_a_road_are_not_asked() -> None:
    silent = wired(seat("cut-1"), switch("core"), vault(), *CABLES)
    apart = wired(seat("cut-1", {"wire": jack(mtu=9000)}), vault("vault", {"fast": jack(mtu=1500)}))

    for plan in (silent, apart):
        assert [] == [*MTU_MIXED.subjects(build_facts(plan)), *MTU_DIFFERS.subjects(build_facts(plan))]


def test_only_the_planned_path_is_asked() -> None:
    plan = wired(
        network("media", purpose="storage"), network("office"),
        seat("cut-1", {"wire": jack(untagged="media", mtu=9000), "air": aerial(1, untagged="office", mtu=1500)}),
        switch("core", many(4, jack(mtu=9216))),
        device("beacon", "access-point", {"air": aerial(1, untagged="office"), "wire": jack(untagged="office")}),
        vault("vault", {"fast": jack(untagged="media", mtu=9000), "slow": jack(untagged="office", mtu=9000)}),
        *CABLES, cable("C03", "beacon/wire", "vault/slow"),
    )  # fmt: skip

    report = netaudit.check(plan)

    assert [] == [*found(report, DIFFERS), *found(report, MIXED), *gaps(report, MIXED)]


@pytest.mark.parametrize("header", [14, 18, 22])
def test_a_difference_as_large_as_a_header_is_told_as_another_way_of_writing(header: int) -> None:
    """IEEE 802.3 clause 3.1.1: two addresses of 6 octets and a type of 2, then a check sequence of 4; 802.1Q: a tag of 4."""
    most = 9000 + header
    (finding,) = found(report(9000, most, 9216, 9216), DIFFERS)

    assert (
        f"cut-1/wire uses packets of 9000 octets and vault/fast of {most}: "
        f"{header} octets apart, as much as an Ethernet header takes" == finding.message
    )
    assert (
        f"{most} is how some drivers write 9000, the header counted in: if so, write `mtu: 9000` for vault/fast; "
        "if not, set it to 9000." == finding.remedy
    )
    assert ("warn", Measure(9000, "octets"), Measure(most, "octets")) == (
        finding.severity,
        finding.measured,
        finding.limit,
    )
    (other,) = found(report(most, 9000, 9216, 9216), DIFFERS)
    assert "write `mtu: 9000` for cut-1/wire;" in other.remedy


@pytest.mark.parametrize("apart", [13, 15, 17, 19, 21, 23])
def test_any_other_difference_is_none_of_a_header(apart: int) -> None:
    (finding,) = found(report(9000, 9000 + apart, 9216, 9216), DIFFERS)

    assert finding.message.endswith("they settle on 9000")
    assert finding.remedy.startswith(f"Set cut-1/wire and vault/fast to the same: {9000 + apart} if")


def granted(*things: Device | Network | Cable) -> list[str]:
    return list(taken_for_granted(build_facts(wired(*things))))


def room(planned: int | None, *, ends: int | None = 9000, core: int | None = None) -> list[Device | Network | Cable]:
    """Two seats on two switches, which give no packet of their own unless that of core is given."""
    return [
        network("media", "10.44.20.0/24", mtu=planned),
        seat("cut-1", {"wire": jack(untagged="media", mtu=ends)}), seat("cut-2", {"wire": jack(untagged="media", mtu=ends)}),
        switch("desk"), switch("core", many(4, jack(mtu=core))), vault("vault", {"fast": jack(untagged="media", mtu=ends)}),
        cable("C01", "cut-1/wire", "desk/1"), cable("C02", "cut-2/wire", "core/3"),
        cable("U01", "desk/2", "core/2"), cable("C03", "vault/fast", "core/1"),
    ]  # fmt: skip


def test_what_counts_as_planned_is_told_once_with_every_device_that_gives_no_packet() -> None:
    assert ["packets of 9000 octets through desk and core, as planned for media"] == granted(*room(9000))
    assert ["packets of 9000 octets through desk, as planned for media"] == granted(*room(9000, core=9216))


def test_nothing_is_granted_without_a_plan_for_it_or_without_need() -> None:
    assert [] == granted(*room(None))
    assert [] == granted(*room(8999))
    assert [] == granted(*room(9000, ends=1500))
    assert [] == granted(*room(9000, ends=None))
    assert 1 == len(granted(*room(9000, ends=1501)))
    assert [] == granted(*routed(office=9000, media=None))


def test_through_a_router_both_networks_are_named() -> None:
    assert ["packets of 9000 octets through router, as planned for office and media"] == granted(
        *routed(office=9000, media=9000)
    )


def test_each_size_is_told_by_itself() -> None:
    things = room(9000)
    things[2] = seat("cut-2", {"wire": jack(untagged="media", mtu=4000)})

    assert [
        "packets of 9000 octets through desk and core, as planned for media",
        "packets of 4000 octets through core, as planned for media",
    ] == granted(*things)
