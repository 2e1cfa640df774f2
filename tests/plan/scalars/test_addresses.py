"""Addresses of hosts, subnets, leases and hardware."""

from __future__ import annotations

from collections.abc import Callable
from ipaddress import ip_address, ip_network

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import addresses, macs, subnets

from netaudit.model.plan import Address, Subnet
from netaudit.plan.scalars.addresses import address, address_or_lease, leases, mac, subnet

Refusal = Callable[[Callable[[str], object], str], str]


@given(addresses())
def test_every_address_is_read(expected: Address) -> None:
    assert expected == address(str(expected)) == address_or_lease(str(expected))


@given(subnets())
def test_every_subnet_is_read(expected: Subnet) -> None:
    assert expected == subnet(str(expected))


@given(macs())
def test_hardware_addresses_in_any_usual_spelling_are_one(expected: str) -> None:
    digits = expected.replace(":", "")
    dotted = ".".join(digits[start : start + 4] for start in (0, 4, 8))

    assert {expected} == {mac(expected), mac(expected.upper()), mac(expected.replace(":", "-")), mac(dotted)}


def test_an_address_may_be_handed_out() -> None:
    assert "lease" == address_or_lease("lease")


def test_leases_are_the_first_and_the_last_address() -> None:
    expected = (ip_address("10.44.20.100"), ip_address("10.44.20.199"))

    assert expected == leases("10.44.20.100-10.44.20.199") == leases("10.44.20.100 - 10.44.20.199")


@given(host=st.integers(0, 2**32 - 1), length=st.integers(1, 31))
def test_a_subnet_with_host_bits_is_told_the_right_one(host: int, length: int, refusal: Refusal) -> None:
    right = ip_network((host, length), strict=False)
    written = f"{ip_address(host)}/{length}"
    if ip_address(host) == right.network_address:
        assert right == subnet(written)
    else:
        assert f"'{written}' is an address inside a subnet: the subnet is {right}" == refusal(subnet, written)


@pytest.mark.parametrize(
    ("parse", "text", "message"),
    [
        (address, "", "nothing is written here: write an address such as 10.44.20.11, or leave the key out"),
        (address, "10.44.20.11/24", "'10.44.20.11/24' is an address with a subnet: write '10.44.20.11'"),
        (address, "10.44.020.11", "'10.44.020.11' has leading zeros: write '10.44.20.11'"),
        (address, "10.44.20.256", "'10.44.20.256' is not an address: write four numbers of 0 to 255, as 10.44.20.11, or one of version 6"),
        (address, "vault.local", "'vault.local' is not an address: write four numbers of 0 to 255, as 10.44.20.11, or one of version 6"),
        (address, "fe80::1%en0", "'fe80::1%en0' names an interface: write 'fe80::1'"),
        (subnet, "10.44.20.0", "'10.44.20.0' does not say how large the subnet is: write '10.44.20.0/24', say"),
        (subnet, "10.44.20.0/33", "'10.44.20.0/33': a subnet of this kind of address has a length of 0 to 32"),
        (subnet, "10.0.0.0/255.0.0.0", "'10.0.0.0/255.0.0.0' is not a subnet: write its first address and its length, as 10.44.20.0/24"),
        (subnet, "media", "'media' is not a subnet: write its first address and its length, as 10.44.20.0/24"),
        (leases, "10.44.20.9", "'10.44.20.9' is not a range of addresses: write the first and the last, as 10.44.20.100-10.44.20.199"),
        (leases, "10.44.20.9-10.44.20.1", "'10.44.20.9-10.44.20.1' runs backwards: write 10.44.20.1-10.44.20.9"),
        (leases, "10.44.20.9-fd00::1", "'10.44.20.9-fd00::1' mixes both kinds of address: write two of one kind"),
        (leases, "10.44.20.9-99", "'99' is not an address: write four numbers of 0 to 255, as 10.44.20.11, or one of version 6"),
        (mac, "02:00:5e:10:00", "'02:00:5e:10:00' is not a hardware address: write six pairs of hex digits, as 02:00:5e:10:00:01"),
        (mac, "02:00-5e:10:00:01", "'02:00-5e:10:00:01' is not a hardware address: write six pairs of hex digits, as 02:00:5e:10:00:01"),
    ],
)  # fmt: skip
def test_what_is_not_right_is_told_what_would_be(
    parse: Callable[[str], object], text: str, message: str, refusal: Refusal
) -> None:
    assert message == refusal(parse, text)


@given(st.sampled_from([address, subnet, leases, mac]), st.text(st.sampled_from("0123456789abcdef.:/-% ")))
def test_any_text_is_read_or_refused(parse: Callable[[str], object], text: str) -> None:
    message = "read"
    try:
        parse(text)
    except ValueError as error:
        message = str(error)

    assert message.isprintable()
    assert message
