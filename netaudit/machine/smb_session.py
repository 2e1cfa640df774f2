"""A conversation with an SMB server by the library smbprotocol, over a wire that ends with a deadline.

Only machine/smb.py imports this file, and only when an SMB server is asked: the library takes a while to load.
"""

from __future__ import annotations

import logging
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from smbprotocol import Dialects  # type: ignore[import-untyped]
from smbprotocol.connection import Connection, SecurityMode  # type: ignore[import-untyped]
from smbprotocol.exceptions import SMBException, SMBResponseException  # type: ignore[import-untyped]
from smbprotocol.ioctl import CtlCode, IOCTLFlags, SMB2IOCTLRequest, SMB2IOCTLResponse  # type: ignore[import-untyped]
from smbprotocol.session import Session  # type: ignore[import-untyped]
from smbprotocol.tree import TreeConnect  # type: ignore[import-untyped]

from netaudit.errors import AnswerError, NetauditError, PrivilegeError
from netaudit.machine.clock import Deadline
from netaudit.machine.parse import smb_ports
from netaudit.machine.smb_wire import Wire
from netaudit.model.machine_state import Endpoint
from netaudit.model.observation import Offer, SmbFacts
from netaudit.model.vocabulary import Address

for _name in ("smbprotocol", "spnego"):
    logging.getLogger(_name).setLevel(logging.CRITICAL)

DIALECTS = {
    Dialects.SMB_2_0_2: "2.0.2",
    Dialects.SMB_2_1_0: "2.1",
    Dialects.SMB_3_0_0: "3.0",
    Dialects.SMB_3_0_2: "3.0.2",
    Dialects.SMB_3_1_1: "3.1.1",
}
"""Versions of the protocol, as people write them: MS-SMB2 section 2.2.3."""
GUEST = "guest"
"""Who signs in where no user is named: a name that servers which let strangers in take for a guest."""
MOST_LIST_OCTETS = 65_536
WAIT_S = 3600
"""Longer than any wire lives: the wire ends every wait."""
NO_FILE = b"\xff" * 16


class _Conversation(Connection):  # type: ignore[misc]
    """The library's connection on a wire of our own."""

    def __init__(self, wire: Wire, end: Endpoint, require_signing: bool) -> None:  # noqa: FBT001 - the library's word
        self._wire = wire
        super().__init__(uuid.uuid4(), server_name(end.address), end.port, require_signing)

    @property
    def transport(self) -> Wire:
        """The wire, whatever transport the library makes for itself."""
        return self._wire

    @transport.setter
    def transport(self, _: object) -> None:
        """The library's own transport has no deadline: it is not taken."""


@contextmanager
def conversation(end: Endpoint, deadline: Deadline, *, signed: bool) -> Iterator[Any]:
    """An SMB server after the two sides have agreed on a version; at the end its thread and its socket are gone.

    Raises AnswerError where it does not answer as SMB 2 or 3 in time.
    """
    wire = Wire(end, deadline)
    try:
        talk = _Conversation(wire, end, signed)
        try:
            with _plainly(end):
                talk.connect(timeout=WAIT_S)
                yield talk
        finally:
            talk.disconnect(close=False)
    finally:
        wire.free()


def facts(talk: Any) -> SmbFacts:
    """What a server says of itself before anybody signs in."""
    identity = talk.server_guid
    return SmbFacts(
        dialect=DIALECTS.get(talk.dialect),
        signing_required=bool(talk.server_security_mode & SecurityMode.SMB2_NEGOTIATE_SIGNING_REQUIRED),
        identity=str(identity) if identity.int else None,
    )


def signed_in(talk: Any, user: str | None, password: str) -> Any:
    """A session of a user, or of a guest where none is named; raises PrivilegeError where the server refuses.

    NTLM is used always: Kerberos would ask other hosts.
    """
    session = Session(talk, user or GUEST, password if user else "", require_encryption=False, auth_protocol="ntlm")
    session.signing_required = user is not None
    with _refusing(user):
        session.connect()
    return session


def share(session: Any, end: Endpoint, name: str, user: str | None) -> Any:
    """A share of a server, connected; raises PrivilegeError where it refuses."""
    tree = TreeConnect(session, rf"\\{server_name(end.address)}\{name}")
    with _refusing(user):
        tree.connect(require_secure_negotiate=session.signing_key is not None)
    return tree


def port_list(session: Any, tree: Any) -> tuple[Offer, ...] | None:
    """The ports that a server offers; None where it does not tell."""
    question = SMB2IOCTLRequest()
    question["ctl_code"] = CtlCode.FSCTL_QUERY_NETWORK_INTERFACE_INFO
    question["file_id"] = NO_FILE
    question["max_output_response"] = MOST_LIST_OCTETS
    question["flags"] = IOCTLFlags.SMB2_0_IOCTL_IS_FSCTL
    talk = session.connection
    try:
        answer = talk.receive(talk.send(question, sid=session.session_id, tid=tree.tree_connect_id))
    except SMBResponseException:
        return None
    response = SMB2IOCTLResponse()
    response.unpack(answer["data"].get_value())
    return smb_ports.offers(response["buffer"].get_value())


def encryption(session: Any, end: Endpoint, name: str | None, user: str | None) -> bool | None:
    """Whether a server demands encryption of the whole session or of one share; None where that stays open."""
    if session.encrypt_data:
        return True
    if name is None:
        return None
    try:
        return bool(share(session, end, name, user).encrypt_data)
    except PrivilegeError:
        return None


def server_name(address: Address) -> str:
    """An address as the name of a server in a path, where a colon may not stand."""
    plain = str(address).partition("%")[0]
    return plain if address.version == 4 else f"{plain.replace(':', '-')}.ipv6-literal.net"


@contextmanager
def _plainly(end: Endpoint) -> Iterator[None]:
    """Whatever the library makes of an odd answer, as an AnswerError; its own words may fail to be put together."""
    try:
        yield
    except NetauditError:
        raise
    except Exception as error:
        raise AnswerError(f"{end} does not answer as an SMB server does") from error


@contextmanager
def _refusing(user: str | None) -> Iterator[None]:
    """A refusal of the server as the name that it asks for."""
    try:
        yield
    except SMBException as error:
        wanted = "a user name of the storage (--user)"
        raise PrivilegeError(wanted if user is None else f"{wanted} that it lets in: it refuses {user!r}") from error
