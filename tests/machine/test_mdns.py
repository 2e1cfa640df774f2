"""Multicast DNS: asked of a responder of the zeroconf library on loopback."""

import threading
from collections.abc import Iterator
from ipaddress import ip_address
from types import SimpleNamespace

import ifaddr
import pytest
import zeroconf

from netaudit.machine import mdns
from netaudit.machine.mdns import Instance, host_addresses, instance_addresses, instance_of

LOOPBACK = "127.0.0.1"


@pytest.fixture
def quiet(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is asked beyond this machine."""
    monkeypatch.setattr(mdns, "_own_addresses", lambda: (LOOPBACK,))


@pytest.fixture(scope="module")
def responder() -> Iterator[None]:
    """A storage that answers for its name and offers its share."""
    speaking = zeroconf.Zeroconf(interfaces=[LOOPBACK], ip_version=zeroconf.IPVersion.V4Only)
    try:
        speaking.register_service(
            zeroconf.ServiceInfo(
                "_smb._tcp.local.", "Cutting Room._smb._tcp.local.", port=445, server="vault.local.",
                parsed_addresses=["10.44.20.10", "192.168.44.10"],
            ),
            strict=False,
        )  # fmt: skip
        yield
    finally:
        speaking.close()


def test_a_host_answers_for_its_own_name_with_every_address(responder: None, quiet: None) -> None:
    expected = {ip_address("10.44.20.10"), ip_address("192.168.44.10")}

    assert expected == set(host_addresses("vault.local", 5))
    assert expected == set(host_addresses("VAULT.local.", 5))


def test_a_service_is_found_by_the_name_that_people_gave_it(responder: None, quiet: None) -> None:
    expected = {ip_address("10.44.20.10"), ip_address("192.168.44.10")}

    assert expected == set(instance_addresses(Instance("Cutting Room", "_smb._tcp.local."), 5))


def test_nobody_answering_is_empty_and_leaves_no_thread_and_no_socket(quiet: None) -> None:
    """An open socket would be told by Python's own ResourceWarning, which is an error in these tests."""
    before = set(threading.enumerate())

    assert () == host_addresses("nobody-has-this-name.local", 0.05)
    assert before == set(threading.enumerate())


@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")  # zeroconf's half-opened sockets
@pytest.mark.parametrize("own", [(), ("not an address",), ("192.0.2.77",)])
def test_a_machine_that_cannot_ask_gets_no_answer(monkeypatch: pytest.MonkeyPatch, own: tuple[str, ...]) -> None:
    monkeypatch.setattr(mdns, "_own_addresses", lambda: own)

    assert () == host_addresses("vault.local", 0.05)


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        (["127.0.0.1", "10.44.20.11", "10.44.20.11"], ("10.44.20.11",)),
        (["127.0.0.1"], ("127.0.0.1",)),
        ([], ()),
    ],
)
def test_this_machine_alone_is_asked_only_where_there_is_no_way_out(
    monkeypatch: pytest.MonkeyPatch, texts: list[str], expected: tuple[str, ...]
) -> None:
    adapter = SimpleNamespace(ips=[SimpleNamespace(ip=text, is_IPv4=True) for text in texts])
    other = SimpleNamespace(ips=[SimpleNamespace(ip=("fe80::1", 0, 1), is_IPv4=False)])
    monkeypatch.setattr(ifaddr, "get_adapters", lambda: [adapter, other])

    assert expected == mdns._own_addresses()


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("NAS._smb._tcp.local", Instance("NAS", "_smb._tcp.local.")),
        ("Cutting%20Room._SMB._tcp.local.", Instance("Cutting Room", "_smb._tcp.local.")),
        ("Dr. Vault._afpovertcp._tcp.local", Instance("Dr. Vault", "_afpovertcp._tcp.local.")),
        ("vault.local", None),
        ("_smb._tcp.local", None),
        ("a\0b._smb._tcp.local", None),
        (f"{'é' * 40}._smb._tcp.local", None),
        (f"{'n' * 63}._smb._tcp.local", Instance("n" * 63, "_smb._tcp.local.")),
        (f"{'n' * 64}._smb._tcp.local", None),
        ("NAS._smb._sctp.local", None),
        ("\udcff._smb._tcp.local", None),
    ],
)
def test_a_service_instance_is_told_from_a_host_name(text: str, expected: Instance | None) -> None:
    """An instance has up to 63 octets of any text before the service: RFC 6763 section 4.1."""
    assert expected == instance_of(text)


@pytest.mark.parametrize(("text", "kept"), [("fe80::1", False), ("fe80::1%1", True), ("fd55::50", True), ("x", False)])
def test_a_link_local_address_without_its_interface_leads_nowhere(text: str, kept: bool) -> None:
    assert kept == (mdns._address(text) is not None)
