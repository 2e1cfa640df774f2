"""Surveying this machine, for a first plan: its interfaces, its routers, the storages it is in touch with."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.errors import InputError, MachineError, Problem
from netaudit.machine.clock import Deadline
from netaudit.machine.gateways import default_gateways
from netaudit.machine.names import addresses_of, own_name
from netaudit.machine.questions import Machine
from netaudit.model.machine_state import Interface
from netaudit.model.survey import Survey
from netaudit.model.vocabulary import Address
from netaudit.probing.asking import Notebook
from netaudit.probing.request import FILE_SERVICES, NAME_S
from netaudit.probing.target import unknown_host

SURVEY_S = 10.0
"""Longest survey [s]."""


def survey(machine: Machine, target: str | None) -> Survey:
    """What this machine tells of itself; of a target also its addresses.

    Raises InputError where nobody knows the target, or it is this machine; MachineError where this machine cannot be
    asked about its interfaces.
    """
    notes = Notebook(Deadline(SURVEY_S))
    interfaces = {name: _closer(machine, each, notes) for name, each in machine.interfaces().items() if _counts(each)}
    gateways = notes.ask("the routers of this machine", (), default_gateways)
    return Survey(
        host=own_name(),
        system=machine.system,
        interfaces=interfaces,
        gateways=gateways or (),
        storages=dict(_storages(machine, target, notes)),
        manager=machine.manager(),
        service_order=machine.service_order(),
    )


def _counts(interface: Interface) -> bool:
    """Whether an interface belongs in a plan: a wire or a radio."""
    return interface.medium in ("wired", "radio")


def _closer(machine: Machine, interface: Interface, notes: Notebook) -> Interface:
    closer = notes.ask(f"bus and rates of {interface.name}", (), lambda: machine.detailed(interface))
    return closer or interface


def _addresses(target: str) -> tuple[Address, ...]:
    """The addresses of a target; none yet where the resolver is silent."""
    try:
        found = [address for address, _ in addresses_of(target, NAME_S)]
    except MachineError:
        return ()
    if not found:
        raise unknown_host(target)
    if all(address.is_loopback for address in found):
        raise InputError(
            [Problem(target, "is this machine itself: give the storage's name or address, or leave it out")]
        )
    return tuple(found)


def _storages(machine: Machine, target: str | None, notes: Notebook) -> Iterator[tuple[str, tuple[Address, ...]]]:
    """The target; without one, whatever this machine has a file session with."""
    if target is not None:
        yield target, _addresses(target)
        return
    sessions = notes.ask("living sessions", (), lambda: machine.sessions((), FILE_SERVICES)) or ()
    remotes = dict.fromkeys(session.remote.address for session in sessions)
    for number, remote in enumerate(remotes, 1):
        yield "storage" if len(remotes) == 1 else f"storage-{number}", (remote,)
