"""Nothing of Windows runs here: the captures are written after the documented properties of
MSFT_SmbMultichannelConnection, MSFT_SmbConnection and MSFT_SmbMapping; they are not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from windowsroom import capture

from netaudit.machine.parse.windows.script import answered
from netaudit.machine.parse.windows.smb import Party, client, mapped, party
from netaudit.model.machine_state import Channel, ClientFacts

VAULT = party("vault", None, None, [ip_address("10.44.20.10")])
INTERFACES = {7: "Ethernet 2", 12: "WLAN", 4: "Ethernet"}


def facts(name: str, storage: Party = VAULT) -> ClientFacts:
    answers = capture(name)
    return client(answered(answers, "multichannel"), answered(answers, "smbSessions"), storage, INTERFACES)


def test_multichannel_that_mixes_wifi_with_the_wire_shows_both_and_what_stands_by() -> None:
    expected = (
        Channel("\\\\vault", "Ethernet 2", ip_address("10.44.20.12"), ip_address("10.44.20.10"), 10_000_000_000),
        Channel("\\\\vault", "WLAN", ip_address("192.168.44.32"), ip_address("192.168.44.10"), 2_402_000_000),
        Channel(
            "\\\\vault", "Ethernet", ip_address("10.44.20.14"), ip_address("10.44.20.10"), 1_000_000_000, active=False
        ),
    )

    assert expected == facts("multichannel-mixed").channels


def test_the_session_of_another_server_is_not_the_storages() -> None:
    found = facts("multichannel-mixed", party("vault", "vault", "media", []))

    assert ("3.1.1", True, False) == (found.dialect, found.signing, found.encryption)


def test_what_shares_of_one_server_do_not_agree_on_is_unknown() -> None:
    found = facts("multichannel-mixed")

    assert ("3.1.1", True, None) == (found.dialect, found.signing, found.encryption)


def test_a_storage_mounted_by_name_is_found_by_its_address() -> None:
    found = facts("multichannel-single-5.1", party("10.44.20.10", None, None, [ip_address("10.44.20.10")]))

    assert 1 == len(found.channels)
    assert "3.1.1" == found.dialect


def test_what_an_old_version_does_not_tell_is_unknown_not_false() -> None:
    assert facts("multichannel-single-5.1").signing is None


def test_no_multichannel_is_no_channel() -> None:
    assert ClientFacts() == facts("client-empty")


def test_an_interface_that_is_not_listed_keeps_the_name_that_the_client_gives_it() -> None:
    answers = capture("multichannel-single-5.1")
    found = client(answered(answers, "multichannel"), (), VAULT, {})

    assert "Ethernet 2" == found.channels[0].interface


def test_an_interface_is_called_as_this_machine_lists_it() -> None:
    row = {**answered(capture("multichannel-single-5.1"), "multichannel")[0], "ClientInterfaceIndex": 12}

    assert "WLAN" == client([row], (), VAULT, INTERFACES).channels[0].interface


@pytest.mark.parametrize("change", [{"Failed": True}, {"Selected": False}, {"CurrentChannels": 0}])
def test_a_pair_that_failed_or_was_not_chosen_or_has_no_connection_carries_nothing(change: dict[str, object]) -> None:
    row = {**answered(capture("multichannel-single-5.1"), "multichannel")[0], **change}

    assert not client([row], (), VAULT, INTERFACES).channels[0].active


def test_a_link_rate_of_all_ones_is_unknown() -> None:
    row = {**answered(capture("multichannel-single-5.1"), "multichannel")[0], "ClientLinkSpeed": 2**64 - 1}

    assert client([row], (), VAULT, INTERFACES).channels[0].rate_bit_per_s is None


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("vault", True),
        ("VAULT", True),
        ("vault.boathouse.example", True),
        ("10.44.20.10", True),
        ("vault-2", False),
        ("10", False),
        ("", False),
        (None, False),
    ],
)
def test_a_server_goes_by_its_short_and_its_long_name_in_any_case(name: str | None, expected: bool) -> None:
    assert expected == VAULT.is_called(name)


def test_an_address_is_never_taken_for_a_long_name() -> None:
    assert not party("10", None, None, []).is_called("10.44.20.10")


def test_two_long_names_with_one_first_label_are_two_servers() -> None:
    assert not party("vault.boathouse.example", None, None, []).is_called("vault.attic.example")


def test_a_mapped_drive_stands_for_its_share_whatever_the_case() -> None:
    rows = answered(capture("mappings"), "mappings")

    assert "\\\\vault\\media" == mapped(rows, "x:")
    assert mapped(rows, "Y:") is None
