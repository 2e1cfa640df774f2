"""What a plan expects, as a value."""

from __future__ import annotations

from ipaddress import ip_address

from netaudit.model.expectation import Expectation, ExpectedPort, ExpectedRoad
from netaudit.model.place import PortRef

WIRE, FAST, SLOW = PortRef("cut-1", "wire"), PortRef("vault", "fast"), PortRef("vault", "slow")


def test_the_planned_addresses_are_those_at_the_end_of_the_planned_road() -> None:
    ports = {
        "fast": ExpectedPort(FAST, radio=False, addresses=(ip_address("10.44.20.10"), ip_address("fd44::10"))),
        "slow": ExpectedPort(SLOW, radio=False, addresses=(ip_address("192.168.44.10"),)),
    }
    expected = Expectation("Boathouse", "cut-1", "vault", {}, ports, ExpectedRoad(WIRE, FAST, routed=False))

    assert (ip_address("10.44.20.10"), ip_address("fd44::10")) == expected.planned_addresses
    assert () == expected._replace(road=None).planned_addresses
