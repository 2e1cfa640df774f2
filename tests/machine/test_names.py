"""Names: every address in the system's order, and where each comes from."""

import json
import socket
import sys
from collections.abc import Callable
from ipaddress import ip_address

import pytest

from netaudit.errors import AnswerError
from netaudit.machine import child, mdns, names
from netaudit.machine.names import addresses_of, is_host_name

FAST, SLOW, SIX = "10.44.20.10", "192.168.44.10", "fd55::50"
Resolver = Callable[..., None]


@pytest.fixture
def resolver(monkeypatch: pytest.MonkeyPatch) -> Resolver:
    """A resolver that says some lines; then it ends, or hangs."""

    def says(*lines: object, then: str = "") -> None:
        text = "".join(f"{line if isinstance(line, str) else json.dumps(line)}\n" for line in lines)
        code = f"print({text!r}, end='', flush=True)\n{then}"
        monkeypatch.setattr(child, "python_argv", lambda *words: [sys.executable, "-I", "-S", "-c", code])

    return says


@pytest.fixture(autouse=True)
def link(monkeypatch: pytest.MonkeyPatch) -> dict[str, tuple[str, ...]]:
    """What hosts on the link answer for themselves; nothing is sent."""
    hosts: dict[str, tuple[str, ...]] = {}

    def answered(name: str, timeout_s: float) -> tuple[object, ...]:
        return tuple(map(ip_address, hosts.get(name, ())))

    monkeypatch.setattr(mdns, "host_addresses", answered)
    monkeypatch.setattr(mdns, "instance_addresses", lambda instance, timeout_s: answered(instance.name, timeout_s))
    monkeypatch.setattr(names, "_hosts_text", lambda: f"{FAST} vault vault.local\n")
    return hosts


def named(host: str, timeout_s: float = 20) -> list[tuple[str, str]]:
    return [(str(address), origin) for address, origin in addresses_of(host, timeout_s)]


@pytest.mark.parametrize(
    ("text", "address"),
    [
        (FAST, FAST),
        (SIX, SIX),
        (f"[{SIX}]", SIX),
        ("fe80::1%en5", "fe80::1%en5"),
        ("[fe80::1%en5]", "fe80::1%en5"),
        ("10.44.5130", "10.44.20.10"),
        ("::ffff:10.44.20.10", "10.44.20.10"),
    ],
)
def test_an_address_stands_for_itself(text: str, address: str) -> None:
    """The short form as inet_aton(3) reads it; IPv4 within IPv6 by RFC 4291 section 2.5.5.2."""
    assert [(address, "literal")] == named(text)


@pytest.mark.parametrize(
    "text",
    ["", ".", "a b", "a\0b", "-vault", "vault.-x", "a..b", "x" * 64, ".".join(["x" * 50] * 6), "a/b", "a@b", "a:b",
     "[vault]", "\udcff", "a\nb", "tést" * 20],
)  # fmt: skip
def test_what_can_be_no_name_has_no_address(text: str, resolver: Resolver) -> None:
    """Labels of 1 to 63 octets, 253 characters in all: RFC 1035 section 2.3.4."""
    resolver([FAST, ""])

    assert not is_host_name(text)
    assert [] == named(text)


@pytest.mark.parametrize("text", ["vault", "vault.", "VAULT_2.boathouse.example", "böe", "x" * 63, "3com"])
def test_what_can_be_a_name_is_let_pass(text: str) -> None:
    assert is_host_name(text)


def test_the_order_of_the_resolver_stays_and_the_hosts_file_is_named(resolver: Resolver) -> None:
    resolver([SIX, ""], [SLOW, ""], [FAST, ""], [SLOW, ""], ["fe80::1", "en5"])
    expected = [(SIX, "dns"), (SLOW, "dns"), (FAST, "hosts"), ("fe80::1%en5", "dns")]

    assert expected == named("vault")


def test_the_real_resolver_gives_what_this_system_gives(monkeypatch: pytest.MonkeyPatch) -> None:
    """socket.getaddrinfo is the oracle."""
    expected = list(dict.fromkeys(row[4][0] for row in socket.getaddrinfo("localhost", None)))

    assert expected == [address for address, _ in named("localhost")]


def test_a_local_name_is_also_asked_for_on_the_link_and_both_answers_are_told(
    resolver: Resolver, link: dict[str, tuple[str, ...]]
) -> None:
    resolver([FAST, ""])
    link["vault.local"] = (SLOW, FAST)

    assert [(FAST, "hosts"), (SLOW, "mdns")] == named("vault.local")


def test_a_bare_name_is_asked_for_on_the_link_only_where_the_resolver_does_not_know_it(
    resolver: Resolver, link: dict[str, tuple[str, ...]]
) -> None:
    link["vault.local"] = (SLOW,)
    resolver()
    unknown = named("vault")
    resolver([FAST, ""])
    known = named("vault")

    assert ([(SLOW, "mdns")], [(FAST, "hosts")]) == (unknown, known)


def test_a_name_that_nobody_knows_has_no_address(resolver: Resolver) -> None:
    resolver()

    assert [] == named("vault") == named("vault.local") == named("vault.boathouse.example")


@pytest.mark.parametrize("host", ["vault", "vault.local", "vault.boathouse.example"])
def test_a_resolver_that_hangs_is_told_and_not_waited_for(host: str, resolver: Resolver) -> None:
    resolver(then="import signal; signal.pause()")

    with pytest.raises(AnswerError, match=f"asked for '{host}' and did not answer within"):
        addresses_of(host, 0.3)


@pytest.mark.parametrize("host", ["vault", "vault.local"])
def test_a_host_that_answers_for_itself_is_known_though_the_resolver_hangs(
    host: str, resolver: Resolver, link: dict[str, tuple[str, ...]]
) -> None:
    resolver(then="import signal; signal.pause()")
    link["vault.local"] = (SLOW,)

    assert [(SLOW, "mdns")] == named(host, 0.3)


def test_a_resolver_that_fails_is_told_in_its_own_words(resolver: Resolver) -> None:
    resolver('"Temporary failure in name resolution"')

    with pytest.raises(AnswerError, match="could not tell: Temporary failure in name resolution"):
        named("vault.boathouse.example")


def test_a_resolver_that_breaks_off_did_not_say_that_the_name_is_unknown(resolver: Resolver) -> None:
    resolver(then="raise SystemExit(1)")

    with pytest.raises(AnswerError, match="broke off"):
        named("vault.boathouse.example")


@pytest.mark.parametrize(
    "line",
    ["nonsense", "[" * 5000, "null", "7", "{}", '["10.44.20.10"]', '["x", ""]', "[1, 2]", '["10.44.20.10", "en5"]'],
)
def test_an_answer_that_cannot_be_read_counts_for_nothing(line: str, resolver: Resolver) -> None:
    resolver(line, [FAST, ""])

    assert [(FAST, "hosts")] == named("vault")


def test_a_name_with_endless_addresses_is_cut_off(resolver: Resolver) -> None:
    resolver(then='import itertools\nfor n in itertools.count(): print(f\'["10.0.{n >> 8 & 255}.{n & 255}", ""]\')')
    with pytest.raises(AnswerError, match="did not answer"):
        named("nobody.boathouse.example", 0.3)


def test_the_link_is_asked_no_longer_than_its_hosts_may_take_and_never_past_the_time(
    link: dict[str, tuple[str, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """RFC 6762, section 6: within a second; the whole is bounded by whoever asks."""
    waits_s: list[float] = []
    monkeypatch.setattr(mdns, "instance_addresses", lambda instance, timeout_s: waits_s.append(timeout_s) or ())
    for timeout_s in (0.5, 20):
        named("NAS._smb._tcp.local", timeout_s)

    assert [0.5, names.MDNS_S] == waits_s


@pytest.mark.parametrize("text", ["[fd55::50", "fd55::50]", "[fd55::50%en5"])
def test_half_a_pair_of_brackets_makes_no_address(text: str) -> None:
    assert () == addresses_of(text, 1)


def test_a_service_is_no_host_name_and_is_asked_for_on_the_link(link: dict[str, tuple[str, ...]]) -> None:
    link["Cutting Room"] = (SLOW,)

    assert [(SLOW, "mdns")] == named("Cutting%20Room._smb._tcp.local")
    assert [] == named("._tcp.local")


@pytest.mark.parametrize("text", ["10.44.20.010", "010.44.20.10", "10.044.20", "10.44.20.300", "1.2.3.4.5"])
def test_numbers_that_people_and_the_c_library_read_apart_are_no_address(text: str) -> None:
    """inet_aton(3): a nought before a number makes it octal."""
    assert () == addresses_of(text, 1)
