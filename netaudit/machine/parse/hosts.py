"""The hosts file: which addresses it holds for a name."""

from __future__ import annotations

from ipaddress import ip_address

from netaudit.model.vocabulary import Address


def hosts_addresses(text: str, name: str) -> frozenset[Address]:
    """Addresses that stand beside a name, whatever its case; a line that cannot be read counts for nothing.

    A line is an address, white space, names; `#` begins a remark: hosts(5).
    """
    wanted = name.rstrip(".").casefold()
    found = set()
    for line in text.splitlines():
        if wanted not in line.casefold():
            continue
        address, *names = line.partition("#")[0].split() or [""]
        if wanted in (each.rstrip(".").casefold() for each in names):
            found.add(_address(address))
    return frozenset(each for each in found if each is not None)


def _address(text: str) -> Address | None:
    try:
        return ip_address(text)
    except ValueError:
        return None
