"""ARP questions: who asks, and which answers count. Real questions are asked in the lab."""

from __future__ import annotations

import socket
import subprocess
import sys
from collections.abc import Sequence
from ipaddress import IPv4Address
from types import SimpleNamespace

import psutil
import pytest
from scapy import sendrecv
from scapy.layers.l2 import ARP, Ether
from scapy.packet import Packet

from netaudit.errors import AnswerError, PrivilegeError
from netaudit.machine import arp

VAULT = IPv4Address("10.44.20.10")


def own(family: int, address: str, netmask: str | None = None) -> SimpleNamespace:
    return SimpleNamespace(family=family, address=address, netmask=netmask)


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[arp.Asker]:
    """Who asked; nothing is sent."""
    askers: list[arp.Asker] = []

    def answers(_: str, asker: arp.Asker, *__: object) -> Sequence[object]:
        askers.append(asker)
        return ["02:00:5e:00:00:10"]

    monkeypatch.setattr(arp, "demand_raw_frames", lambda: None)
    monkeypatch.setattr(arp, "_answers", answers)
    return askers


@pytest.mark.parametrize(
    ("addresses", "address"),
    [
        ([own(socket.AF_INET, "192.168.44.7", "255.255.255.0"), own(socket.AF_INET, "10.44.20.11", "255.255.255.0")],
         "10.44.20.11"),
        ([own(socket.AF_INET, "192.168.44.7", "255.255.255.0")], "192.168.44.7"),
        ([own(socket.AF_INET, "10.44.20.11", None)], "10.44.20.11"),
        ([own(socket.AF_INET6, "fe80::11", "ffff:ffff:ffff:ffff::")], "0.0.0.0"),  # noqa: S104 - no address to listen on
    ],
)  # fmt: skip
def test_the_question_bears_the_interfaces_own_address_in_that_network(
    addresses: list[SimpleNamespace], address: str, asked: list[arp.Asker], monkeypatch: pytest.MonkeyPatch
) -> None:
    """RFC 5227 section 1.1: a question from 0.0.0.0 is a probe, which any host may send."""
    link = own(psutil.AF_LINK, "02-00-5E-00-00-11")
    monkeypatch.setattr(psutil, "net_if_addrs", lambda: {"en5": [*addresses, link]})

    assert ("02:00:5e:00:00:10",) == arp.ask(VAULT, "en5", 0.1)
    assert [arp.Asker("02:00:5e:00:00:11", address)] == asked


@pytest.mark.parametrize("addresses", [{}, {"en5": [own(socket.AF_INET, "10.44.20.11", "255.255.255.0")]}])
def test_an_interface_without_a_hardware_address_cannot_ask(
    addresses: dict[str, list[SimpleNamespace]], asked: list[arp.Asker], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(psutil, "net_if_addrs", lambda: addresses)
    with pytest.raises(AnswerError, match="en5 has no hardware address"):
        arp.ask(VAULT, "en5", 0.1)


def test_only_replies_for_the_address_itself_count_and_all_of_them(monkeypatch: pytest.MonkeyPatch) -> None:
    """RFC 826: operation 1 asks, 2 replies; the question goes to everybody on the link (RFC 5227, section 1.1)."""
    sent: list[tuple[object, dict[str, object]]] = []
    replies = [
        Ether() / ARP(op=2, hwsrc="02:00:5e:00:00:10", psrc="10.44.20.10"),
        Ether() / ARP(op=1, hwsrc="02:00:5e:00:00:66", psrc="10.44.20.10"),
        Ether() / ARP(op=2, hwsrc="02:00:5e:00:00:77", psrc="10.44.20.77"),
        Ether() / b"rubbish",
        Ether() / ARP(op=2, hwsrc="02:00:5e:00:00:99", psrc="10.44.20.10"),
    ]

    def srp(question: Packet, **options: object) -> tuple[list[tuple[Packet, Packet]], list[Packet]]:
        sent.append((question, options))
        return [(question, reply) for reply in replies], []

    monkeypatch.setattr(arp, "demand_raw_frames", lambda: None)
    monkeypatch.setattr(sendrecv, "srp", srp)
    here = [own(socket.AF_INET, "10.44.20.11", "255.255.255.0"), own(psutil.AF_LINK, "02:00:5e:00:00:11")]
    monkeypatch.setattr(psutil, "net_if_addrs", lambda: {"en5": here})

    assert ("02:00:5e:00:00:10", "02:00:5e:00:00:99") == arp.ask(VAULT, "en5", 0.1)
    ((question, options),) = sent
    assert ("ff:ff:ff:ff:ff:ff", "02:00:5e:00:00:11") == (question.dst, question.src)
    asked = question[ARP]
    assert (1, "02:00:5e:00:00:11", "10.44.20.11", "10.44.20.10") == (asked.op, asked.hwsrc, asked.psrc, asked.pdst)
    assert ("en5", 0.1, True, 0) == tuple(options[key] for key in ("iface", "timeout", "multi", "verbose"))


def test_whatever_the_library_raises_is_an_error_that_names_the_interface(
    asked: list[arp.Asker], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> Sequence[object]:
        raise ValueError("Interface 'en5' not found !")

    monkeypatch.setattr(arp, "_answers", fails)
    monkeypatch.setattr(psutil, "net_if_addrs", lambda: {"en5": [own(psutil.AF_LINK, "02:00:5e:00:00:11")]})
    with pytest.raises(AnswerError, match="en5 cannot ask for hardware addresses: Interface 'en5' not found"):
        arp.ask(VAULT, "en5", 0.1)


def test_interfaces_that_cannot_be_read_are_an_error_too(
    asked: list[arp.Asker], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Linux lets the name of an interface be any octets but a slash, a colon and blanks."""

    def fails() -> None:
        raise UnicodeDecodeError("utf-8", b"\xff", 0, 1, "invalid start byte")

    monkeypatch.setattr(psutil, "net_if_addrs", fails)
    with pytest.raises(AnswerError, match="en5 cannot ask for hardware addresses"):
        arp.ask(VAULT, "en5", 0.1)


def test_asking_without_the_right_names_it_before_the_library_is_loaded(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse() -> None:
        raise PrivilegeError("CAP_NET_RAW: run it with sudo")

    monkeypatch.setattr(arp, "demand_raw_frames", refuse)
    monkeypatch.setitem(sys.modules, "scapy", None)
    with pytest.raises(PrivilegeError) as refusal:
        arp.ask(VAULT, "en5", 0.1)

    assert "CAP_NET_RAW: run it with sudo" == refusal.value.needs


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        ([], ()),
        (["02:00:5e:00:00:10", "02:00:5e:00:00:20"], ("02:00:5e:00:00:10", "02:00:5e:00:00:20")),
        (["02:00:5E:00:00:10", "02:00:5e:00:00:10"], ("02:00:5e:00:00:10",)),
        (["02:00:5e:00:00", "", None, b"\x02\0", "02:00:5e:00:00:10:11", "02:00:5e:00:00:20"], ("02:00:5e:00:00:20",)),
    ],
)
def test_every_well_formed_answer_counts_once_in_its_order(told: list[object], expected: tuple[str, ...]) -> None:
    assert expected == arp.distinct(told)


def test_a_flood_of_answers_is_bounded() -> None:
    flood = [f"02:00:5e:00:{number // 256:02x}:{number % 256:02x}" for number in range(1000)]

    assert tuple(flood[: arp.MOST_ANSWERS]) == arp.distinct(flood)


ASKING = """
from netaudit.machine import arp
try:
    arp._answers("10.44.20.10", arp.Asker("02:00:5e:00:00:11", "10.44.20.11"), "no-such-port", 0.1)
except Exception:
    pass
from scapy.config import conf
print(conf.route.routes)
"""


def test_the_librarys_own_table_of_routes_is_never_read() -> None:
    """A table of 20,000 routes takes it twelve seconds, and the question goes out by a given interface."""
    said = subprocess.run([sys.executable, "-c", ASKING], capture_output=True, text=True, timeout=60, check=True)

    assert "[]\n" == said.stdout
