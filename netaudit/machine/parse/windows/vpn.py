"""VPN profiles of Windows itself: Get-VpnConnection. Those of other makers only show as adapters."""

from __future__ import annotations

from collections.abc import Iterable

from netaudit.machine.parse.windows.json_shape import Row, text


def connected(found: Iterable[Row]) -> frozenset[str]:
    """Names of the profiles that are connected: each has an adapter of that name."""
    rows = ((text(row, "Name"), text(row, "ConnectionStatus")) for row in found)
    return frozenset(name for name, status in rows if name is not None and status == "Connected")
