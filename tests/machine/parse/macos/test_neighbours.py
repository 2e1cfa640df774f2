"""`arp -an` and `ndp -an`. Formats: Apple's arp.c and ndp.c; captures are written from them, not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

from mac_captures import capture

from netaudit.machine.parse.macos.neighbours import Neighbour, parse_arp, parse_ndp


def test_hardware_addresses_get_their_leading_zeros_back() -> None:
    """Arp prints 2:0:5e:a:b:c for 02:00:5e:0a:0b:0c."""
    assert Neighbour(ip_address("10.44.20.1"), "02:00:5e:00:00:01", "en0") == parse_arp(capture("arp-an.txt"))[0]


def test_one_address_may_stand_on_two_interfaces() -> None:
    found = [row for row in parse_arp(capture("arp-an.txt")) if row.address == ip_address("10.44.20.10")]

    assert [("en0", "02:00:5e:0a:0b:0c"), ("en7", "02:00:5e:0a:0b:0d")] == [(row.interface, row.mac) for row in found]


def test_who_has_not_answered_has_no_hardware_address_and_no_entry_is_none() -> None:
    rows = {str(row.address): row.mac for row in parse_arp(capture("arp-an.txt"))}

    assert rows["10.44.20.77"] is None
    assert "10.44.20.99" not in rows


def test_a_line_whose_address_is_none_is_left_out() -> None:
    assert () == parse_arp("? (10.44.20.999) at 2:0:5e:a:b:c on en7 ifscope [ethernet]\nno line of the table\n")


def test_ipv6_neighbours_are_read_below_their_header() -> None:
    rows = parse_ndp(capture("ndp-an.txt"))

    assert 4 == len(rows)
    assert Neighbour(ip_address("fe80::10%en7"), "02:00:5e:0a:0b:0c", "en7") == rows[1]
    assert rows[2].mac is None


def test_a_row_that_ends_with_its_interface_is_read_and_one_that_ends_before_it_is_not() -> None:
    text = "fe80::10%en7 2:0:5e:a:b:c en7\nfe80::11%en7 2:0:5e:a:b:d\n"

    assert (Neighbour(ip_address("fe80::10%en7"), "02:00:5e:0a:0b:0c", "en7"),) == parse_ndp(text)
