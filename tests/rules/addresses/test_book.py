"""The address book: which subnet an address lies in, and which ones are free."""

from __future__ import annotations

from ipaddress import IPv4Network, ip_address

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wiring import jack, network, seat, wired

from netaudit.model.plan import Bond, Network
from netaudit.rules.addresses.book import Book, bond_networks, handed_out, port_networks


def book(*networks: Network, held: tuple[str, ...] = ()) -> Book:
    """The book of a plan with one machine that holds some addresses."""
    return Book(wired(*networks, seat("cut-1", {"wire": jack(addresses=tuple(map(ip_address, held)))})))


def free(pages: Book, address: str) -> str:
    return pages.free_like(ip_address(address), pages.spans["media"][0], ("media",))


MEDIA = network("media", "10.44.20.0/24")


def test_a_free_address_has_the_same_place_in_the_subnet() -> None:
    assert ", such as 10.44.20.13" == free(book(MEDIA), "10.9.9.13")


def test_what_is_held_is_not_free_nor_are_gateway_ends_and_leases() -> None:
    media = network(
        "media", "10.44.20.0/24", "10.44.20.14", leases=(ip_address("10.44.20.15"), ip_address("10.44.20.19"))
    )

    assert ", such as 10.44.20.20" == free(book(media, held=("10.44.20.13",)), "10.9.9.13")
    assert ", such as 10.44.20.1" == free(book(media), "10.9.9.255")


def test_a_full_subnet_has_none() -> None:
    pair = network("media", "10.44.20.0/31")

    assert "" == free(book(pair, held=("10.44.20.0", "10.44.20.1")), "10.44.20.0")
    assert ", such as 10.44.20.1" == free(book(pair, held=("10.44.20.0",)), "10.44.20.0")


def test_only_so_many_addresses_are_tried() -> None:
    first = ip_address("10.0.0.1")
    lent = network("media", "10.0.0.0/8", leases=(first, first + 511))
    almost = network("media", "10.0.0.0/8", leases=(first, first + 510))

    assert "" == free(book(lent), str(first))
    assert f", such as {first + 511}" == free(book(almost), str(first))


def test_a_subnet_of_version_6_gives_an_address_of_version_6() -> None:
    assert ", such as fd00::b" == free(book(network("media", "fd00::/64")), "fd00:1::b")


def test_an_address_lies_in_the_smallest_subnet_that_holds_it() -> None:
    pages = book(network("wide", "10.44.0.0/16"), MEDIA, network("six", "fd00::/64"))

    assert ["media", "wide", None, "six", None] == [
        None if (home := pages.at(ip_address(text))) is None else home[0]
        for text in ("10.44.20.255", "10.44.21.0", "10.45.0.0", "fd00::1", "fd01::1")
    ]


@given(
    st.lists(st.tuples(st.integers(0, 2**32 - 1), st.integers(8, 32)), max_size=6),
    st.integers(0, 2**32 - 1),
)
def test_the_lookup_agrees_with_asking_every_subnet(spans: list[tuple[int, int]], number: int) -> None:
    """The standard library's ipaddress is the judge."""
    subnets = [IPv4Network((host, prefix), strict=False) for host, prefix in spans]
    address = ip_address(number)
    pages = book(*(Network(str(nth), (subnet,)) for nth, subnet in enumerate(subnets)))
    holding = [subnet for subnet in subnets if address in subnet]

    home = pages.at(address)

    assert (max(holding, key=lambda subnet: subnet.prefixlen) if holding else None) == (
        None if home is None else home[1].subnet
    )


@pytest.mark.parametrize(
    ("address", "lent"),
    [("10.0.0.9", False), ("10.0.0.10", True), ("10.0.0.20", True), ("10.0.0.21", False), ("::a00:f", False)],
)
def test_leases_include_both_ends_and_one_kind_of_address(address: str, lent: bool) -> None:
    assert lent == handed_out(ip_address(address), (ip_address("10.0.0.10"), ip_address("10.0.0.20")))


def test_a_span_holds_its_ends_and_one_kind_of_address() -> None:
    (span,) = book(MEDIA).spans["media"]

    assert [False, True, True, False, False] == [
        span.holds(ip_address(text))
        for text in ("10.44.19.255", "10.44.20.0", "10.44.20.255", "10.44.21.0", "::a2c:1401")
    ]


def test_the_networks_of_a_port_begin_with_the_untagged_one_which_its_bond_may_name() -> None:
    assert ("media", "office") == port_networks(jack(untagged="media", tagged=("office",)), Bond(("a",), "proxy"))
    assert ("proxy", "office") == port_networks(jack(tagged=("office",)), Bond(("a",), "proxy"))
    assert ("office",) == port_networks(jack(tagged=("office",)), Bond(("a",)))
    assert () == port_networks(jack())


def test_the_networks_of_a_bond_are_its_own_or_else_those_of_its_ports() -> None:
    box = seat(
        "cut-1",
        {"a": jack(), "b": jack(untagged="media", tagged=("office",)), "c": jack(untagged="proxy", tagged=("office",))},
    )

    assert ("media", "office") == bond_networks(box, Bond(("a", "b", "c")))
    assert ("proxy", "office") == bond_networks(box, Bond(("a", "b", "c"), "proxy"))
    assert () == bond_networks(box, Bond(("a",)))


def test_the_fixed_addresses_are_those_held_and_the_gateways_that_nobody_holds() -> None:
    pages = book(
        network("media", "10.44.20.0/24", "10.44.20.1"),
        network("office", "10.44.21.0/24", "10.44.21.1"),
        held=("10.44.20.1",),
    )

    assert ["cut-1/wire", "the gateway of office"] == [held.holder for held in pages.fixed]


def test_a_large_subnet_is_not_walked_through() -> None:
    assert ", such as fd00::5" == free(book(network("media", "fd00::/8")), "::5")
