"""Which of the storage's addresses belong to one port: plan, the storage's own list, hardware addresses, subnets."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Network, IPv6Address

import pytest
from deskwork import situation

from netaudit.model.machine_state import Route
from netaudit.model.observation import FarAddress, Neighbours, Observation, Offer
from netaudit.model.vocabulary import Address
from netaudit.rules.live.desk import BY_WIRE, FAST, FAST_MAC, SEEN, SLOW, SLOW_MAC, SLOW_VAULT, VAULT
from netaudit.rules.live.storage_ports import (
    grouped,
    macs_of,
    number_of,
    on_one_port,
    port_of,
    surely_apart,
    told_apart,
)

ONE, OTHER = IPv4Address("10.50.0.1"), IPv4Address("10.50.0.2")
SIX = IPv6Address("fd44::1")
BARE = SEEN._replace(offers=None, sessions=())


def far(address: Address, *macs: str, route: Route | None = BY_WIRE) -> FarAddress:
    return FarAddress(address, "dns", route=route, neighbours=Neighbours(macs, asked=True) if macs else None)


def seen(*addresses: FarAddress, offers: tuple[Offer, ...] | None = None) -> Observation:
    return BARE._replace(addresses=addresses, offers=offers)


def test_the_plan_gives_addresses_to_ports() -> None:
    assert (FAST, SLOW, None) == tuple(port_of(address, situation()) for address in (VAULT, SLOW_VAULT, ONE))
    assert None is port_of(VAULT, situation(SEEN, None))


def test_the_storage_numbers_its_ports_itself() -> None:
    assert (1, 2, None) == tuple(number_of(address, situation()) for address in (VAULT, SLOW_VAULT, ONE))
    assert None is number_of(VAULT, situation(BARE))


def test_hardware_addresses_behind_a_router_are_the_routers() -> None:
    routed = Route("en5", gateway=IPv4Address("10.44.20.1"))
    known = situation(seen(far(ONE, "a", "b"), far(OTHER, "r", route=routed), far(SIX, "c", route=None)))

    assert [{"a", "b"}, set(), {"c"}, set()] == [macs_of(address, known) for address in (ONE, OTHER, SIX, VAULT)]


def test_the_plan_comes_before_what_the_storage_says() -> None:
    same = (Offer(VAULT, None, 1), Offer(SLOW_VAULT, None, 1))

    assert told_apart(VAULT, SLOW_VAULT, situation(BARE._replace(offers=same)))
    assert not told_apart(VAULT, SLOW_VAULT, situation(BARE._replace(offers=same), None))


@pytest.mark.parametrize(
    ("numbers", "apart"), [((1, 2), True), ((1, 1), False), ((1, None), None), ((None, None), None)]
)
def test_numbers_tell_ports_apart_where_both_are_known(numbers: tuple[int | None, ...], apart: bool | None) -> None:
    offers = tuple(Offer(address, None, number) for address, number in zip((ONE, OTHER), numbers, strict=True))

    assert apart == told_apart(ONE, OTHER, situation(seen(offers=offers)))


@pytest.mark.parametrize(
    ("one", "other", "together"),
    [
        (("a",), ("a",), True),
        (("a",), ("b",), False),
        (("a", "b"), ("a", "b"), None),
        (("a", "b"), ("b",), None),
        (("a", "b"), ("c",), False),
        (("a",), (), None),
        ((), (), None),
    ],
)
def test_one_hardware_address_alone_tells(one: tuple[str, ...], other: tuple[str, ...], together: bool | None) -> None:
    assert together == on_one_port(ONE, OTHER, situation(seen(far(ONE, *one), far(OTHER, *other)), None))


def test_what_is_told_comes_before_hardware_addresses() -> None:
    offers = (Offer(ONE, None, 1), Offer(OTHER, None, 2))
    known = situation(seen(far(ONE, "a"), far(OTHER, "a"), offers=offers))

    assert on_one_port(ONE, OTHER, known) is False


@pytest.mark.parametrize(
    ("route", "together"),
    [
        (Route("en6", prefix=IPv4Network("10.51.0.0/24")), False),
        (BY_WIRE, None),
        (Route("en6", prefix=IPv4Network("10.51.0.0/24"), gateway=IPv4Address("10.44.20.1")), None),
        (Route("en6"), None),
        (None, None),
    ],
)
def test_different_subnets_on_the_link_tell_where_no_hardware_does(route: Route | None, together: bool | None) -> None:
    assert together == on_one_port(ONE, OTHER, situation(seen(far(ONE), far(OTHER, route=route))))
    assert together == on_one_port(OTHER, ONE, situation(seen(far(ONE), far(OTHER, route=route))))


def test_subnets_of_different_kinds_of_address_tell_nothing() -> None:
    assert None is on_one_port(ONE, SIX, situation(seen(far(ONE), far(SIX, route=Route("en6", prefix=None)))))
    other = Route("en6", prefix=IPv4Network("10.51.0.0/24"))
    assert None is on_one_port(ONE, SIX, situation(seen(far(ONE), far(SIX, route=other))))


def test_addresses_of_one_port_are_gathered() -> None:
    known = situation(seen(far(ONE, FAST_MAC), far(SIX, FAST_MAC), far(OTHER, SLOW_MAC)))

    assert [[ONE, SIX], [OTHER]] == grouped([ONE, SIX, OTHER], known)
    assert [[ONE, SIX], [OTHER]] == grouped([ONE, OTHER, SIX], known)
    assert [] == grouped([], known)


def test_one_address_of_a_group_is_enough_to_belong_to_it() -> None:
    """The storage numbers the first two alike, the last two share a hardware address, the first and last tell nothing."""
    offers = (Offer(ONE, None, 1), Offer(OTHER, None, 1))
    known = situation(seen(far(ONE), far(OTHER, FAST_MAC), far(SIX, FAST_MAC), offers=offers))

    assert [[ONE, OTHER, SIX]] == grouped([ONE, OTHER, SIX], known)


def test_groups_are_apart_where_that_is_known() -> None:
    known = situation(seen(far(ONE, FAST_MAC), far(OTHER), far(SIX, SLOW_MAC)))

    assert (ONE, SIX) == surely_apart([[ONE], [OTHER], [SIX]], known)
    assert None is surely_apart([[ONE], [OTHER]], known)
    assert None is surely_apart([[ONE]], known)
