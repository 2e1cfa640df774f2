"""The hosts file: format as published in hosts(5), and as Windows ships it; not taken from a machine."""

from ipaddress import ip_address

import pytest
from spoiled import spoiled

from netaudit.machine.parse.hosts import hosts_addresses

HOSTS = (
    "# static names\r\n"
    "127.0.0.1\tlocalhost\r\n"
    "10.44.20.10   vault vault.boathouse.example\t# fast port\r\n"
    "10.44.20.10 vault\r\n"
    "fd55::50 Vault.Boathouse.Example.\r\n"
    "fe80::1%en5 nearby\r\n"
    "# 10.44.20.99 vault\r\n"
    "10.44.20 vault\r\n"
    "vault\r\n"
    "999.1.1.1 vault\r\n"
    "10.44.20.98 vaults #vault\r\n"
)


@pytest.mark.parametrize(
    ("name", "addresses"),
    [
        ("vault", {"10.44.20.10"}),
        ("VAULT.boathouse.example", {"10.44.20.10", "fd55::50"}),
        ("vault.boathouse.example.", {"10.44.20.10", "fd55::50"}),
        ("nearby", {"fe80::1%en5"}),
        ("store", set()),
        ("10.44.20.10", set()),
    ],
)
def test_a_name_has_the_addresses_that_stand_before_it(name: str, addresses: set[str]) -> None:
    expected = {ip_address(each) for each in addresses}

    assert expected == hosts_addresses(HOSTS, name)


def test_a_spoiled_file_never_makes_another_address_of_a_line() -> None:
    found = {each.version for text in spoiled(HOSTS) for each in hosts_addresses(text, "vault")}

    assert found <= {4, 6}
