"""The smallest netlink client: one question to the kernel, and its answers as bytes.

It is our own for two reasons. The library for netlink, pyroute2, drops the protocol, the ports and the user of a route
look-up without a word, so that it answers for another connection than the one that was asked about; and loading it
takes longer than the whole first answer of a probe may. Layouts: linux/netlink.h.
"""

from __future__ import annotations

import errno
import os
import socket
import struct
import sys
from collections.abc import Iterator
from ipaddress import IPv4Address, IPv6Address
from typing import NamedTuple

from netaudit.errors import AnswerError, MachineError, PrivilegeError
from netaudit.machine.clock import Deadline
from netaudit.model.vocabulary import Address

ROUTE, SOCK_DIAG, GENERIC = 0, 4, 16
"""Families of questions: links and routes, living sockets, everything registered by name."""
TIMEOUT_S = 2.0
"""How long the kernel may take to answer one question [s]."""
MOST_BYTES = 64_000_000
"""How much of one answer is listened to [byte]."""

_PIECE_BYTES = 262_144
_REQUEST, _DUMP = 0x1, 0x300
_DUMP_INTERRUPTED = 0x10
_ATTEMPTS = 3
_SEQUENCE = 1
"""Each question has a socket of its own: one number tells its answers from news that nobody asked for."""
_ERROR, _DONE = 2, 3
_HEADER = struct.Struct("=IHHII")
_ATTRIBUTE = struct.Struct("=HH")
_KIND_MASK = 0x3FFF
"""Without the two marks `nested` and `in network byte order`."""


class Message(NamedTuple):
    """One message of an answer, as it came."""

    kind: int
    flags: int
    sequence: int
    body: bytes


def ask(family: int, kind: int, body: bytes) -> Message:
    """The one answer to a question.

    Raises OSError with the kernel's own number where it refuses, AnswerError where it does not answer in time or in a
    form that can be read, and PrivilegeError or MachineError where netlink is closed to this process.
    """
    for message in _answers(family, kind, _REQUEST, body):
        return message
    raise AnswerError("the kernel gave an empty answer")


def dump(family: int, kind: int, body: bytes) -> tuple[Message, ...]:
    """Every answer to a question for a list; raises as `ask` does, and AnswerError where the kernel refuses.

    A list that changes while it is read is read again, and in the end taken as it is.
    """
    found: tuple[Message, ...] = ()
    try:
        for _ in range(_ATTEMPTS):
            found = tuple(_answers(family, kind, _REQUEST | _DUMP, body))
            if not any(message.flags & _DUMP_INTERRUPTED for message in found):
                break
    except OSError as error:
        raise refusal(error) from error
    return found


def refusal(error: OSError) -> MachineError:
    """A refusal of the kernel that says nothing about the network, as an error of this package."""
    if error.errno in (errno.EPERM, errno.EACCES):
        return PrivilegeError("permission to ask the kernel over netlink, which a sandbox may forbid")
    return AnswerError(f"the kernel refuses to answer: {error.strerror or error}")


def attribute(kind: int, value: bytes) -> bytes:
    """One attribute of a question."""
    size = _ATTRIBUTE.size + len(value)
    return _ATTRIBUTE.pack(size, kind) + value + bytes(-size % 4)


def number_attribute(kind: int, value: int) -> bytes:
    """One attribute of a question, of 32 bits."""
    return attribute(kind, struct.pack("=I", value))


def attributes(data: bytes) -> dict[int, bytes]:
    """The attributes of an answer by kind; as the kernel reads them, up to the first that is cut or malformed."""
    found: dict[int, bytes] = {}
    at = 0
    while at + _ATTRIBUTE.size <= len(data):
        size, kind = _ATTRIBUTE.unpack_from(data, at)
        if size < _ATTRIBUTE.size or at + size > len(data):
            break
        found[kind & _KIND_MASK] = data[at + _ATTRIBUTE.size : at + size]
        at += size + -size % 4
    return found


def number(value: bytes | None) -> int | None:
    """A number in this machine's byte order; None where the attribute is missing or empty."""
    return int.from_bytes(value, sys.byteorder) if value else None


def text(value: bytes | None) -> str | None:
    """A name; None where the attribute is missing or empty."""
    if value is None:
        return None
    return value.partition(b"\0")[0].decode("utf-8", "replace") or None


def address(value: bytes | None, interface: str | None = None) -> Address | None:
    """An address by its 4 or 16 octets; None for any other number of them.

    One that is only valid on its link bears the name of its interface, as `fe80::1%en5`, unless that name may not stand
    in an address.
    """
    if value is None or len(value) not in (4, 16):
        return None
    if len(value) == 4:
        return IPv4Address(value)
    found = IPv6Address(value)
    scoped = found.is_link_local and interface and "%" not in interface
    return IPv6Address(f"{found}%{interface}") if scoped else found


def messages(data: bytes) -> Iterator[Message]:
    """The messages in one piece of an answer; raises AnswerError where one is cut or malformed."""
    at = 0
    while at < len(data):
        if at + _HEADER.size > len(data):
            raise AnswerError("the kernel's answer ends within a message")
        size, kind, flags, sequence, _ = _HEADER.unpack_from(data, at)
        if size < _HEADER.size or at + size > len(data):
            raise AnswerError("the kernel's answer has a message of an impossible size")
        yield Message(kind, flags, sequence, data[at + _HEADER.size : at + size])
        at += size + -size % 4


def _answers(family: int, kind: int, flags: int, body: bytes) -> Iterator[Message]:
    """Ask, and hand on what is answered until the kernel says that it is all."""
    with _open(family) as talk:
        talk.send(_HEADER.pack(_HEADER.size + len(body), kind, flags, _SEQUENCE, 0) + body)
        for piece in _pieces(talk):
            for message in messages(piece):
                if message.sequence != _SEQUENCE:
                    continue
                if message.kind in (_ERROR, _DONE):
                    _raise_refusal(message.body)
                    return
                yield message


def _open(family: int) -> socket.socket:
    try:
        return socket.socket(socket.AF_NETLINK, socket.SOCK_RAW | socket.SOCK_CLOEXEC, family)
    except PermissionError as error:
        raise refusal(error) from error
    except OSError as error:
        raise MachineError(f"this kernel's netlink cannot be asked: {error.strerror or error}") from error


def _pieces(talk: socket.socket) -> Iterator[bytes]:
    """What the kernel says, piece by piece, within the time and the bytes that one answer may take."""
    deadline = Deadline(TIMEOUT_S)
    heard = 0
    while heard <= MOST_BYTES:
        if deadline.over:
            break
        talk.settimeout(deadline.left_s)
        try:
            data, _, flags, sender = talk.recvmsg(_PIECE_BYTES)
        except TimeoutError:
            break
        if flags & socket.MSG_TRUNC:
            raise AnswerError(f"the kernel gave a message of more than {_PIECE_BYTES} bytes")
        heard += len(data)
        if sender[0] == 0:
            yield data
    if heard > MOST_BYTES:
        raise AnswerError(f"the kernel's answer is longer than {MOST_BYTES // 1_000_000} MB")
    raise AnswerError(f"the kernel did not answer within {TIMEOUT_S:g} s")


def _raise_refusal(body: bytes) -> None:
    """The kernel's own error number, where it gives one."""
    code = int.from_bytes(body[:4], sys.byteorder, signed=True)
    if code < 0:
        raise OSError(-code, os.strerror(-code))
