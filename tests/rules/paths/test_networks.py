"""The rule on networks: both ends of a cable name the same ones and pass them in the same manner."""

from __future__ import annotations

from typing import Any

import pytest
from rooms import found, places
from wiring import aerial, cable, device, jack, many, network, ref, seat, switch, vault, wired

import netaudit
from netaudit.model.finding import Finding
from netaudit.model.plan import Device, Plan, Port
from netaudit.rules.facts import build_facts
from netaudit.rules.paths.networks import WRONG_NETWORK, Misfit, dropped

RULE = "wrong-network"
NETWORKS = (network("media", purpose="storage"), network("office"), network("guests"))


def plan_of(one: dict[str, Any], other: dict[str, Any]) -> Plan:
    """A seat on a switch, whose two ports carry these."""
    core = switch("core", {"1": jack(**other), "2": jack(untagged="media")})
    return wired(
        *NETWORKS, core, seat("cut-1", {"wire": jack(**one)}), vault("vault", {"fast": jack(untagged="media")}),
        cable("C1", "core/1", "cut-1/wire"), cable("C2", "core/2", "vault/fast"),
    )  # fmt: skip


def struck(one: dict[str, Any], other: dict[str, Any]) -> list[Finding]:
    return found(netaudit.check(plan_of(one, other)), RULE)


def test_two_ends_in_different_networks_are_named_the_seats_first() -> None:
    (finding,) = struck({"untagged": "media"}, {"untagged": "office"})

    assert "fail" == finding.severity
    assert ["port cut-1/wire", "port core/1", "cable C1", "network media", "network office"] == places(finding)
    assert "cut-1/wire is in media and core/1, at the other end of its cable, in office" == finding.message
    assert "Put cut-1/wire and core/1 into one network." == finding.remedy


def test_one_network_that_is_tagged_at_one_end_only_does_not_pass() -> None:
    (finding,) = struck({"untagged": "media"}, {"untagged": "office", "tagged": ("media",)})

    assert "cut-1/wire carries media untagged, and core/1, at the other end of its cable, does not" == finding.message
    assert "Let core/1 carry media untagged, or cut-1/wire as core/1 does." == finding.remedy
    (other_way,) = struck({"tagged": ("media",)}, {"untagged": "media"})
    assert other_way.message.startswith("cut-1/wire carries media tagged, and core/1")


def test_different_networks_without_a_tag_strike_even_where_a_tagged_one_passes() -> None:
    (finding,) = struck({"untagged": "office", "tagged": ("media",)}, {"untagged": "guests", "tagged": ("media",)})

    assert (
        "What cut-1/wire sends without a tag is office, and core/1, at the other end of its cable, takes it for guests"
        == finding.message
    )
    assert "Give cut-1/wire and core/1 the same untagged network." == finding.remedy


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ({"untagged": "media"}, {"untagged": "media"}),
        ({"untagged": "media"}, {}),
        ({}, {"untagged": "office"}),
        ({}, {}),
        ({"tagged": ("media",)}, {"untagged": "office", "tagged": ("media",)}),
        ({"untagged": "office", "tagged": ("media",)}, {"tagged": ("media",)}),
        ({"untagged": "media"}, {"untagged": "media", "tagged": ("office",)}),
        ({"tagged": ("media", "office")}, {"tagged": ("media", "guests")}),
        ({"untagged": "guests", "tagged": ("media",)}, {"tagged": ("guests", "media")}),
        ({"untagged": "office", "tagged": ("media",)}, {"untagged": "media", "tagged": ("guests", "office", "media")}),
    ],
)
def test_ends_that_pass_a_network_in_one_manner_or_name_none_are_fine(
    one: dict[str, Any], other: dict[str, Any]
) -> None:
    mixed = one.get("untagged") and other.get("untagged") and one["untagged"] != other["untagged"]

    assert bool(mixed) == bool(struck(one, other))


def test_of_a_cable_between_two_switches_the_port_first_in_the_file_comes_first() -> None:
    def side(name: str, own: str) -> Device:
        return switch(name, many(2, jack(untagged=own)))

    plan = wired(*NETWORKS, side("attic", "office"), side("core", "media"), cable("U1", "core/2", "attic/2"))

    (finding,) = found(netaudit.check(plan), RULE)

    assert ["port attic/2", "port core/2", "cable U1", "network office", "network media"] == places(finding)


def test_a_storage_comes_before_a_switch_and_the_seat_and_storage_of_one_cord_as_in_the_file() -> None:
    box = vault("vault", {"fast": jack(untagged="office")})
    core = switch("core", many(2, jack(untagged="media")))
    (finding,) = found(netaudit.check(wired(*NETWORKS, core, box, cable("C1", "core/1", "vault/fast"))), RULE)
    assert ["port vault/fast", "port core/1"] == places(finding)[:2]

    cut = seat("cut-1", {"wire": jack(untagged="media")})
    (direct,) = found(netaudit.check(wired(*NETWORKS, box, cut, cable("C1", "cut-1/wire", "vault/fast"))), RULE)
    assert ["port vault/fast", "port cut-1/wire"] == places(direct)[:2]


def test_the_air_is_no_cable() -> None:
    def radio(*tagged: str, **fields: Any) -> Port:
        return aerial(1.2, tagged=tagged, **fields)

    base = device("beacon", "access-point", {"air": radio("media", untagged="office")})
    plan = wired(*NETWORKS, base, seat("cut-1", {"air": radio(untagged="media")}))

    assert [] == found(netaudit.check(plan), RULE)


def test_only_a_cable_whose_two_ends_name_networks_is_judged() -> None:
    def asked(one: dict[str, Any], other: dict[str, Any]) -> int:
        return len(list(WRONG_NETWORK.subjects(build_facts(plan_of(one, other)))))

    storages_own = 1
    assert storages_own + 1 == asked({"untagged": "media"}, {"tagged": ("media",)})
    assert storages_own == asked({}, {"untagged": "media"}) == asked({"untagged": "media"}, {})


def test_a_network_is_dropped_where_one_end_names_it_and_the_other_does_not_pass_it_alike() -> None:
    def dropped_of(one: dict[str, Any], other: dict[str, Any]) -> Misfit | None:
        return dropped(ref("cut-1/wire"), ref("core/1"), ["media"], build_facts(plan_of(one, other)))

    assert dropped_of({"untagged": "media", "tagged": ("office",)}, {"tagged": ("office",)}) is not None
    assert dropped_of({"tagged": ("media",)}, {}) is not None
    assert dropped_of({"untagged": "media"}, {}) is None
    assert dropped_of({}, {"untagged": "office"}) is None
    assert dropped_of({"untagged": "office"}, {"tagged": ("media",)}) is None


def test_a_port_that_tags_everything_does_not_reach_one_that_names_no_network() -> None:
    (finding,) = struck({"tagged": ("media",)}, {})

    assert (
        "cut-1/wire carries media tagged, and core/1, at the other end of its cable, "
        "names no network and so passes frames without a tag only" == finding.message
    )
    assert finding.remedy.startswith("Write down `networks` of core/1 with media tagged")
    assert [] == struck({"untagged": "office", "tagged": ("media",)}, {})
    assert [] == struck({"untagged": "office"}, {})
