"""What an SMB conversation is called and how it is signed in; the rest is tried in test_smb.py and in the lab."""

from __future__ import annotations

import logging
from ipaddress import ip_address

import pytest
from oddservers import says, served
from smbanswers import negotiated
from smbprotocol import Dialects
from smbprotocol.exceptions import SMBException
from smbprotocol.session import Session

from netaudit.errors import PrivilegeError
from netaudit.machine import smb_session
from netaudit.machine.clock import Deadline


@pytest.mark.parametrize(
    ("address", "name"),
    [
        ("10.44.20.10", "10.44.20.10"),
        ("2001:db8::10", "2001-db8--10.ipv6-literal.net"),
        ("fe80::10%en5", "fe80--10.ipv6-literal.net"),
    ],
)
def test_an_address_in_a_path_has_no_colon(address: str, name: str) -> None:
    assert name == smb_session.server_name(ip_address(address))


def test_every_version_of_the_library_has_its_name() -> None:
    """MS-SMB2 section 2.2.3; the wildcard is no version but a question back."""
    known = {value for name, value in vars(Dialects).items() if name.startswith("SMB_")}

    assert known - {Dialects.SMB_2_WILDCARD} == set(smb_session.DIALECTS)


def test_the_libraries_beneath_keep_quiet() -> None:
    assert {logging.CRITICAL} == {logging.getLogger(name).level for name in ("smbprotocol", "spnego")}


@pytest.mark.parametrize(
    ("user", "needs"),
    [
        (None, "a user name of the storage (--user)"),
        ("ada", "a user name of the storage (--user) that it lets in: it refuses 'ada'"),
    ],
)
def test_a_refusal_asks_for_a_user(user: str | None, needs: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(_: Session) -> None:
        raise SMBException("refused")

    monkeypatch.setattr(Session, "connect", refused)
    with served(says(negotiated())) as end, smb_session.conversation(end, Deadline(2), signed=False) as talk:
        with pytest.raises(PrivilegeError) as refusal:
            smb_session.signed_in(talk, user, "secret")

        assert needs == refusal.value.needs


def test_a_user_signs_and_a_guest_who_has_no_key_does_not(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Session, "connect", lambda _: None)
    with served(says(negotiated())) as end, smb_session.conversation(end, Deadline(2), signed=True) as talk:
        named = smb_session.signed_in(talk, "ada", "secret")
        guest = smb_session.signed_in(talk, None, "ignored")

    assert ("ada", "secret", True, "ntlm") == (
        named.username,
        named.password,
        named.signing_required,
        named.auth_protocol,
    )
    assert ("guest", "", False, "ntlm") == (guest.username, guest.password, guest.signing_required, guest.auth_protocol)
