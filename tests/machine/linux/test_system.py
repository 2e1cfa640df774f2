"""Linux answers every question of a machine, and loads only what the first answer needs."""

import inspect
import subprocess
import sys
from ipaddress import ip_address

import pytest

from netaudit.machine.linux.system import Linux
from netaudit.machine.questions import Machine
from netaudit.model.machine_state import Endpoint, Interface

HEAVY = {
    "ctypes", "subprocess", "asyncio", "concurrent.futures", "psutil", "scapy", "ifaddr", "netifaces", "zeroconf",
    "smbprotocol", "pyroute2", "netaudit.machine.linux.sockets", "netaudit.machine.linux.buses", "netaudit.machine.lldp",
}  # fmt: skip


def test_every_question_takes_the_words_that_the_protocol_says() -> None:
    questions = [name for name in vars(Machine) if not name.startswith("_") and callable(getattr(Machine, name))]

    assert "linux" == Linux.system
    assert questions
    for name in questions:
        asked, answered = (inspect.signature(getattr(each, name)) for each in (Machine, Linux))
        assert list(asked.parameters) == list(answered.parameters), name
        assert asked.return_annotation == answered.return_annotation, name


def test_the_first_answer_needs_only_sockets() -> None:
    script = "import sys, netaudit.machine.linux.system; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=30)

    assert HEAVY.isdisjoint(loaded.stdout.split())


def test_this_machine_answers(linux: None) -> None:
    """The loopback interface is 1 and has 127.0.0.1 on every Linux: RFC 1122, 3.2.1.3, and the kernel's net/core/dev.c."""
    machine = Linux()
    loopback = machine.interfaces()["lo"]

    assert (1, "virtual") == (loopback.number, loopback.medium)
    assert set(machine.interfaces()) == set(machine.counts())
    assert machine.route(Endpoint(ip_address("127.0.0.1"), 445)).route.local
    assert () == machine.sessions([ip_address("203.0.113.77")], [445])
    assert () == machine.neighbours(ip_address("203.0.113.77"))
    assert machine.detailed(loopback).bus is None
    assert machine.manager() in ("networkmanager", "networkd", None)
    assert () == machine.service_order()


@pytest.mark.parametrize(
    ("question", "words", "room", "function"),
    [
        ("mount_of", ("/mnt/media",), "netaudit.machine.linux.mounts", "mount_of"),
        ("client", (None, "vault", ()), "netaudit.machine.linux.client", "client_facts"),
        ("frame", (ip_address("203.0.113.77"), 1500, None, 1.0), "netaudit.machine.linux.frames", "frame"),
        ("routers", (ip_address("203.0.113.77"), 8, 1.0), "netaudit.machine.linux.routers", "routers"),
        ("listen", (Interface("en5"), 30.0), "netaudit.machine.lldp", "listen"),
    ],
)
def test_a_question_is_handed_to_the_room_that_knows(
    monkeypatch: pytest.MonkeyPatch, question: str, words: tuple[object, ...], room: str, function: str
) -> None:
    monkeypatch.setattr(f"{room}.{function}", lambda *given: ("asked", *given))

    assert ("asked", *words) == getattr(Linux(), question)(*words)
