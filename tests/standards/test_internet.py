"""Addresses that no port may be given, against the standard library's own reading of the registries."""

from __future__ import annotations

from ipaddress import ip_address

import pytest

from netaudit.standards.internet import (
    ANY_PORT_ANSWERS,
    ON_LINK_TEST,
    SPECIAL_ADDRESSES,
    SUBNET_ENDS,
    VERSION_6_ADDRESSES,
    ReservedBlock,
    reserved_blocks,
)


@pytest.mark.parametrize("block", reserved_blocks(), ids=lambda block: str(block.subnet))
def test_every_block_is_one_that_python_calls_unspecified_loopback_multicast_or_reserved(block: ReservedBlock) -> None:
    """Python's ipaddress follows RFC 1122, RFC 5735 and RFC 4291; 0.0.0.0/8 is `this network` and private in it."""
    for address in (block.subnet[0], block.subnet[-1]):
        special = address.is_unspecified or address.is_loopback or address.is_multicast or address.is_reserved
        this_network = address.version == 4 and str(address).startswith("0.") and address.is_private
        assert special or this_network
        assert block.holds(address)


@pytest.mark.parametrize(
    "address", ["1.0.0.0", "126.255.255.255", "128.0.0.0", "223.255.255.255", "169.254.1.1", "10.0.0.1", "fd00::1", "::2", "fe80::1"]
)  # fmt: skip
def test_what_lies_beside_the_blocks_is_free(address: str) -> None:
    assert not any(block.holds(ip_address(address)) for block in reserved_blocks())


def test_the_blocks_are_those_of_rfc_1122_3_2_1_3_and_rfc_4291_2_5_and_2_7() -> None:
    expected = [
        ("0.0.0.0/8", SPECIAL_ADDRESSES), ("127.0.0.0/8", SPECIAL_ADDRESSES), ("224.0.0.0/4", SPECIAL_ADDRESSES),
        ("240.0.0.0/4", SPECIAL_ADDRESSES), ("::/128", VERSION_6_ADDRESSES), ("::1/128", VERSION_6_ADDRESSES),
        ("ff00::/8", VERSION_6_ADDRESSES),
    ]  # fmt: skip

    assert expected == [(str(block.subnet), block.source) for block in reserved_blocks()]


def test_each_source_may_fail_a_plan() -> None:
    assert all(
        source.may_fail
        for source in (SPECIAL_ADDRESSES, SUBNET_ENDS, VERSION_6_ADDRESSES, ON_LINK_TEST, ANY_PORT_ANSWERS)
    )
