"""The resolver's child: what the system's getaddrinfo says, as lines."""

import json
import socket

import pytest

from netaudit.machine import resolver
from netaudit.machine.resolver import answers, main

STREAM = socket.SOCK_STREAM


def saying(monkeypatch: pytest.MonkeyPatch, outcome: object) -> None:
    def getaddrinfo(*words: object, **more: object) -> object:
        if isinstance(outcome, Exception):
            raise outcome
        return outcome

    monkeypatch.setattr(resolver.socket, "getaddrinfo", getaddrinfo)


def test_the_order_of_the_system_is_kept() -> None:
    expected = [[row[4][0], ""] for row in socket.getaddrinfo("localhost", None, type=STREAM)]

    assert expected == list(answers("localhost"))


def test_a_link_local_address_comes_with_its_interface(monkeypatch: pytest.MonkeyPatch) -> None:
    number, name = socket.if_nameindex()[0]
    saying(monkeypatch, [
        (socket.AF_INET6, STREAM, 6, "", ("fe80::1", 0, 0, number)),
        (socket.AF_INET6, STREAM, 6, "", ("fe80::1", 0, 0, 2**31 - 1)),
    ])  # fmt: skip

    assert [["fe80::1", name], ["fe80::1", str(2**31 - 1)]] == list(answers("vault"))


@pytest.mark.parametrize(
    ("error", "expected"),
    [
        (socket.gaierror(socket.EAI_NONAME, "Name or service not known"), []),
        (UnicodeError("label too long"), []),
        (socket.gaierror(socket.EAI_AGAIN, "Temporary failure"), ["Temporary failure"]),
        (socket.gaierror(socket.EAI_FAIL), ["no reason given"]),
    ],
)
def test_a_name_that_nobody_knows_is_told_from_a_resolver_that_failed(
    monkeypatch: pytest.MonkeyPatch, error: Exception, expected: list[str]
) -> None:
    """EAI_NONAME means unknown, EAI_AGAIN and EAI_FAIL that nobody could tell: RFC 3493 section 6.1."""
    saying(monkeypatch, error)

    assert expected == list(answers("vault"))


def test_every_answer_is_a_line(capsys: pytest.CaptureFixture[str]) -> None:
    main(["localhost"])

    assert list(answers("localhost")) == [json.loads(line) for line in capsys.readouterr().out.splitlines()]
