"""The address book: which subnet an address lies in, and which ones are free."""

from __future__ import annotations

from ipaddress import IPv4Network, ip_address

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wiring import jack, network, seat, wired

from netaudit.model.plan import Bond, Network
from netaudit.rules.addresses.book import MOST_TRIED, Book, bond_networks, handed_out, port_networks


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


def test_free_subnets_are_of_the_same_size_and_overlap_none() -> None:
    pages = book(MEDIA, network("office", "10.44.22.128/25"), network("wide", "10.44.24.0/22"))

    assert ("10.44.21.0/24", "10.44.23.0/24", "10.44.28.0/24") == pages.free_subnets("10.44.20.0/24", 3)
    assert ("10.44.23.0/25",) == pages.free_subnets("10.44.22.128/25", 1)
    assert () == pages.free_subnets("10.44.20.0/25", 1)
    assert ("fd00:0:0:1::/64",) == book(network("six", "fd00::/64")).free_subnets("fd00::/64", 1)


@pytest.mark.parametrize(
    ("subnet", "expected"),
    [
        ("10.255.254.0/24", ("10.255.255.0/24",)),
        ("10.255.255.0/24", ()),
        ("10.0.0.0/8", ()),
        ("172.31.254.0/24", ("172.31.255.0/24",)),
        ("172.31.255.0/24", ()),
        ("192.168.255.0/25", ("192.168.255.128/25",)),
        ("192.168.255.128/25", ()),
        ("fdff:ffff:ffff:fffe::/64", ("fdff:ffff:ffff:ffff::/64",)),
        ("fdff:ffff:ffff:ffff::/64", ()),
        ("198.51.100.0/24", ()),
        ("8.0.0.0/6", ()),
        ("fe80::/64", ()),
    ],
)
def test_free_subnets_end_with_the_block_for_private_use_and_others_have_none(
    subnet: str, expected: tuple[str, ...]
) -> None:
    """IETF RFC 1918 section 3: 10/8 to 10.255.255.255, 172.16/12 to 172.31.255.255, 192.168/16; RFC 4193: fd00::/8."""
    assert expected == book(network("edge", subnet)).free_subnets(subnet, 2)


def test_subnets_that_are_looked_at_are_few() -> None:
    crowd = [network(f"n{nth}", f"10.{20 + nth // 256}.{nth % 256}.0/24") for nth in range(MOST_TRIED)]

    assert () == book(*crowd).free_subnets("10.20.0.0/24", 1)
    assert ("10.21.255.0/24",) == book(*crowd[:-1]).free_subnets("10.20.0.0/24", 1)


@given(st.integers(0, 2**16 - 1), st.integers(17, 30), st.integers(0, 2**16 - 1), st.integers(17, 30))
def test_spans_overlap_as_the_standard_library_has_it(one: int, long: int, other: int, short: int) -> None:
    first = IPv4Network((0x0A2C0000 + one, long), strict=False)
    second = IPv4Network((0x0A2C0000 + other, short), strict=False)
    pages = book(network("a", str(first)), network("b", str(second)))

    assert first.overlaps(second) == pages.spans["a"][0].overlaps(pages.spans["b"][0])


def test_spans_of_two_kinds_of_address_never_overlap() -> None:
    pages = book(network("four", "0.0.0.0/24"), network("six", "::/120"))

    assert not pages.spans["four"][0].overlaps(pages.spans["six"][0])


@pytest.mark.parametrize("edge", ["10.44.20.0/32", "10.44.20.255/32"])
def test_one_shared_address_is_an_overlap(edge: str) -> None:
    pages = book(MEDIA, network("edge", edge))
    (wide,), (narrow,) = pages.spans["media"], pages.spans["edge"]

    assert wide.overlaps(narrow)
    assert narrow.overlaps(wide)


def test_only_addresses_of_version_6_count_on_their_own_wire() -> None:
    """RFC 4291 section 2.5.6: fe80::/10 is on every port; 169.254.0.0/16 is on the one that found no lease."""
    held = book(held=("169.254.1.1", "fe80::1", "fd00::1")).held

    assert [False, True, False] == [each.link_local for each in held]
