"""What is typed in at a port, line by line."""

from __future__ import annotations

from ipaddress import IPv4Address

from bills import port

from netaudit.model.moving import Setting
from netaudit.report.bill.settings import typed

WIRE = Setting(port("cut-1/wire"), "en5", "media", ("10.44.20.11/24",), 9000, None, netmasks=("255.255.255.0",))


def lines(setting: Setting) -> list[tuple[str, str | None, str | None]]:
    """The lines as plain tuples."""
    return [tuple(line) for line in typed(setting)]


def test_an_address_has_its_netmask_and_a_network_without_a_way_out_no_router() -> None:
    expected = [
        ("address", "10.44.20.11/24", "netmask 255.255.255.0"),
        ("router", None, "leave it empty"),
        ("largest packet (MTU)", "9000", "octets"),
    ]

    assert expected == lines(WIRE)


def test_every_address_has_a_line_and_one_without_a_netmask_none() -> None:
    two = WIRE._replace(addresses=("10.44.20.11/24", "fd00::11/64"), netmasks=("255.255.255.0", None))
    expected = [("address", "10.44.20.11/24", "netmask 255.255.255.0"), ("address", "fd00::11/64", None)]

    assert expected == lines(two)[:2]


def test_a_leased_address_brings_its_router_with_it() -> None:
    leased = WIRE._replace(addresses=("lease",), netmasks=(None,), mtu=None)

    assert [("address", "lease", None), ("largest packet (MTU)", None, "leave it as it is")] == lines(leased)


def test_a_router_of_the_plan_is_typed_in() -> None:
    assert ("router", "10.44.20.1", None) in lines(WIRE._replace(gateway=IPv4Address("10.44.20.1")))


def test_a_port_without_an_address_says_that_the_plan_gives_none() -> None:
    assert ("address", None, "the plan gives none") == lines(WIRE._replace(addresses=(), netmasks=()))[0]


def test_a_tagged_network_has_its_vlan_or_says_that_nobody_numbered_it() -> None:
    numbered, bare = WIRE._replace(vlan=30, tagged=True), WIRE._replace(tagged=True)

    assert ("VLAN", "30", "tagged") == lines(numbered)[1]
    assert ("VLAN", None, "tagged; the plan gives no number") == lines(bare)[1]
    assert "VLAN" not in [line.what for line in typed(WIRE)]


def test_a_size_of_packets_that_only_the_network_plans_is_for_somebody_to_decide() -> None:
    undecided = WIRE._replace(mtu=None, open_mtu=9000)

    assert ("largest packet (MTU)", None, "decide: the plan asks for 9000 in this network") == lines(undecided)[-1]
