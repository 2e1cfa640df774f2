"""The rule about ways out."""

from __future__ import annotations

from typing import Any

from rooms import found, places
from wiring import aerial, cable, device, jack, network, seat, switch, vault, wired

import netaudit
from netaudit.model.finding import Finding
from netaudit.model.plan import Bond, Cable, Device, Network, Port
from netaudit.rules.addresses.gateways import TWO_GATEWAYS
from netaudit.rules.facts import build_facts

MEDIA = network("media", "10.44.20.0/24", "10.44.20.1", purpose="storage")
OFFICE = network("office", "192.168.44.0/24", "192.168.44.1")
CABLES = (cable("C01", "box/one", "core/1"), cable("C02", "box/two", "core/2"))


def findings(*things: Device | Network | Cable) -> list[Finding]:
    return found(netaudit.check(wired(*things, switch("core"))), "two-gateways")


def box(one: Port, two: Port, **fields: Any) -> Device:
    return seat("box", {"one": one, "two": two}, **fields)


def test_a_seat_in_two_networks_with_gateways_warns_and_the_storages_network_goes_without() -> None:
    (finding,) = findings(MEDIA, OFFICE, box(jack(untagged="media"), jack(untagged="office")), *CABLES)

    assert ["device box", "port box/two", "port box/one", "network office", "network media"] == places(finding)
    assert "box has 2 ways out, 192.168.44.1 at box/two and 10.44.20.1 at box/one" == finding.message
    assert (
        "Leave the router empty at box/one and take `gateway` out of media: the way out is through office."
        == finding.remedy
    )
    assert ("warn", "plan") == (finding.severity, finding.source.standing)


def test_of_two_networks_for_other_things_the_later_goes_without() -> None:
    guests = network("guests", "192.168.45.0/24", "192.168.45.1")

    (finding,) = findings(guests, OFFICE, box(jack(untagged="office"), jack(untagged="guests")), *CABLES)

    assert finding.remedy.endswith("take `gateway` out of guests: the way out is through office.")


def test_a_storage_and_a_radio_count_and_other_devices_do_not() -> None:
    ports = {"one": jack(untagged="media"), "two": aerial(untagged="office")}

    assert 1 == len(findings(MEDIA, OFFICE, vault("box", ports), CABLES[0]))
    assert [] == findings(MEDIA, OFFICE, device("box", "router", ports), CABLES[0])
    assert [] == findings(MEDIA, OFFICE, device("box", "other", ports), CABLES[0])


def test_one_gateway_one_network_and_one_unplugged_port_are_no_second_way_out() -> None:
    closed = network("media", "10.44.20.0/24", purpose="storage")

    assert [] == findings(closed, OFFICE, box(jack(untagged="media"), jack(untagged="office")), *CABLES)
    assert [] == findings(MEDIA, OFFICE, box(jack(untagged="office"), jack(untagged="office")), *CABLES)
    assert [] == findings(MEDIA, OFFICE, box(jack(untagged="media"), jack(untagged="office")), CABLES[0])
    assert [] == findings(MEDIA, OFFICE, box(jack(untagged="media"), jack()), *CABLES)


def test_a_port_for_management_has_a_way_out_of_its_own() -> None:
    ports = {"one": jack(untagged="media"), "two": jack(untagged="office", purpose="management")}

    assert [] == findings(MEDIA, OFFICE, vault("box", ports), *CABLES)


def test_gateways_of_different_kinds_of_address_do_not_compete() -> None:
    six = network("office", "fd00::/64", "fd00::1")

    assert [] == findings(MEDIA, six, box(jack(untagged="media"), jack(untagged="office")), *CABLES)
    both = network("media", "fd01::/64", "fd01::1")
    assert 1 == len(findings(both, six, box(jack(untagged="media"), jack(untagged="office")), *CABLES))


def test_two_of_one_kind_warn_beside_one_of_the_other() -> None:
    six = network("six", "fd00::/64", "fd00::1")

    (finding,) = findings(
        six, MEDIA, OFFICE, box(jack(untagged="six", tagged=("media",)), jack(untagged="office")), *CABLES
    )

    assert "box has 2 ways out, 192.168.44.1 at box/two and 10.44.20.1 at box/one" == finding.message


def test_tagged_networks_and_those_of_a_bond_count() -> None:
    assert 1 == len(findings(MEDIA, OFFICE, box(jack(untagged="media", tagged=("office",)), jack()), *CABLES))
    bonded = box(jack(), jack(untagged="office"), bonds={"pair": Bond(("one",), "media")})
    assert 1 == len(findings(MEDIA, OFFICE, bonded, *CABLES))


def test_only_machines_in_a_network_with_a_gateway_are_asked() -> None:
    plan = wired(network("media", "10.44.20.0/24"), box(jack(untagged="media"), jack()), switch("core"), *CABLES)

    assert [] == list(TWO_GATEWAYS.subjects(build_facts(plan)))
