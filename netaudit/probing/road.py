"""The first look: where the storage's traffic goes right now, from this machine's own tables; nothing is sent."""

from __future__ import annotations

from netaudit.machine.questions import Machine
from netaudit.model.machine_state import Endpoint
from netaudit.model.observation import FarAddress, Observation, Origin
from netaudit.model.services import NFS, SMB, SSH
from netaudit.model.vocabulary import Address
from netaudit.probing.asking import Notebook
from netaudit.probing.request import Request
from netaudit.probing.target import Goal

SESSION_RULES = ("session-on-other-port", "replies-on-other-port", "retransmits-high")


def first_look(machine: Machine, request: Request, goal: Goal, notes: Notebook) -> Observation:
    """Routes, interfaces and living sessions.

    Raises MachineError where this machine cannot be asked about its interfaces or routes.
    """
    interfaces = machine.interfaces()
    addresses = tuple(_routed(machine, address, origin, goal.ports[0]) for address, origin in goal.addresses)
    remotes = [address for address, _ in goal.addresses]
    ports = goal.ports if goal.mount is not None else tuple(dict.fromkeys((*goal.ports, SMB, NFS, SSH)))
    sessions = notes.ask("living sessions with the storage", SESSION_RULES, lambda: machine.sessions(remotes, ports))
    client = notes.ask(
        "what the file client says of its session",
        ("session-on-other-port", "signing-or-encryption"),
        lambda: machine.client(goal.mount, goal.host, remotes),
    )
    seen = Observation(
        target=request.target,
        system=machine.system,
        host=goal.host,
        ports=goal.ports,
        mount=goal.mount,
        addresses=addresses,
        interfaces=interfaces,
        sessions=sessions or (),
        manager=machine.manager(),
        service_order=machine.service_order(),
        skipped=notes.skipped,
    )
    return seen if client is None else seen._replace(client=client)


def _routed(machine: Machine, address: Address, origin: Origin, port: int) -> FarAddress:
    answer = machine.route(Endpoint(address, port))
    return FarAddress(address, origin, answer.route, answer.why_not)
