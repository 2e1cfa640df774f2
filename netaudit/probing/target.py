"""Which storage a target means: the mount that a folder lies on, the host behind it, and every address of its name."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.errors import AnswerError, InputError, Problem
from netaudit.machine.names import Named, addresses_of
from netaudit.machine.questions import Machine
from netaudit.model.machine_state import Mount
from netaudit.model.observation import Origin
from netaudit.model.vocabulary import Address
from netaudit.probing.request import FILE_SERVICES, NAME_S, Request

ADDRESSES_AT_MOST = 8
"""Addresses of one name that are asked about."""


class Goal(NamedTuple):
    """The storage that is meant."""

    host: str
    mount: Mount | None
    addresses: Named
    ports: tuple[int, ...]
    """Its service ports, the likeliest first."""


def find_goal(machine: Machine, request: Request) -> Goal:
    """The storage that a target means.

    Raises InputError where no such name or folder is known, AnswerError where the resolver is silent.
    """
    mount = _mount(machine, request) if request.is_folder else None
    host = request.target if mount is None else mount.host or str(mount.remote or "")
    ports = request.ports or ((mount.port,) if mount is not None and mount.port is not None else FILE_SERVICES)
    named = _named(host, request, mount)
    return Goal(host, mount, named[:ADDRESSES_AT_MOST], ports)


def unknown_host(host: str) -> InputError:
    """The error of a name that nobody knows."""
    text = "no such host: neither the hosts file nor the name servers nor the local network know this name"
    return InputError([Problem(host, f"{text}; check the spelling, or give the storage's address")])


def _mount(machine: Machine, request: Request) -> Mount:
    mount = machine.mount_of(request.target)
    if mount is None:
        text = "lies on a disk of this machine, not on a share: give a folder on the mounted share, or the storage"
        raise InputError([Problem(request.target, text)])
    if not mount.host and mount.remote is None:
        text = (
            f"is mounted as {mount.kind} from {mount.source!r}, which names no host: give the storage's name or address"
        )
        raise InputError([Problem(request.target, text)])
    return mount


def _named(host: str, request: Request, mount: Mount | None) -> Named:
    """Every address, that of the mount's own connection first."""
    living: Named = () if mount is None or mount.remote is None else ((mount.remote, "mount"),)
    planned: Named = tuple((address, "plan") for address in request.fallback)
    by_address: dict[Address, Origin] = dict((*living, *_resolved(host, living or planned)))
    if not by_address:
        raise unknown_host(host)
    return tuple(by_address.items())


def _resolved(host: str, otherwise: Named) -> Named:
    """Every address of a name; others, where there are any, if nobody knows the name or the resolver is silent."""
    try:
        return addresses_of(host, NAME_S) or otherwise
    except AnswerError:
        if not otherwise:
            raise
        return otherwise
