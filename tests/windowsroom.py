"""What a Windows answers without Windows: rows of its tables built by hand, answers of PowerShell from files.

Nothing of Windows runs where these tests run. The offsets of the bytes are those at which the compiler of mingw-w64
lays out the public headers (tests/captures/windows/layouts.txt), not those of the code under test. The JSON files are
written after the formats of the cmdlets' documentation and of ConvertTo-Json; none is taken from a machine.
"""

from __future__ import annotations

import base64
import json
import random
import re
from collections.abc import Callable, Mapping
from ipaddress import ip_address
from pathlib import Path
from typing import Any

CAPTURES = Path(__file__).parent / "captures" / "windows"

ON_LINK = "0.0.0.0"  # noqa: S104 - a next hop, nothing is bound to it
"""The next hop of a route without a router."""
LAYOUT = {
    f"{found[1]}.{found[2]}": (int(found[3]), int(found[4]))
    for found in re.finditer(r"(\w+)\.([\w.]+) @(\d+) \+(\d+)", (CAPTURES / "layouts.txt").read_text())
}
"""Field to its offset and size [octets]."""
SIZES = {found[1]: int(found[2]) for found in re.finditer(r"(\w+) size (\d+)", (CAPTURES / "layouts.txt").read_text())}


def seeded(seed: str) -> random.Random:
    """The same chances each time."""
    return random.Random(seed)  # noqa: S311 - no secret hangs on it


def capture(name: str) -> dict[str, Any]:
    """The answers in a file, as PowerShell's script gives them."""
    answers: dict[str, Any] = json.loads((CAPTURES / f"{name}.json").read_text(encoding="utf-8-sig"))
    return answers


def spoken(answers: object) -> str:
    """What the script prints of some answers."""
    return base64.b64encode(json.dumps(answers).encode()).decode()


def told(*names: str) -> Callable[..., Mapping[str, object]]:
    """A PowerShell that answers from files; what no file answers matched nothing."""
    answers: dict[str, Any] = {}
    for name in names:
        answers.update(capture(name))

    def ask(*queries: Any) -> Mapping[str, object]:
        nothing = {"id": "CmdletizationQuery_NotFound,Get-Something", "hresult": "-2146233088"}
        return {query.name: answers.get(query.name, nothing) for query in queries}

    return ask


def calls_in(name: str) -> list[tuple[str, int, bytes]]:
    """The recorded calls of a file: function, what it returned, the bytes it wrote."""
    lines = (line.split() for line in (CAPTURES / name).read_text().splitlines())
    return [(line[0], int(line[1]), bytes.fromhex(line[2]) if len(line) > 2 else b"") for line in lines]


def socket_address(text: str, scope: int = 0) -> bytes:
    """SOCKADDR_INET by hand."""
    address = ip_address(text)
    if address.version == 4:
        return b"\x02\x00\x00\x00" + address.packed + bytes(20)
    return b"\x17\x00\x00\x00" + bytes(4) + address.packed + scope.to_bytes(4, "little")


def record(struct: str, **fields: int | bytes | str) -> bytes:
    """One row: its fields at the offsets that the compiler gives them, everything else zero."""
    row = bytearray(SIZES[struct])
    for name, value in fields.items():
        offset, size = LAYOUT[f"{struct}.{name}"]
        octets = _octets(value, size)
        assert len(octets) <= size
        row[offset : offset + len(octets)] = octets
    return bytes(row)


def _octets(value: int | bytes | str, size: int) -> bytes:
    if isinstance(value, int):
        return value.to_bytes(size, "little")
    return value.encode("utf-16-le", "surrogatepass") if isinstance(value, str) else value


def table(*rows: bytes, first: int = 8) -> bytes:
    """A table that opens with the number of its rows."""
    return len(rows).to_bytes(4, "little") + bytes(first - 4) + b"".join(rows)


def interface(number: int, alias: str, mac: str = "", **fields: int | bytes | str) -> bytes:
    """MIB_IF_ROW2 of a card that is up and hears its cable, unless told otherwise."""
    octets = bytes.fromhex(mac.replace(":", ""))
    plain: dict[str, int | bytes | str] = {
        "InterfaceIndex": number, "Alias": alias, "Description": f"Example {alias}", "Type": 6, "PhysicalMediumType": 14,
        "InterfaceAndOperStatusFlags": 5, "OperStatus": 1, "AdminStatus": 1, "MediaConnectState": 1, "Mtu": 1500,
        "PhysicalAddressLength": len(octets), "PhysicalAddress": octets,
        "TransmitLinkSpeed": 10**9, "ReceiveLinkSpeed": 10**9,
    }  # fmt: skip
    return record("MIB_IF_ROW2", **{**plain, **fields})


def own_address(number: int, text: str, prefix: int, state: int = 4) -> bytes:
    """MIB_UNICASTIPADDRESS_ROW."""
    return record(
        "MIB_UNICASTIPADDRESS_ROW",
        Address=socket_address(text, number),
        InterfaceIndex=number,
        OnLinkPrefixLength=prefix,
        DadState=state,
    )


def neighbour(number: int, text: str, mac: str, state: int = 5) -> bytes:
    """MIB_IPNET_ROW2."""
    octets = bytes.fromhex(mac.replace(":", ""))
    return record(
        "MIB_IPNET_ROW2",
        Address=socket_address(text),
        InterfaceIndex=number,
        PhysicalAddress=octets,
        PhysicalAddressLength=len(octets),
        State=state,
    )


def connection(local: tuple[str, int], remote: tuple[str, int], state: int = 5, process: int = 4) -> bytes:
    """MIB_TCPROW_OWNER_PID, or MIB_TCP6ROW_OWNER_PID of IPv6 addresses."""
    ends = ip_address(local[0]), ip_address(remote[0])
    ports = [port.to_bytes(2, "big") + bytes(2) for _, port in (local, remote)]
    if ends[0].version == 4:
        return record(
            "MIB_TCPROW_OWNER_PID",
            dwState=state,
            dwLocalAddr=ends[0].packed,
            dwLocalPort=ports[0],
            dwRemoteAddr=ends[1].packed,
            dwRemotePort=ports[1],
            dwOwningPid=process,
        )
    return record(
        "MIB_TCP6ROW_OWNER_PID",
        ucLocalAddr=ends[0].packed,
        dwLocalScopeId=int(getattr(ends[0], "scope_id", None) or 0),
        dwLocalPort=ports[0],
        ucRemoteAddr=ends[1].packed,
        dwRemoteScopeId=int(getattr(ends[1], "scope_id", None) or 0),
        dwRemotePort=ports[1],
        dwState=state,
        dwOwningPid=process,
    )


def route_row(number: int, prefix: str, next_hop: str, metric: int) -> bytes:
    """MIB_IPFORWARD_ROW2."""
    address, _, length = prefix.partition("/")
    destination = socket_address(address) + bytes([int(length), 0, 0, 0])
    return record(
        "MIB_IPFORWARD_ROW2",
        InterfaceIndex=number,
        DestinationPrefix=destination,
        NextHop=socket_address(next_hop),
        Metric=metric,
        Protocol=2,
    )


def ip_settings(number: int, metric: int, mtu: int, weak: int = 0) -> bytes:
    """MIB_IPINTERFACE_ROW."""
    return record("MIB_IPINTERFACE_ROW", InterfaceIndex=number, Metric=metric, NlMtu=mtu, WeakHostSend=weak)


def echo_reply(status: int, responder: str = "10.44.20.10") -> bytes:
    """ICMP_ECHO_REPLY."""
    return record("ICMP_ECHO_REPLY", Status=status, Address=ip_address(responder).packed)
