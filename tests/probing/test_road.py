"""The first look."""

from __future__ import annotations

import pytest
from machines import BY_WIRE, SLOW_VAULT, VAULT, FakeMachine, session

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.clock import Deadline
from netaudit.model.machine_state import ClientFacts, Mount
from netaudit.probing.asking import Notebook
from netaudit.probing.request import Request
from netaudit.probing.road import first_look
from netaudit.probing.target import Goal

GOAL = Goal("vault", None, ((VAULT, "dns"), (SLOW_VAULT, "mdns")), (445, 2049))


def _look(machine: FakeMachine, goal: Goal = GOAL):
    return first_look(machine, Request("vault"), goal, Notebook(Deadline(5)))


def test_each_address_is_routed_as_a_session_with_its_service_would_be() -> None:
    machine = FakeMachine()
    seen = _look(machine)

    assert [(VAULT, BY_WIRE, None), (SLOW_VAULT, None, "Network is unreachable")] == [
        (each.address, each.route, each.no_route) for each in seen.addresses
    ]
    assert {"route 10.44.20.10:445", "route 192.168.44.10:445"} <= set(machine.asked)
    assert ("vault", "vault", "linux", (445, 2049), False) == (
        seen.target,
        seen.host,
        seen.system,
        seen.ports,
        seen.complete,
    )


def test_nothing_is_sent_to_the_storage() -> None:
    machine = FakeMachine()
    _look(machine)

    assert {"interfaces", "sessions"} == {word for word in machine.asked if not word.startswith("route")}


def test_living_sessions_and_what_the_client_says_are_told() -> None:
    machine = FakeMachine(living=(session(),), client_facts=ClientFacts(dialect="3.1.1"))

    assert ((session(),), "3.1.1") == (_look(machine).sessions, _look(machine).client.dialect)


def test_a_host_is_also_looked_for_among_sessions_of_the_secure_shell_but_a_mount_only_among_its_own(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Port 22 is that of the secure shell: IANA, Service Name and Transport Protocol Port Number Registry."""
    asked: list[tuple[object, ...]] = []
    machine = FakeMachine()
    monkeypatch.setattr(machine, "sessions", lambda remotes, ports: asked.append((*remotes, *ports)))
    _look(machine)
    _look(machine, GOAL._replace(ports=(22, 445)))
    _look(machine, GOAL._replace(mount=Mount("/mnt", "cifs", "//vault/media", "vault", "media"), ports=(445,)))

    both = (VAULT, SLOW_VAULT)
    assert [(*both, 445, 2049, 22), (*both, 22, 445, 2049), (*both, 445)] == asked


def test_sessions_that_cannot_be_told_are_noted() -> None:
    seen = _look(FakeMachine(living=AnswerError("the kernel is silent")))

    assert ((), ["the kernel is silent"]) == (seen.sessions, [each.why for each in seen.skipped])


def test_a_mount_is_kept() -> None:
    mount = Mount("/mnt", "cifs", "//vault/media", "vault", "media")

    assert mount == _look(FakeMachine(), GOAL._replace(mount=mount)).mount


def test_a_machine_that_cannot_be_asked_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    machine = FakeMachine()

    def dumb() -> None:
        raise MachineError("no such machine")

    monkeypatch.setattr(machine, "interfaces", dumb)

    with pytest.raises(MachineError, match="no such machine"):
        _look(machine)
