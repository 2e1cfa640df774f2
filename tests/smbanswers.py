"""An SMB server's answer to the first question, laid out by the library smbprotocol, which follows MS-SMB2."""

from __future__ import annotations

import uuid

from smbprotocol import Dialects
from smbprotocol.connection import SecurityMode, SMB2NegotiateResponse

VAULT = uuid.UUID("02000000-0000-4000-8000-0000000000aa")
SIGNING_ENABLED = SecurityMode.SMB2_NEGOTIATE_SIGNING_ENABLED
SIGNING_REQUIRED = SIGNING_ENABLED | SecurityMode.SMB2_NEGOTIATE_SIGNING_REQUIRED


def negotiated(dialect: int = Dialects.SMB_3_0_2, mode: int = SIGNING_ENABLED, identity: uuid.UUID = VAULT) -> bytes:
    """The whole answer to a negotiation, with its length before it."""
    response = SMB2NegotiateResponse()
    response["security_mode"] = mode
    response["dialect_revision"] = dialect
    response["server_guid"] = identity
    response["max_transact_size"] = response["max_read_size"] = response["max_write_size"] = 65_536
    message = header(command=0) + response.pack()
    return b"\0" + len(message).to_bytes(3) + message


def refused_in_odd_words() -> bytes:
    """An error response of MS-SMB2 section 2.2.2 with one context, whose kind no document knows."""
    context = (4).to_bytes(4, "little") + b"odd!" + bytes(4)
    error = b"\x09\0" + b"\x01\0" + len(context).to_bytes(4, "little") + context
    message = header(command=0, status=0xC000_0022) + error
    return b"\0" + len(message).to_bytes(3) + message


def header(command: int, status: int = 0) -> bytes:
    """A header of MS-SMB2 section 2.2.1.2: a status, one credit, an answer, message 0."""
    return b"\xfeSMB" + b"".join(
        number.to_bytes(octets, "little")
        for number, octets in (
            (64, 2), (0, 2), (status, 4), (command, 2), (1, 2), (1, 4), (0, 4), (0, 8), (0, 4), (0, 4), (0, 8), (0, 16),
        )
    )  # fmt: skip
