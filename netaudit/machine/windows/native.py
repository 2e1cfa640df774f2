"""The network tables of Windows by direct calls: fast, in every language the same, and without elevation.

Libraries are loaded when they are first called, so that this file can be read on any system. Each call copies what it
is given and frees what Windows allocated; a number that Windows returns instead of an answer raises AnswerError.
"""

from __future__ import annotations

import ctypes
import os
from collections.abc import Callable
from ctypes import Structure, addressof, byref, c_uint32, c_void_p, sizeof

from netaudit.errors import AnswerError
from netaudit.machine.parse.windows import rows
from netaudit.machine.parse.windows.facts import (
    AdapterFacts,
    AddressFacts,
    Connection,
    Echo,
    IpInterface,
    NeighbourFacts,
    RouteFound,
    refusal_text,
)
from netaudit.machine.parse.windows.layouts import (
    AddressRow,
    InterfaceRow,
    IpInterfaceRow,
    NeighbourRow,
    PathRow,
    RouteRow,
    SocketAddress,
    StackRow,
)
from netaudit.machine.parse.windows.rows import VERSION_4, VERSION_6
from netaudit.machine.windows.calls import call, load
from netaudit.machine.windows.echo import EchoRequest, send_echo, socket_address
from netaudit.model.vocabulary import Address

_BUFFER_TOO_SMALL = 122
_NOT_FOUND = 1168
_TRIES = 4
"""How often a table that grows meanwhile is asked for again."""
_MOST_OCTETS = 16_000_000
_LIVING = 4
"""TCP_TABLE_OWNER_PID_CONNECTIONS of iprtrmib.h."""
_UNIVERSAL_NAME = 1
_NAME_OCTETS = 65_536


class Native:
    """The calls; `loader` gives the library of a name."""

    def __init__(self, loader: Callable[[str], ctypes.CDLL] = load) -> None:
        self._load = loader

    def adapters(self) -> tuple[AdapterFacts, ...]:
        """Every interface and layer."""
        return rows.adapters(self._table("GetIfTable2", InterfaceRow))

    def addresses(self) -> tuple[AddressFacts, ...]:
        """This machine's own addresses."""
        return rows.addresses(self._table("GetUnicastIpAddressTable", AddressRow, 0))

    def neighbours(self) -> tuple[NeighbourFacts, ...]:
        """The neighbours that are known by hardware address."""
        return rows.neighbours(self._table("GetIpNetTable2", NeighbourRow, 0))

    def stack(self) -> tuple[tuple[int, int], ...]:
        """Which interface stands upon which."""
        return rows.stack(self._table("GetIfStackTable", StackRow, first=4))

    def connections(self) -> tuple[Connection, ...]:
        """Living TCP connections of all processes, the file client's own included."""
        return (
            *rows.connections_4(self._tcp_table(VERSION_4)),
            *rows.connections_6(self._tcp_table(VERSION_6)),
        )

    def best_route(self, remote: Address, local: Address | None = None) -> RouteFound:
        """The route that a connection from an address of this machine, or from any, would take."""
        source = None if local is None else byref(socket_address(local))
        row, chosen = RouteRow(), SocketAddress()
        library, destination = self._load("iphlpapi.dll"), byref(socket_address(remote))
        code = call(library, "GetBestRoute2", None, 0, source, destination, 0, byref(row), byref(chosen))
        if code:
            why_not = refusal_text(code)
            if why_not is None:
                raise AnswerError(f"GetBestRoute2 failed with Windows error {code}")
            return RouteFound(None, why_not)
        return RouteFound(rows.route(bytes(row), bytes(chosen)))

    def ip_interface(self, number: int, version: int) -> IpInterface | None:
        """How a version of IP, 4 or 6, uses an interface; None where it does not."""
        library = self._load("iphlpapi.dll")
        row = IpInterfaceRow()
        call(library, "InitializeIpInterfaceEntry", byref(row))
        row.family, row.number = VERSION_4 if version == 4 else VERSION_6, number
        code = call(library, "GetIpInterfaceEntry", byref(row))
        return None if code else rows.ip_interface(bytes(row))

    def path_mtu(self, number: int, local: Address, remote: Address) -> int | None:
        """The largest packet that the system has learnt to pass on its way [octets]; None where it knows no way yet."""
        row = PathRow(source=socket_address(local), destination=socket_address(remote), number=number)
        code = call(self._load("iphlpapi.dll"), "GetIpPathEntry", byref(row))
        return None if code else rows.path_mtu(bytes(row))

    def universal_name(self, path: str) -> tuple[int, str]:
        """The UNC path behind a path on a mapped drive, after a Windows error that is 0 where there is one."""
        buffer = ctypes.create_string_buffer(_NAME_OCTETS)
        size = c_uint32(_NAME_OCTETS)
        arguments = (ctypes.c_wchar_p(path), _UNIVERSAL_NAME, byref(buffer), byref(size))
        code = call(self._load("mpr.dll"), "WNetGetUniversalNameW", *arguments)
        if code:
            return code, ""
        pointer = c_void_p.from_buffer(buffer).value or 0
        inside = addressof(buffer) <= pointer < addressof(buffer) + _NAME_OCTETS
        return 0, _wide_text(buffer.raw[pointer - addressof(buffer) :]) if inside else ""

    def echo(self, request: EchoRequest) -> Echo:
        """Send one echo request and wait for what comes back; raises AnswerError where Windows would not take it."""
        return send_echo(self._load("iphlpapi.dll"), request)

    def absolute(self, folder: str) -> str:
        """A path from its root, by words alone."""
        return os.path.abspath(folder)

    def is_folder(self, folder: str) -> bool:
        """Whether there is such a folder; to be asked of local disks only."""
        return os.path.isdir(folder)

    def _table(self, name: str, row: type[Structure], *family: int, first: int = 8) -> bytes:
        """A table that Windows allocates: its number of rows, and from an offset on the rows."""
        library = self._load("iphlpapi.dll")
        pointer = c_void_p()
        code = call(library, name, *family, byref(pointer))
        if code == _NOT_FOUND:
            return bytes(first)
        if code or not pointer.value:
            raise AnswerError(f"{name} failed with Windows error {code}")
        try:
            count = c_uint32.from_address(pointer.value).value
            return ctypes.string_at(pointer.value, rows.table_octets(row, count, first))
        finally:
            call(library, "FreeMibTable", pointer)

    def _tcp_table(self, family: int) -> bytes:
        """The table of TCP connections; it may grow between the two calls that fetch it."""
        library = self._load("iphlpapi.dll")
        size = c_uint32(sizeof(c_uint32))
        for _ in range(_TRIES):
            buffer = ctypes.create_string_buffer(size.value)
            code = call(library, "GetExtendedTcpTable", byref(buffer), byref(size), 0, family, _LIVING, 0)
            if code == 0:
                return buffer.raw
            if code != _BUFFER_TOO_SMALL or size.value > _MOST_OCTETS:
                raise AnswerError(f"GetExtendedTcpTable failed with Windows error {code}")
        raise AnswerError("the table of TCP connections grows faster than it can be read")


def _wide_text(octets: bytes) -> str:
    """A text in UTF-16 up to its closing zero."""
    return octets[: len(octets) // 2 * 2].decode("utf-16-le", "replace").partition("\0")[0]
