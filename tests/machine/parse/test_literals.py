"""Addresses as the systems write them."""

from __future__ import annotations

from ipaddress import ip_address

import pytest

from netaudit.machine.parse.literals import address_of, without_zone


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("10.44.20.10", "10.44.20.10"),
        ("[2001:db8:44::10]", "2001:db8:44::10"),
        ("fe80::10%en7", "fe80::10%en7"),
        ("fe80::1%7", "fe80::1%7"),
        ("::ffff:10.44.20.10", "10.44.20.10"),
        ("2001:0db8:0044:0000:0000:0000:0000:0010", "2001:db8:44::10"),
    ],
)
def test_an_address_is_read_however_it_is_written(text: str, expected: str) -> None:
    """Forms of RFC 4291 sections 2.2 and 2.5.5.2, RFC 4007 section 11 (zones) and RFC 3986 section 3.2.2 (brackets)."""
    assert ip_address(expected) == address_of(text)


@pytest.mark.parametrize(
    "text", [None, "", "*", "vault", "link#11", "10.44.20", "fe80::%en7%en8", "2:0:5e:a:b:c", "10.44.20.10/24"]
)
def test_what_is_no_address_is_none(text: str | None) -> None:
    assert address_of(text) is None


def test_a_zone_is_left_out_where_it_does_not_count() -> None:
    assert ip_address("fe80::10") == without_zone(ip_address("fe80::10%en7"))
    assert ip_address("10.44.20.10") == without_zone(ip_address("10.44.20.10"))
