"""Nothing of Windows runs here: answers are served from files written after documented formats."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from windowscalls import WindowsCalls
from windowsroom import interface, own_address, table, told

from netaudit.errors import MachineError, PrivilegeError
from netaudit.machine.windows.asked import Asked
from netaudit.machine.windows.client import client_facts
from netaudit.machine.windows.native import Native
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import ClientFacts, Mount

VAULT = [ip_address("10.44.20.10")]
MEDIA = Mount("X:", "smb", "\\\\vault\\media", host="vault", share="media")


def ways(*captures: str) -> Ways:
    calls = WindowsCalls(
        interfaces=table(interface(7, "Media 10G"), interface(12, "WLAN", PhysicalMediumType=9)),
        addresses=table(own_address(7, "10.44.20.12", 24)),
    )
    ask = told(*captures)
    return Ways(Native(calls.load), Asked(ask), ask)


def test_channels_bear_the_names_of_this_machines_interfaces_by_their_number() -> None:
    found = client_facts(ways("multichannel-mixed"), MEDIA, "vault", VAULT)

    assert ["Media 10G", "WLAN", "Ethernet"] == [each.interface for each in found.channels]
    assert ("3.1.1", True, False) == (found.dialect, found.signing, found.encryption)


def test_without_elevation_a_part_is_told_and_the_rest_is_unknown() -> None:
    found = client_facts(ways("multichannel-unelevated"), MEDIA, "vault", VAULT)

    assert 1 == len(found.channels)
    assert (None, None, None) == (found.dialect, found.signing, found.encryption)


def test_where_nothing_is_told_without_elevation_the_privilege_is_named() -> None:
    with pytest.raises(PrivilegeError, match="Run as administrator"):
        client_facts(ways("client-refused"), MEDIA, "vault", VAULT)


def test_a_windows_without_these_cmdlets_cannot_be_asked() -> None:
    with pytest.raises(MachineError, match="no cmdlet"):
        client_facts(ways("client-missing"), MEDIA, "vault", VAULT)


def test_no_session_is_an_empty_answer() -> None:
    assert ClientFacts() == client_facts(ways("client-empty"), MEDIA, "vault", VAULT)


def test_a_share_that_is_not_smb_is_none_of_the_smb_clients_business() -> None:
    def never(*queries: object) -> dict[str, object]:
        raise AssertionError("asked")

    asked = ways()._replace(ask=never)

    assert ClientFacts() == client_facts(asked, MEDIA._replace(kind="webdav"), "vault", VAULT)
