"""One ICMP echo request by the calls of Windows, which need no elevation and choose the source address."""

from __future__ import annotations

import ctypes
from ctypes import byref, c_uint32, c_void_p, sizeof
from ipaddress import IPv6Address
from typing import NamedTuple

from netaudit.errors import AnswerError
from netaudit.machine.parse.windows.facts import Echo
from netaudit.machine.parse.windows.layouts import Echo4Reply, Echo6Reply, EchoOptions, SocketAddress
from netaudit.machine.parse.windows.rows import VERSION_4, VERSION_6, echo_4, echo_6
from netaudit.machine.windows.calls import call, last_error
from netaudit.model.vocabulary import Address

_UNBROKEN = 2
"""IP_FLAG_DF of ipexport.h: not to be cut on the way."""
_ROOM_OCTETS = 8 + 16
"""Beside the reply and its data: an ICMP error, and a status block (IcmpSendEcho2Ex, Windows documentation)."""
_INVALID = c_void_p(-1).value
_MOST_PAYLOAD_OCTETS = 65_500


class EchoRequest(NamedTuple):
    """One packet to be answered, not to be cut on its way."""

    remote: Address
    local: Address
    payload_octets: int
    timeout_s: float
    hops: int = 64
    """How many routers may pass it on, and one more."""


def send_echo(library: ctypes.CDLL, asked: EchoRequest) -> Echo:
    """Send one request and wait for what comes back.

    A request that came to nothing has the number of the Windows error as its status, without a responder.
    Raises AnswerError where Windows would not take it.
    """
    remote, local, octets = asked.remote, asked.local, asked.payload_octets
    if remote.version != local.version or not 0 <= octets <= _MOST_PAYLOAD_OCTETS:
        raise AnswerError(f"Windows cannot send {octets} octets from {local} to {remote}")
    request = (bytes(octets), octets, byref(EchoOptions(hops=asked.hops, flags=_UNBROKEN)))
    reply = ctypes.create_string_buffer(
        sizeof(Echo4Reply if remote.version == 4 else Echo6Reply) + octets + _ROOM_OCTETS
    )
    room = (byref(reply), sizeof(reply), max(1, round(asked.timeout_s * 1000)))
    if remote.version == 4:
        ends_4 = (c_uint32(_as_in_memory(local)), c_uint32(_as_in_memory(remote)))
        code = _asked(library, "IcmpCreateFile", "IcmpSendEcho2Ex", (*ends_4, *request, *room))
        return echo_4(reply.raw) if code is None else Echo(code)
    ends_6 = (byref(socket_address(local)), byref(socket_address(remote)))
    code = _asked(library, "Icmp6CreateFile", "Icmp6SendEcho2", (*ends_6, *request, *room))
    return echo_6(reply.raw) if code is None else Echo(code)


def socket_address(address: Address) -> SocketAddress:
    """An address as Windows takes it."""
    row = SocketAddress()
    if isinstance(address, IPv6Address):
        row.family, row.version_6 = VERSION_6, type(row.version_6).from_buffer_copy(address.packed)
        scope = address.scope_id or ""
        row.scope = int(scope) if scope.isascii() and scope.isdigit() and len(scope) < 10 else 0
    else:
        row.family, row.version_4 = VERSION_4, type(row.version_4).from_buffer_copy(address.packed)
    return row


def _asked(library: ctypes.CDLL, opener: str, sender: str, arguments: tuple[object, ...]) -> int | None:
    """None where a reply was written; else the number of the Windows error."""
    handle = _opened(library, opener)
    try:
        replies = call(library, sender, c_void_p(handle), None, None, None, *arguments)
        return None if replies else last_error()
    finally:
        call(library, "IcmpCloseHandle", c_void_p(handle))


def _opened(library: ctypes.CDLL, opener: str) -> int:
    """A handle, which is as wide as a pointer."""
    if hasattr(library, opener):
        getattr(library, opener).restype = c_void_p
    handle = call(library, opener)
    if handle in (0, _INVALID):
        raise AnswerError(f"{opener} failed with Windows error {last_error()}")
    return handle


def _as_in_memory(address: Address) -> int:
    """An IPv4 address as the number that lies in memory in network order."""
    return int.from_bytes(address.packed, "little")
