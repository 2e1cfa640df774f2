"""Addresses and IP settings of interfaces: MSFT_NetIPAddress and MSFT_NetIPInterface."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from netaudit.machine.parse.literals import address_of
from netaudit.machine.parse.windows.facts import AddressFacts, IpInterface, mtu_of, with_prefix
from netaudit.machine.parse.windows.json_shape import Row, flag, text, whole


def addresses(found: Iterable[Row]) -> tuple[AddressFacts, ...]:
    """The addresses of Get-NetIPAddress, also of a port whose cable is out; invalid ones left away."""
    return tuple(_addresses(found))


def _addresses(found: Iterable[Row]) -> Iterator[AddressFacts]:
    for row in found:
        address, number = address_of(text(row, "IPAddress")), whole(row, "InterfaceIndex")
        if address is not None and number is not None and whole(row, "AddressState") != 0:
            yield AddressFacts(number, with_prefix(address, whole(row, "PrefixLength")))


def ip_interface(found: Iterable[Row], number: int, family: int) -> IpInterface | None:
    """How one version of IP uses an interface: Get-NetIPInterface has a row for each version."""
    for row in found:
        metric = whole(row, "InterfaceMetric")
        if metric is not None and (whole(row, "InterfaceIndex"), whole(row, "AddressFamily")) == (number, family):
            return IpInterface(metric, mtu_of(whole(row, "NlMtu")), flag(row, "WeakHostSend") is True)
    return None
