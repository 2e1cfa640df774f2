"""The storage's addresses: is the planned one in use, does the name give one port alone, is there a way there."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Interface, IPv4Network, IPv6Address

import pytest
from deskwork import found, gaps, only, passes, places, planned_port, silent

from netaudit.model.machine_state import Channel, Interface, Route
from netaudit.model.observation import FarAddress, Neighbours, Observation, Offer, Skipped
from netaudit.rules.live.desk import (
    BY_AIR,
    EXPECTED,
    FAR,
    SEEN,
    SESSION,
    SLOW_FAR,
    SLOW_MAC,
    SLOW_VAULT,
    VAULT,
    first_look,
    with_far,
    with_interface,
    with_wire,
)
from netaudit.rules.live.examples import example_of
from netaudit.rules.live.names import ADDRESS_NOT_PLANNED, NAME_GIVES_MANY_ADDRESSES, NO_ROUTE

BY_SLOW = example_of("address-not-planned").seen
SIX = IPv6Address("fd44:20::10")
SIX_FAR = FAR._replace(address=SIX)
BARE = SEEN._replace(sessions=(), offers=None, mount=None)


def named(*addresses: FarAddress, **fields: object) -> Observation:
    return BARE._replace(addresses=addresses, **fields)


def test_another_address_than_the_planned_one_fails_with_its_port() -> None:
    finding = only(ADDRESS_NOT_PLANNED, BY_SLOW)

    assert ["address 192.168.44.10", "address 10.44.20.10"] == places(finding)
    assert (
        "vault is reached at 192.168.44.10, which is vault/slow in the plan, instead of 10.44.20.10; the living session "
        "from 192.168.44.101 to 192.168.44.10 runs there" == finding.message
    )


def test_an_address_that_every_port_makes_up_is_wrong_only_where_its_port_is_known() -> None:
    """RFC 4862 section 5.3: a port forms a link-local address by itself, so no plan has it."""
    made_up = FAR._replace(address=IPv6Address("fe80::10%en5"), neighbours=None)
    seen = BARE._replace(addresses=(made_up,))
    (gap,) = gaps(ADDRESS_NOT_PLANNED, seen)

    assert ["address fe80::10%en5"] == places(gap)
    assert "mount by 10.44.20.10, which is planned" == gap.decides
    by_the_slow_port = made_up._replace(neighbours=Neighbours((SLOW_MAC,), asked=False))
    assert found(ADDRESS_NOT_PLANNED, seen._replace(addresses=(by_the_slow_port, FAR)))


def test_one_planned_address_of_several_on_the_same_port_is_enough() -> None:
    """The storage numbers its ports itself: MS-SMB2 section 2.2.32.5. A port may be planned with several addresses."""
    second, used = IPv4Address("10.44.20.12"), IPv4Address("10.44.20.13")
    fast = EXPECTED.storage_ports["fast"]._replace(addresses=(VAULT, second))
    expected = EXPECTED._replace(storage_ports={**EXPECTED.storage_ports, "fast": fast})
    numbers = {VAULT: 1, second: 2, used: 1}
    seen = named(FAR._replace(address=used), offers=tuple(Offer(each, None, numbers[each]) for each in numbers))

    assert passes(ADDRESS_NOT_PLANNED, seen, expected)


def test_an_address_that_a_port_makes_up_is_wrong_where_one_planned_address_is_surely_elsewhere() -> None:
    second = IPv4Address("10.44.20.12")
    fast = EXPECTED.storage_ports["fast"]._replace(addresses=(VAULT, second))
    expected = EXPECTED._replace(storage_ports={**EXPECTED.storage_ports, "fast": fast})
    made_up = FAR._replace(address=IPv6Address("fe80::10%en5"), neighbours=Neighbours((SLOW_MAC,), asked=False))

    assert found(ADDRESS_NOT_PLANNED, named(made_up, FAR), expected)


@pytest.mark.parametrize(
    ("origin", "source"),
    [("hosts", "the hosts file"), ("dns", "the name service (DNS)"), ("mdns", "the storage's own announcement (mDNS)")],
)
def test_a_name_is_to_give_the_planned_address_alone(origin: str, source: str) -> None:
    seen = BY_SLOW._replace(addresses=(SLOW_FAR._replace(origin=origin),))

    assert (
        f"Eject the share and mount it again by 10.44.20.10. The address came from {source}: to keep the name, let it "
        "give 10.44.20.10 alone (by the line `10.44.20.10 vault` in /etc/hosts, as administrator and in place of any other "
        "with that name)." == only(ADDRESS_NOT_PLANNED, seen).remedy
    )


@pytest.mark.parametrize("origin", ["literal", "mount", "plan"])
def test_an_address_that_was_typed_stands_in_a_shortcut(origin: str) -> None:
    seen = BY_SLOW._replace(addresses=(SLOW_FAR._replace(origin=origin),))

    assert (
        "A shortcut, a sidebar entry or a project that has 192.168.44.10 in it"
        in only(ADDRESS_NOT_PLANNED, seen).remedy
    )


def test_an_address_that_nobody_knows_is_told_so() -> None:
    seen = named(FAR._replace(address=IPv4Address("10.44.20.77"), neighbours=None))

    assert "at 10.44.20.77, which the plan does not know, instead" in only(ADDRESS_NOT_PLANNED, seen).message


def test_the_planned_address_passes_whatever_else_the_name_gives() -> None:
    assert passes(ADDRESS_NOT_PLANNED, named(FAR, SLOW_FAR))


def test_another_address_of_the_planned_port_passes() -> None:
    assert passes(ADDRESS_NOT_PLANNED, named(SIX_FAR, FAR))
    stranger = SIX_FAR._replace(neighbours=Neighbours((SLOW_MAC,), asked=True))
    assert found(ADDRESS_NOT_PLANNED, named(stranger, FAR))


@pytest.mark.parametrize("expected", [None, EXPECTED._replace(road=None)])
def test_without_a_planned_address_none_is_the_wrong_one(expected: object) -> None:
    assert silent(ADDRESS_NOT_PLANNED, BY_SLOW, expected)  # type: ignore[arg-type]


def test_a_use_without_an_address_is_not_judged() -> None:
    client = SEEN.client._replace(channels=(Channel("media", "en5"),))

    assert silent(ADDRESS_NOT_PLANNED, SEEN._replace(client=client))


def test_each_address_in_use_is_judged_once() -> None:
    sessions = (
        SESSION,
        SESSION._replace(remote=SESSION.remote._replace(address=SLOW_VAULT)),
        SESSION._replace(remote=SESSION.remote._replace(address=SLOW_VAULT), interface="en6"),
    )

    assert 1 == len(found(ADDRESS_NOT_PLANNED, SEEN._replace(sessions=sessions)))


def test_a_name_of_two_ports_is_told_with_the_one_that_is_tried_first() -> None:
    finding = only(NAME_GIVES_MANY_ADDRESSES, named(SLOW_FAR, FAR))

    assert ["address 192.168.44.10", "address 10.44.20.10"] == places(finding)
    assert (
        "the name vault gives 2 ports of the storage, 192.168.44.10 and 10.44.20.10, and this system tries "
        "192.168.44.10 first" == finding.message
    )
    assert finding.remedy.startswith(
        "Mount by address instead of by name: eject the share and mount it again by 10.44.20.10. Or let vault give "
        "10.44.20.10 alone: by the line `10.44.20.10 vault` in /etc/hosts, as administrator"
    )


def test_without_a_plan_the_fast_port_is_meant() -> None:
    assert (
        "let vault give the one on its fast port alone: by the line `ADDRESS vault` in /etc/hosts"
        in only(NAME_GIVES_MANY_ADDRESSES, named(SLOW_FAR, FAR), None).remedy
    )


@pytest.mark.parametrize("origin", ["literal", "mount", "plan"])
def test_addresses_that_no_name_gave_are_not_counted(origin: str) -> None:
    assert silent(NAME_GIVES_MANY_ADDRESSES, named(FAR, SLOW_FAR._replace(origin=origin)))


def test_one_address_is_enough() -> None:
    assert silent(NAME_GIVES_MANY_ADDRESSES, named(FAR))


def test_a_first_look_cannot_tell() -> None:
    assert silent(NAME_GIVES_MANY_ADDRESSES, first_look(named(FAR, SLOW_FAR)))


def test_ipv4_and_ipv6_of_one_port_are_one() -> None:
    assert passes(NAME_GIVES_MANY_ADDRESSES, named(SIX_FAR, FAR), None)


def test_an_address_that_the_port_made_up_is_not_counted() -> None:
    made_up = FAR._replace(
        address=IPv6Address("fe80::10"), neighbours=Neighbours((SLOW_MAC,), asked=False), route=Route("wlan0")
    )

    assert silent(NAME_GIVES_MANY_ADDRESSES, named(FAR, made_up), None)


def test_planned_addresses_are_one_however_they_look() -> None:
    fast = EXPECTED.storage_ports["fast"]._replace(addresses=(VAULT, SIX))
    expected = EXPECTED._replace(storage_ports={**EXPECTED.storage_ports, "fast": fast})
    six = SIX_FAR._replace(neighbours=None)

    assert passes(NAME_GIVES_MANY_ADDRESSES, named(six, FAR), expected)
    assert found(NAME_GIVES_MANY_ADDRESSES, named(six, FAR, SLOW_FAR), expected)


def test_one_number_of_the_storage_is_one_port() -> None:
    offers = (Offer(VAULT, None, 4), Offer(SLOW_VAULT, None, 4))

    assert passes(NAME_GIVES_MANY_ADDRESSES, named(FAR, SLOW_FAR, offers=offers), None)
    assert found(NAME_GIVES_MANY_ADDRESSES, named(FAR, SLOW_FAR), None)


def test_where_nothing_tells_it_is_not_checked() -> None:
    six = SIX_FAR._replace(neighbours=None)
    (gap,) = gaps(NAME_GIVES_MANY_ADDRESSES, named(six, FAR), None)

    assert ["address fd44:20::10", "address 10.44.20.10"] == places(gap)
    assert "Whether fd44:20::10 and 10.44.20.10 are on one port of the storage is not known" == gap.reason
    noted = (Skipped("the list", "it wants a name", "give --user", ("name-gives-many-addresses",)),)
    (gap,) = gaps(NAME_GIVES_MANY_ADDRESSES, named(six, FAR, skipped=noted), None)
    assert ("The list: it wants a name", "give --user") == (gap.reason, gap.decides)


def nowhere(*addresses: FarAddress) -> Observation:
    bare = (far._replace(route=None, no_route="Network is unreachable", knocks={}) for far in addresses)
    return named(*bare)


def test_a_storage_without_a_route_fails_with_the_systems_words() -> None:
    finding = only(NO_ROUTE, nowhere(FAR, SLOW_FAR))

    assert ["address 10.44.20.10", "address 192.168.44.10", "interface en5"] == places(finding)
    assert (
        "this machine has no route to vault (10.44.20.10 and 192.168.44.10): the system says 'Network is unreachable'"
        == finding.message
    )


def test_one_route_is_enough() -> None:
    (blind,) = nowhere(SIX_FAR).addresses

    assert passes(NO_ROUTE, named(blind, FAR), None)


def test_the_planned_end_must_have_a_route_of_its_own() -> None:
    (blind,) = nowhere(FAR).addresses
    finding = only(NO_ROUTE, named(blind, SLOW_FAR))

    assert ["address 10.44.20.10", "interface en5"] == places(finding)
    assert "no route to the planned end of vault (10.44.20.10)" in finding.message
    assert passes(NO_ROUTE, named(blind, SLOW_FAR), None)


def test_a_route_that_nobody_told_about_is_not_missing() -> None:
    assert passes(NO_ROUTE, named(FAR._replace(route=None)))
    assert silent(NO_ROUTE, named())


def test_a_port_without_its_planned_address_gets_it() -> None:
    seen = with_wire(nowhere(FAR), addresses=())

    for manager, step in (("networkd", "a further line `Address=10.44.20.11/24`"), (None, "`sudo ip address add ")):
        remedy = only(NO_ROUTE, seen._replace(manager=manager)).remedy
        assert remedy.startswith(f"Give en5 (cut-1/wire) its planned address 10.44.20.11, without a gateway ({step}")
    absent = nowhere(FAR)._replace(interfaces={})
    assert "Give cut-1/wire its planned address 10.44.20.11, without a gateway." == only(NO_ROUTE, absent).remedy


@pytest.mark.parametrize(
    ("system", "command"),
    [("linux", "ip route show table all"), ("macos", "netstat -rn"), ("windows", "route print")],
)
def test_a_route_that_forbids_is_looked_for_where_an_address_is_at_hand(system: str, command: str) -> None:
    assert (
        "en5 has an address in that subnet, so that something forbids it: look for a route to 10.44.20.10 that rejects "
        f"in `{command}`, and take it out." == only(NO_ROUTE, nowhere(FAR)._replace(system=system)).remedy
    )


def test_one_address_of_several_is_near_enough() -> None:
    two = with_wire(nowhere(FAR), addresses=(IPv4Interface("10.9.9.9/24"), IPv4Interface("10.44.20.11/24")))

    assert only(NO_ROUTE, two).remedy.startswith("en5 has an address in that subnet")


def test_without_any_address_near_one_is_asked_for() -> None:
    seen = with_wire(nowhere(FAR), addresses=(IPv4Interface("10.9.9.9/24"),))

    for expected in (None, planned_port("wire", addresses=())):
        assert only(NO_ROUTE, seen, expected).remedy.startswith(
            "Give the wired port an address in the subnet of 10.44.20.10, without a gateway; "
        )


def test_the_routes_of_the_desk_pass() -> None:
    assert passes(NO_ROUTE, SEEN)
    assert passes(NO_ROUTE, with_far(route=BY_AIR))


IN_A_TUNNEL = FAR._replace(route=Route("tun0", prefix=IPv4Network("10.44.20.10/32")))
FIRST = "First: 10.44.20.10 itself leads into the tunnel tun0. A route of its own to this one host leads to tun0"


def test_an_address_that_is_to_be_mounted_instead_and_lies_in_a_tunnel_needs_that_out_of_the_way_first() -> None:
    seen = with_interface(Interface("tun0", medium="tunnel"), named(SLOW_FAR, IN_A_TUNNEL))

    assert only(ADDRESS_NOT_PLANNED, seen).remedy.startswith(FIRST)
    assert "After that: eject the share and mount it again by 10.44.20.10" in only(ADDRESS_NOT_PLANNED, seen).remedy
    for plan in (EXPECTED, None):
        remedy = only(NAME_GIVES_MANY_ADDRESSES, seen, plan).remedy
        assert remedy.startswith(FIRST)
        assert "After that: Mount by address instead of by name" in remedy
