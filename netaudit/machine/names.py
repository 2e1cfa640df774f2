"""Names: every address of a host, in the order in which this system would try them, and where each comes from."""

from __future__ import annotations

import json
import os
import re
import socket
import sys
from collections.abc import Iterator
from contextlib import ExitStack
from ipaddress import IPv6Address, ip_address
from pathlib import Path
from typing import NamedTuple

from netaudit.errors import AnswerError
from netaudit.machine.clock import Deadline
from netaudit.machine.parse.hosts import hosts_addresses
from netaudit.model.observation import Origin
from netaudit.model.vocabulary import Address

MDNS_S = 1.6
"""How long the hosts on the link may take to answer for themselves [s]: one that said so within the last second may
wait until it is over (RFC 6762, section 6)."""
MERGE_S = 0.5
"""How long the resolver is waited for once a host on the link has answered for itself [s]."""
HOSTS_BYTES = 8_000_000
"""What is read of a hosts file [byte]; lists that block advertising run to several million."""
ADDRESSES_AT_MOST = 64
"""Addresses of one name that a resolver is listened to for."""
NAME_AT_MOST = 253
"""Characters of a host name: RFC 1035 section 2.3.4 counts 255 octets with the lengths of its labels."""
LABEL_AT_MOST = 63
"""Octets of one label: RFC 1035 section 2.3.4."""

_OCTAL = re.compile(r"(?:^|\.)0[0-9]")
"""A number with a nought before it, which the C library reads as octal and people as decimal: inet_aton(3)."""

Named = tuple[tuple[Address, Origin], ...]


class _Resolved(NamedTuple):
    """What the system's resolver said."""

    addresses: tuple[Address, ...]
    failed: str | None = None
    """Why it could not tell."""


def addresses_of(host: str, timeout_s: float) -> Named:
    """Every address of a host with its origin, in the order of this system's resolver, then of multicast DNS.

    An address literal stands for itself, with the interface of a link-local one, in brackets or not. A name that
    ends in `.local`, or has one label that the resolver does not know, is also asked for on the link; so is a
    service such as `NAS._smb._tcp.local`. Empty where nobody knows the name, or it can be no name of a host.
    Raises AnswerError where the resolver is silent and nobody else knows the name.
    """
    literal = _literal(host)
    if literal is not None:
        return ((literal, "literal"),)
    if "._tcp." in host.lower() or "._udp." in host.lower():
        return _service(host, timeout_s)
    if not is_host_name(host) or set(host) <= set("0123456789."):
        return ()
    resolved, on_link = _asked(host, timeout_s)
    if resolved.failed is not None and not on_link:
        raise AnswerError(f"the name servers were asked for {host!r} and {resolved.failed}")
    in_file = hosts_addresses(_hosts_text(), host) if resolved.addresses else frozenset()
    merged: dict[Address, Origin] = {each: "hosts" if each in in_file else "dns" for each in resolved.addresses}
    for each in on_link:
        merged.setdefault(each, "mdns")
    return tuple(merged.items())


def is_host_name(text: str) -> bool:
    """Whether a text can be the name of a host; underscores and letters of any language are let pass."""
    labels = text.removesuffix(".").split(".")
    return len(text) <= NAME_AT_MOST and all(
        label and not label.startswith("-") and len(label.encode("utf-8", "replace")) <= LABEL_AT_MOST
        and all(char.isalnum() or char in "-_" for char in label)
        for label in labels
    )  # fmt: skip


def _literal(host: str) -> Address | None:
    """An address as it is written; one of IPv4 within IPv6 is talked to by IPv4 (RFC 4291 section 2.5.5.2)."""
    text = host[1:-1] if host.startswith("[") and host.endswith("]") else host
    try:
        address = ip_address(text)
    except ValueError:
        return _short_literal(text)
    mapped = address.ipv4_mapped if isinstance(address, IPv6Address) else None
    return address if mapped is None else mapped


def _short_literal(text: str) -> Address | None:
    """An IPv4 address in one of the shorter forms that inet_aton(3) takes: `10.44.5218`."""
    if not text[:1].isdecimal() or not set(text.lower()) <= set("0123456789abcdefx.") or _OCTAL.search(text):
        return None
    try:
        return ip_address(socket.inet_aton(text))
    except OSError:
        return None


def _service(host: str, timeout_s: float) -> Named:
    from netaudit.machine.mdns import instance_addresses, instance_of  # noqa: PLC0415 - only such a name costs it

    instance = instance_of(host)
    found = () if instance is None else instance_addresses(instance, min(timeout_s, MDNS_S))
    return tuple((address, "mdns") for address in found)


def _asked(host: str, timeout_s: float) -> tuple[_Resolved, tuple[Address, ...]]:
    """What the resolver says, and what the hosts on the link say where a name may be theirs."""
    from netaudit.machine.mdns import host_addresses  # noqa: PLC0415 - a literal never costs it

    deadline = Deadline(timeout_s)
    with _Resolver(host) as resolver:
        bare = host.removesuffix(".")
        if bare.lower().endswith(".local"):
            on_link = host_addresses(bare, min(timeout_s, MDNS_S))
            return resolver.answer(deadline.at_most(MERGE_S) if on_link else deadline.left_s), on_link
        may_be_local = "." not in bare
        kept_s = min(MDNS_S, timeout_s / 3) if may_be_local else 0.0
        resolved = resolver.answer(max(0.0, deadline.left_s - kept_s))
    ask_link = may_be_local and not resolved.addresses
    return resolved, host_addresses(f"{bare}.local", deadline.at_most(MDNS_S)) if ask_link else ()


class _Resolver(ExitStack):
    """The system's resolver at work on one name, in a child process."""

    def __init__(self, host: str) -> None:
        from netaudit.machine.child import Child, Lines, python_argv  # noqa: PLC0415 - a literal never costs it

        super().__init__()
        self._child = self.enter_context(Child(python_argv("netaudit.machine.resolver", host)))
        self._lines = Lines(self._child)

    def answer(self, timeout_s: float) -> _Resolved:
        """What it says within that time."""
        deadline = Deadline(timeout_s)
        said = list(self._said(timeout_s))
        words = [each for each in said if isinstance(each, str)]
        addresses = tuple(dict.fromkeys(each for each in said if not isinstance(each, str)))
        if words:
            return _Resolved(addresses, f"could not tell: {words[0]}")
        code = self._child.wait(deadline.left_s)
        if code is None:
            return _Resolved(addresses, f"did not answer within {timeout_s:.1f} s")
        return _Resolved(addresses, None if code == 0 else "the resolver of this system broke off")

    def _said(self, timeout_s: float) -> Iterator[Address | str]:
        for count, line in enumerate(self._lines.within(timeout_s)):
            if count >= ADDRESSES_AT_MOST:
                return
            answer = _parsed(line)
            if answer is not None:
                yield answer


def _parsed(line: str) -> Address | str | None:
    try:
        match json.loads(line):
            case str(words):
                return words
            case [str(text), ""]:
                return ip_address(text)
            case [str(text), str(scope)]:
                return ip_address(f"{text.partition('%')[0]}%{scope}")
            case _:
                return None
    except (ValueError, RecursionError):
        return None


def _hosts_text() -> str:
    windows = Path(os.environ.get("SYSTEMROOT", "C:\\Windows"), "System32", "drivers", "etc", "hosts")
    try:
        with (windows if sys.platform == "win32" else Path("/etc/hosts")).open("rb") as file:
            return file.read(HOSTS_BYTES).decode("utf-8-sig", "replace")
    except OSError:
        return ""


def own_name() -> str:
    """This machine's own name, as it calls itself."""
    return socket.gethostname()
