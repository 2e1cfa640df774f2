"""Multicast DNS: names and services that hosts on the link answer for themselves (RFC 6762, RFC 6763)."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import closing
from ipaddress import IPv6Address, ip_address
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import unquote

from netaudit.model.vocabulary import Address

if TYPE_CHECKING:
    from zeroconf import ServiceInfo, Zeroconf

_INSTANCE = re.compile(r"(?P<name>.{1,63})\.(?P<type>_[a-z0-9-]{1,15}\._(?:tcp|udp)\.local)\.?", re.IGNORECASE)


class Instance(NamedTuple):
    """A service by the name that people gave it: no host name."""

    name: str
    kind: str
    """`_smb._tcp.local.`"""


def instance_of(text: str) -> Instance | None:
    """The service that a text such as `NAS._smb._tcp.local` means, spaces plain or as `%20`; None for all else."""
    match = _INSTANCE.fullmatch(unquote(text))
    if match is None or not match["name"].isprintable() or len(match["name"].encode()) > 63:
        return None
    return Instance(match["name"], f"{match['type'].lower()}.")


def host_addresses(name: str, timeout_s: float) -> tuple[Address, ...]:
    """Addresses that a host on the link gives for its own name; empty where nobody answers in time."""
    from zeroconf import AddressResolver  # type: ignore[attr-defined]  # noqa: PLC0415 - 70 ms that only a name costs

    return _asked(lambda: AddressResolver(f"{name.rstrip('.')}."), timeout_s)


def instance_addresses(instance: Instance, timeout_s: float) -> tuple[Address, ...]:
    """Addresses of the host that offers a service; empty where nobody answers in time."""
    from zeroconf import ServiceInfo  # noqa: PLC0415 - as above

    return _asked(lambda: ServiceInfo(instance.kind, f"{instance.name}.{instance.kind}"), timeout_s)


def _asked(question: Callable[[], ServiceInfo], timeout_s: float) -> tuple[Address, ...]:
    """The answer to everybody is asked for: one to this port alone may reach another program that shares it."""
    from zeroconf import DNSQuestionType, Error  # noqa: PLC0415 - as above

    try:
        info = question()
        with closing(_open()) as asker:
            info.request(asker, timeout_s * 1000, question_type=DNSQuestionType.QM)
    except (OSError, RuntimeError, ValueError, Error):
        return ()
    found = (_address(text) for text in info.parsed_scoped_addresses())
    return tuple(dict.fromkeys(each for each in found if each is not None))


def _open() -> Zeroconf:
    from zeroconf import IPVersion, Zeroconf  # noqa: PLC0415 - as above

    return Zeroconf(interfaces=list(_own_addresses()), ip_version=IPVersion.V4Only)


def _own_addresses() -> tuple[str, ...]:
    """The IPv4 addresses that are asked from: all, but of the machine itself only where it has no other."""
    from ifaddr import get_adapters  # noqa: PLC0415 - as above

    own = [str(each.ip) for adapter in get_adapters() for each in adapter.ips if each.is_IPv4]
    outer = [text for text in own if not ip_address(text).is_loopback]
    return tuple(dict.fromkeys(outer or own))


def _address(text: str) -> Address | None:
    try:
        address = ip_address(text)
    except ValueError:
        return None
    unreachable = isinstance(address, IPv6Address) and address.is_link_local and address.scope_id is None
    return None if unreachable else address
