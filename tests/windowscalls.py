"""The libraries of Windows, stood in for: every call goes through ctypes as on Windows, and is served from given bytes."""

from __future__ import annotations

import ctypes
from ctypes import c_uint32, c_void_p
from ipaddress import ip_address
from types import SimpleNamespace
from typing import Any

from windowsroom import socket_address, table


class WindowsCalls:
    """The libraries of a Windows whose tables are given; every call goes through ctypes as on Windows."""

    def __init__(self, **tables: Any) -> None:
        self.tables = tables
        self.allocated: dict[int, Any] = {}
        self.freed: list[int] = []
        self.handles = 0
        self.sent: list[dict[str, Any]] = []

    def load(self, name: str) -> Any:
        """The library of a name."""
        return {"iphlpapi.dll": self.iphlpapi, "mpr.dll": self.mpr}[name]()

    def iphlpapi(self) -> SimpleNamespace:
        code = c_uint32
        return SimpleNamespace(
            GetIfTable2=ctypes.CFUNCTYPE(code, c_void_p)(lambda out: self._give("interfaces", out)),
            GetIfStackTable=ctypes.CFUNCTYPE(code, c_void_p)(lambda out: self._give("stack", out)),
            GetUnicastIpAddressTable=self._by_family("addresses"),
            GetIpNetTable2=self._by_family("neighbours"),
            FreeMibTable=ctypes.CFUNCTYPE(None, c_void_p)(self.freed.append),
            GetBestRoute2=ctypes.CFUNCTYPE(code, c_void_p, c_uint32, c_void_p, c_void_p, c_uint32, c_void_p, c_void_p)(
                self._best_route
            ),
            InitializeIpInterfaceEntry=ctypes.CFUNCTYPE(c_void_p, c_void_p)(lambda row: ctypes.memset(row, 0, 168)),
            GetIpInterfaceEntry=ctypes.CFUNCTYPE(code, c_void_p)(self._ip_interface),
            GetIpPathEntry=ctypes.CFUNCTYPE(code, c_void_p)(self._path),
            GetExtendedTcpTable=ctypes.CFUNCTYPE(code, c_void_p, c_void_p, c_uint32, c_uint32, c_uint32, c_uint32)(
                self._tcp_table
            ),
            IcmpCreateFile=ctypes.CFUNCTYPE(c_void_p)(self._open),
            Icmp6CreateFile=ctypes.CFUNCTYPE(c_void_p)(self._open),
            IcmpCloseHandle=ctypes.CFUNCTYPE(c_uint32, c_void_p)(self._close),
            IcmpSendEcho2Ex=ctypes.CFUNCTYPE(
                c_uint32, *[c_void_p] * 4, c_uint32, c_uint32, c_void_p, ctypes.c_uint16, *[c_void_p] * 2, c_uint32, c_uint32,
                use_errno=True,
            )(self._echo_4),
            Icmp6SendEcho2=ctypes.CFUNCTYPE(
                c_uint32, *[c_void_p] * 7, ctypes.c_uint16, *[c_void_p] * 2, c_uint32, c_uint32, use_errno=True
            )(self._echo_6),
        )  # fmt: skip

    def mpr(self) -> SimpleNamespace:
        call = ctypes.CFUNCTYPE(c_uint32, ctypes.c_wchar_p, c_uint32, c_void_p, c_void_p)(self._universal_name)
        return SimpleNamespace(WNetGetUniversalNameW=call)

    def _by_family(self, name: str) -> Any:
        return ctypes.CFUNCTYPE(c_uint32, c_uint32, c_void_p)(lambda _family, out: self._give(name, out))

    def _give(self, name: str, out: int) -> int:
        given = self.tables.get(name, table())
        if isinstance(given, int):
            return given
        memory = ctypes.create_string_buffer(given, len(given))
        self.allocated[ctypes.addressof(memory)] = memory
        ctypes.memmove(out, ctypes.addressof(memory).to_bytes(8, "little"), 8)
        return 0

    def _best_route(
        self, _luid: int, _number: int, source: int, destination: int, _sort: int, row: int, best: int
    ) -> int:
        to, by = _address_at(destination), _address_at(source) if source else None
        found = self.tables["routes"](to, by)
        if isinstance(found, int):
            return found
        ctypes.memmove(row, found[0], 104)
        ctypes.memmove(best, socket_address(found[1]), 28)
        return 0

    def _ip_interface(self, row: int) -> int:
        octets = ctypes.string_at(row, 168)
        key = int.from_bytes(octets[16:20], "little"), int.from_bytes(octets[:2], "little")
        found = self.tables.get("ip_interfaces", {}).get(key)
        if found is None:
            return 1168
        ctypes.memmove(row, found, 168)
        return 0

    def _path(self, row: int) -> int:
        octets = ctypes.string_at(row, 136)
        mtu = self.tables.get("path_mtus", {}).get((int.from_bytes(octets[64:68], "little"), _address_at(row + 28)))
        if mtu is None:
            return 1168
        ctypes.memmove(row + 96, mtu.to_bytes(4, "little"), 4)
        return 0

    def _tcp_table(self, buffer: int, size: int, _order: int, family: int, kind: int, _reserved: int) -> int:
        assert kind == 4
        given = self.tables.get(f"tcp_{family}", table(first=4))
        if isinstance(given, int):
            return given
        room = c_uint32.from_address(size).value
        c_uint32.from_address(size).value = len(given)
        if room < len(given):
            return 122
        ctypes.memmove(buffer, given, len(given))
        return 0

    def _open(self) -> int:
        self.handles += 1
        return int(self.tables.get("handle", 4242))

    def _close(self, handle: int) -> int:
        assert handle == 4242
        self.handles -= 1
        return 1

    def _echo_4(self, *arguments: Any) -> int:
        source, remote = (str(ip_address(each.to_bytes(4, "little"))) for each in arguments[4:6])
        return self._echo(source, remote, arguments[7:])

    def _echo_6(self, *arguments: Any) -> int:
        source, remote = (_address_at(each) for each in arguments[4:6])
        return self._echo(source, remote, arguments[7:])

    def _echo(self, source: str, remote: str, rest: tuple[Any, ...]) -> int:
        octets, options, reply, room, timeout_ms = rest
        hops, flags = ctypes.string_at(options, 3)[0], ctypes.string_at(options, 3)[2]
        sent = {"source": source, "remote": remote, "octets": octets, "hops": hops, "flags": flags, "ms": timeout_ms}
        self.sent.append(sent)
        answer = self.tables["echo"](sent)
        if isinstance(answer, int):
            ctypes.set_errno(answer)
            return 0
        assert room >= len(answer) + octets + 8
        ctypes.memmove(reply, answer, len(answer))
        return 1

    def _universal_name(self, path: str, level: int, buffer: int, size: int) -> int:
        assert level == 1
        found = self.tables["names"](path)
        if isinstance(found, int):
            return found
        text = found.encode("utf-16-le") + b"\0\0"
        assert c_uint32.from_address(size).value >= len(text) + 8
        ctypes.memmove(buffer + 8, text, len(text))
        ctypes.memmove(buffer, (buffer + 8).to_bytes(8, "little"), 8)
        return 0


def _address_at(place: int) -> str:
    octets = ctypes.string_at(place, 28)
    family = int.from_bytes(octets[:2], "little")
    return str(ip_address(octets[4:8] if family == 2 else octets[8:24]))
