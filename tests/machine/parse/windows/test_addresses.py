"""Nothing of Windows runs here: the captures are written after the documented properties of MSFT_NetIPAddress and
MSFT_NetIPInterface; they are not taken from a machine."""

from __future__ import annotations

from windowsroom import capture

from netaudit.machine.parse.windows.addresses import addresses, ip_interface
from netaudit.machine.parse.windows.facts import IpInterface
from netaudit.machine.parse.windows.script import answered

FOUND = [(each.number, str(each.address)) for each in addresses(answered(capture("addresses"), "addresses"))]
INTERFACES = answered(capture("ip-interfaces"), "ipInterfaces")


def test_every_address_comes_with_its_interface_and_its_prefix() -> None:
    assert (7, "10.44.20.12/24") in FOUND
    assert (20, "198.51.100.77/32") in FOUND


def test_the_zone_of_a_link_local_address_is_no_part_of_it() -> None:
    assert (7, "fe80::5eff:fe00:5312/64") in FOUND


def test_an_address_of_an_unplugged_port_is_kept_and_an_invalid_one_is_not() -> None:
    """AddressState 1 is tentative, 0 invalid (MSFT_NetIPAddress)."""
    assert (4, "169.254.7.9/16") in FOUND
    assert 9 not in {number for number, _ in FOUND}


def test_rows_that_are_no_address_are_left_away() -> None:
    assert () == addresses(
        [{"IPAddress": "not one", "InterfaceIndex": 1}, {"IPAddress": 7}, {}, {"IPAddress": "10.0.0.1"}]
    )


def test_each_version_of_ip_has_a_row_of_its_own() -> None:
    assert IpInterface(25, 1500, weak=True) == ip_interface(INTERFACES, 4, 2)
    assert IpInterface(15, 9000, weak=False) == ip_interface(INTERFACES, 7, 23)
    assert ip_interface(INTERFACES, 4, 23) is None


def test_a_loopback_without_limit_has_no_mtu() -> None:
    assert IpInterface(75, None, weak=False) == ip_interface(INTERFACES, 1, 2)
