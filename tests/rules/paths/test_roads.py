"""The rules on the way a path goes: through a router, through the air, or beside a second and slower one."""

from __future__ import annotations

from ipaddress import ip_address
from typing import Any

import pytest
from rooms import found, gaps, places
from wiring import G, aerial, cable, device, jack, network, seat, switch, vault, wired

import netaudit
from netaudit.model.plan import Cable, Device, Network, Plan, Port
from netaudit.model.report import Report

ROUTER, RADIO, SECOND = "router-in-path", "planned-road-is-radio", "second-road-open"
MEDIA = network("media", "10.44.20.0/24", "10.44.20.1", purpose="storage")
OFFICE = network("office", "192.168.44.0/24", "192.168.44.1")
FAST = ip_address("10.44.20.10")


def lan(own: str, *rates: float, **fields: Any) -> Port:
    return jack(*rates, untagged=own, **fields)


def media_and_office(name: str = "core") -> Device:
    """A switch with two ports in media and two in office."""
    ports = {**dict.fromkeys("1234", lan("media")), **dict.fromkeys("5678", lan("office"))}
    return switch(name, ports)


def checked(*things: Device | Cable | Network) -> Report:
    return netaudit.check(wired(MEDIA, OFFICE, *things))


# Routers


def through_router(legs: dict[str, Port], *cables: Cable, networks: tuple[Network, ...] = (MEDIA, OFFICE)) -> Plan:
    gate = device("gate", "router", legs)
    cut = seat("cut-1", {"wire": lan("office")})
    box = vault("vault", {"fast": lan("media")})
    cords = [cable("C1", "cut-1/wire", "core/5"), cable("C2", "core/1", "vault/fast")]
    return wired(*networks, media_and_office(), gate, cut, box, *cords, *cables)


def test_a_router_on_the_way_is_named_with_the_networks_on_both_sides_and_its_rate() -> None:
    legs = {"films": lan("media", 2.5), "desks": lan("office", 1)}
    plan = through_router(legs, cable("R1", "core/6", "gate/desks"), cable("R2", "core/2", "gate/films"))

    (finding,) = found(netaudit.check(plan), ROUTER)

    assert "warn" == finding.severity
    assert ["path cut-1 > vault", "device gate", "port gate/desks", "port gate/films"] == places(finding)
    assert (
        "cut-1 reaches vault only through the router gate, whose ports there run 1 Gb/s (125 MB/s): "
        "cut-1/wire is in office, vault/fast in media" == finding.message
    )
    assert "Give cut-1 a port in media, or put cut-1/wire and what it is plugged into there." == finding.remedy


def test_a_router_on_one_arm_is_named_by_its_one_port() -> None:
    arm = jack(untagged=None, tagged=("media", "office"))._replace(rates=None)
    plan = through_router({"arm": arm}, cable("R1", "core/9", "gate/arm"))
    core = switch("core", {**plan.devices["core"].ports, "9": jack(tagged=("office", "media"))})

    (finding,) = found(
        netaudit.check(wired(*plan.networks.values(), core, *list(plan.devices.values())[1:], *plan.cables.values())),
        ROUTER,
    )

    assert ["device gate", "port gate/arm"] == places(finding)[1:]
    assert "through the router gate: cut-1/wire" in finding.message


def test_a_router_that_only_switches_on_the_way_is_not_the_one() -> None:
    """Frames of one network pass a router as they pass a switch; the one that joins the networks is named."""
    spare = device("spare", "router", {**dict.fromkeys("12", lan("office")), "3": lan("guests")})
    gate = device("gate", "router", {"desks": lan("office", 1), "films": lan("media", 1)})
    guests = network("guests", "172.16.0.0/24", "172.16.0.1")
    plan = wired(
        guests, MEDIA, OFFICE, media_and_office(), spare, gate, seat("cut-1", {"wire": lan("office")}),
        vault("vault", {"fast": lan("media")}), cable("C1", "cut-1/wire", "spare/1"), cable("C2", "spare/2", "gate/desks"),
        cable("C3", "gate/films", "core/1"), cable("C4", "core/2", "vault/fast"),
    )  # fmt: skip

    (finding,) = found(netaudit.check(plan), ROUTER)

    assert "device gate" in places(finding)
    assert finding.message.endswith("vault/fast in media")


def test_a_path_past_a_router_in_one_network_has_none_in_it() -> None:
    gate = device("gate", "router", {"1": lan("media"), "2": lan("media"), "out": lan("office")})
    report = checked(
        gate, seat("cut-1", {"wire": lan("media")}), vault("vault", {"fast": lan("media")}),
        cable("C1", "cut-1/wire", "gate/1"), cable("C2", "gate/2", "vault/fast"),
    )  # fmt: skip

    assert ([], []) == (found(report, ROUTER), found(report, RADIO))


def test_a_seat_without_a_road_is_left_to_its_own_rule() -> None:
    report = checked(seat("cut-1", {"wire": lan("media")}), vault("vault", {"fast": lan("media")}))

    assert ([], []) == (found(report, ROUTER), found(report, RADIO))


# Radio


def over_the_air(desk: Port, box: Port, own: tuple[Network, ...] = (MEDIA, OFFICE), **seats: Port) -> Report:
    """A seat and a storage at an access point, each by cable or by air."""
    base = device("beacon", "access-point", {"air": aerial(1.2), "1": jack(), "2": jack()})
    cut, store = seat("cut-1", {"p": desk, **seats}), vault("vault", {"q": box})
    ends = [("1", "cut-1/p", desk), ("2", "vault/q", box)]
    cords = [cable(f"C{n}", f"beacon/{n}", end) for n, end, port in ends if port.connector != "radio"]
    return netaudit.check(wired(*own, base, cut, store, *cords))


def test_a_seat_that_only_the_air_joins_to_its_storage_is_told_what_its_radio_is_worth() -> None:
    (finding,) = found(over_the_air(aerial(1.2, untagged="media"), lan("media")), RADIO)

    assert "warn" == finding.severity
    assert ["path cut-1 > vault", "port cut-1/p", "link cut-1/p - beacon/air"] == places(finding)
    assert (
        "cut-1 reaches vault only through the air, by cut-1/p, which shows 1.2 Gb/s (150 MB/s) and is promised nothing"
        == finding.message
    )
    assert "Run a cable from cut-1 to a switch that leads to vault, in media." == finding.remedy


def test_a_storage_in_the_air_is_told_to_get_the_cable() -> None:
    (finding,) = found(over_the_air(jack(), aerial(), own=()), RADIO)

    assert ["port vault/q", "link beacon/air - vault/q"] == places(finding)[1:]
    assert finding.message.endswith("only through the air, by vault/q")
    assert "Run a cable from vault to a switch that leads to cut-1, in the same network." == finding.remedy


def test_a_radio_beside_a_wired_road_is_no_fault_of_the_way() -> None:
    wired_first = over_the_air(lan("media"), lan("media"), air=aerial(1.2, untagged="media"))

    assert [] == found(wired_first, RADIO)


# The second road


def two_roads(slow: Port, house: Port | None = None, fast: Port | None = None, **cables: Any) -> Report:
    """A seat and a storage that meet in media and in office."""
    cut = seat("cut-1", {"wire": lan("media"), "house": house or lan("office")})
    box = vault("vault", {"fast": fast or lan("media", addresses=(FAST,)), "slow": slow})
    ends = {"C1": ("cut-1/wire", "core/1"), "C2": ("vault/fast", "core/2"),
            "C3": ("cut-1/house", "core/5"), "C4": ("vault/slow", "core/6")}  # fmt: skip
    cords = [cable(name, *pair, category=cables.get(name, "6A")) for name, pair in ends.items()]
    return checked(media_and_office(), cut, box, *cords)


def test_a_slower_road_over_another_network_is_told_with_both_rates_and_the_address_to_mount() -> None:
    (finding,) = found(two_roads(lan("office", 1)), SECOND)

    assert "warn" == finding.severity
    assert ["path cut-1 > vault", "port vault/slow", "port cut-1/house"] == places(finding)
    assert (
        "cut-1 can also reach vault over office, from cut-1/house to vault/slow, at 1 Gb/s (125 MB/s) at the most; "
        "the planned road is promised 10 Gb/s (1250 MB/s)" == finding.message
    )
    assert (
        "Share no files on vault/slow and write `serves: false` there; "
        "mount vault by 10.44.20.10, its address in media, never by its name." == finding.remedy
    )


def test_a_second_road_that_is_the_only_one_of_another_seat_stays_open() -> None:
    cut = seat("cut-1", {"wire": lan("media"), "house": lan("office")})
    prod = seat("prod", {"wire": lan("office")})
    box = vault("vault", {"fast": lan("media", addresses=(FAST,)), "slow": lan("office", 1)})
    ends = {"C1": ("cut-1/wire", "core/1"), "C2": ("vault/fast", "core/2"), "C3": ("cut-1/house", "core/5"),
            "C4": ("vault/slow", "core/6"), "C5": ("prod/wire", "core/7")}  # fmt: skip
    report = checked(media_and_office(), cut, prod, box, *(cable(name, *pair) for name, pair in ends.items()))
    (finding,) = found(report, SECOND)

    assert "path cut-1 > vault" == places(finding)[0]
    assert (
        "vault/slow is the road of prod and stays open, so at cut-1 mount vault by 10.44.20.10, its address in media, "
        "never by its name." == finding.remedy
    )


def test_without_an_address_in_the_plan_the_remedy_names_the_network() -> None:
    (finding,) = found(two_roads(lan("office", 1), fast=lan("media")), SECOND)

    assert "mount vault by its address in media, never by its name" in finding.remedy


@pytest.mark.parametrize(
    "slow",
    [lan("office"), lan("office", 1, serves=False), lan("office", 1, purpose="management"), lan("media", 1)],
    ids=["as fast", "serves nothing", "management", "same network"],
)
def test_a_second_road_that_is_as_fast_closed_or_in_the_same_network_is_silent(slow: Port) -> None:
    report = two_roads(slow)

    assert ([], []) == (found(report, SECOND), gaps(report, SECOND))


def test_a_faster_second_road_is_silent() -> None:
    assert [] == found(two_roads(lan("office"), fast=lan("media", 1)), SECOND)


def test_a_second_road_by_radio_is_slower_whatever_it_shows() -> None:
    base = device("beacon", "access-point", {"air": aerial(100), "lan": lan("office")})
    cut = seat("cut-1", {"wire": lan("media"), "air": aerial(100, untagged="office")})
    box = vault("vault", {"fast": lan("media"), "slow": lan("office")})
    report = checked(
        media_and_office(), base, cut, box, cable("C1", "cut-1/wire", "core/1"), cable("C2", "vault/fast", "core/2"),
        cable("C3", "beacon/lan", "core/5"), cable("C4", "vault/slow", "core/6"),
    )  # fmt: skip

    (finding,) = found(report, SECOND)

    assert "from cut-1/air to vault/slow, by radio; the planned road" in finding.message


def test_a_planned_road_of_open_promise_beside_a_radio_is_told_so() -> None:
    base = device("beacon", "access-point", {"air": aerial(1), "lan": lan("office")})
    cut = seat("cut-1", {"wire": lan("media"), "air": aerial(1, untagged="office")})
    box = vault("vault", {"fast": lan("media"), "slow": lan("office")})
    report = checked(
        media_and_office(), base, cut, box, cable("C1", "cut-1/wire", "core/1", "unknown"),
        cable("C2", "vault/fast", "core/2"), cable("C3", "beacon/lan", "core/5"), cable("C4", "vault/slow", "core/6"),
    )  # fmt: skip

    assert "the planned road is promised a rate that is open" in found(report, SECOND)[0].message


def test_beside_a_planned_road_by_radio_nothing_is_slower() -> None:
    base = device("beacon", "access-point", {"air": aerial(1.2, untagged="media"), "lan": lan("media")})
    cut = seat("cut-1", {"air": aerial(1.2, untagged="media"), "house": lan("office", 0.1)})
    box = vault("vault", {"fast": lan("media"), "slow": lan("office")})
    report = checked(
        media_and_office(), base, cut, box, cable("C1", "beacon/lan", "core/1"), cable("C2", "vault/fast", "core/2"),
        cable("C3", "cut-1/house", "core/5"), cable("C4", "vault/slow", "core/6"),
    )  # fmt: skip

    assert ([], []) == (found(report, SECOND), gaps(report, SECOND))
    assert 1 == len(found(report, RADIO))


def test_a_second_road_of_open_promise_is_not_checked_and_leaves_the_planned_one_proven() -> None:
    report = two_roads(lan("office"), C4="unknown")

    (gap,) = gaps(report, SECOND)
    assert ("The category of C4 is not known", ["cable C4"]) == (gap.reason, places(gap))
    (planned,) = [judged for judged in report.paths if judged.path.planned]
    assert "pass" == planned.verdict


def test_where_the_planned_road_is_the_open_one_its_fact_is_asked_for() -> None:
    (gap,) = gaps(two_roads(lan("office", 1), C2="unknown"), SECOND)

    assert "The category of C2 is not known" == gap.reason


def test_a_planned_road_that_nothing_bounds_leaves_it_open() -> None:
    bare = lan("media")._replace(rates=None)
    cut, box = (
        seat("cut-1", {"wire": bare, "house": lan("office", 1)}),
        vault("vault", {"fast": bare, "slow": lan("office")}),
    )
    core = switch("core", {"1": bare, "2": bare, "5": lan("office"), "6": lan("office")})
    ends = [("cut-1/wire", "core/1"), ("vault/fast", "core/2"), ("cut-1/house", "core/5"), ("vault/slow", "core/6")]

    report = checked(core, cut, box, *(cable(f"C{n}", *pair) for n, pair in enumerate(ends)))

    (gap,) = gaps(report, SECOND)
    assert "The rates of core/1 are not given" == gap.reason


def test_each_network_is_told_once_however_many_ports_lead_there() -> None:
    cut = seat("cut-1", {"wire": lan("media"), "h1": lan("office"), "h2": lan("office", 1)})
    box = vault("vault", {"fast": lan("media"), "slow": lan("office")})
    ends = [("cut-1/wire", "core/1"), ("vault/fast", "core/2"), ("cut-1/h1", "core/5"),
            ("cut-1/h2", "core/6"), ("vault/slow", "core/7")]  # fmt: skip

    (finding,) = found(
        checked(media_and_office(), cut, box, *(cable(f"C{n}", *pair) for n, pair in enumerate(ends))), SECOND
    )

    assert "from cut-1/h2 to vault/slow, at 1 Gb/s (125 MB/s)" in finding.message


def test_a_way_round_through_a_router_is_no_second_road() -> None:
    gate = device("gate", "router", {"films": lan("media", 1), "desks": lan("office", 1)})
    cut = seat("cut-1", {"wire": lan("media"), "house": lan("office", 1)})
    box = vault("vault", {"fast": lan("media")})
    ends = [
        ("cut-1/wire", "core/1"),
        ("vault/fast", "core/2"),
        ("cut-1/house", "core/5"),
        ("gate/films", "core/3"),
        ("gate/desks", "core/6"),
    ]

    report = checked(media_and_office(), gate, cut, box, *(cable(f"C{n}", *pair) for n, pair in enumerate(ends)))

    assert [] == found(report, SECOND)
    assert 2 == len(report.paths)


def test_ports_without_a_network_tell_nothing_of_a_second_one() -> None:
    cut = seat("cut-1", {"wire": jack(), "house": lan("office", 1)})
    box = vault("vault", {"fast": jack(), "slow": lan("office", 1)})
    ends = [("cut-1/wire", "core/1"), ("vault/fast", "core/2"), ("cut-1/house", "desk/1"), ("vault/slow", "desk/2")]

    report = checked(switch("core"), switch("desk"), cut, box, *(cable(f"C{n}", *pair) for n, pair in enumerate(ends)))

    assert ([], []) == (found(report, SECOND), gaps(report, SECOND))
    assert G == min(judged.path.agreed_bit_per_s or 0 for judged in report.paths)


def test_a_second_road_whose_network_nobody_named_is_not_called_another_network() -> None:
    cut = seat("cut-1", {"wire": lan("media"), "house": jack(1)})
    box = vault("vault", {"fast": lan("media"), "slow": jack(1)})
    ends = [("cut-1/wire", "core/1"), ("vault/fast", "core/2"), ("cut-1/house", "desk/1"), ("vault/slow", "desk/2")]

    report = checked(
        media_and_office(), switch("desk"), cut, box, *(cable(f"C{n}", *pair) for n, pair in enumerate(ends))
    )

    assert [None, "media"] == sorted((judged.path.network for judged in report.paths), key=str)
    assert ([], []) == (found(report, SECOND), gaps(report, SECOND))


def test_a_second_road_that_nothing_bounds_leaves_it_open() -> None:
    bare = lan("office")._replace(rates=None)
    cut, box = (
        seat("cut-1", {"wire": lan("media"), "house": bare}),
        vault("vault", {"fast": lan("media"), "slow": bare}),
    )
    core = switch("core", {"1": lan("media"), "2": lan("media"), "5": bare, "6": bare})
    ends = [("cut-1/wire", "core/1"), ("vault/fast", "core/2"), ("cut-1/house", "core/5"), ("vault/slow", "core/6")]

    report = checked(core, cut, box, *(cable(f"C{n}", *pair) for n, pair in enumerate(ends)))

    (gap,) = gaps(report, SECOND)
    assert "The rates of core/5 are not given" == gap.reason
