"""Nothing of Windows runs here: requests go through ctypes into a function that notes them and answers with bytes
built by hand, or with the number of an error. What a real call answers was seen from Wine 8.0: one reply with status 0,
or none with error 11010 (tests/captures/windows/tables.txt)."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from windowscalls import WindowsCalls
from windowsroom import echo_reply

from netaudit.errors import AnswerError
from netaudit.machine.parse.windows.facts import Echo
from netaudit.machine.windows.echo import EchoRequest, send_echo, socket_address

VAULT, SEAT = ip_address("10.44.20.10"), ip_address("10.44.20.12")
REPLY_6 = bytes(6) + ip_address("fe80::10").packed + bytes(4) + bytes(2) + bytes(8)


def test_a_request_may_not_be_cut_and_bears_the_source_that_is_meant() -> None:
    calls = WindowsCalls(echo=lambda sent: echo_reply(0))
    found = send_echo(calls.load("iphlpapi.dll"), EchoRequest(VAULT, SEAT, 8972, 0.5, hops=3))

    assert Echo(0, VAULT) == found
    assert [
        {"source": "10.44.20.12", "remote": "10.44.20.10", "octets": 8972, "hops": 3, "flags": 2, "ms": 500}
    ] == calls.sent


def test_the_handle_is_closed_whatever_comes_back() -> None:
    calls = WindowsCalls(echo=lambda sent: 11010)

    assert Echo(11010, None) == send_echo(calls.load("iphlpapi.dll"), EchoRequest(VAULT, SEAT, 32, 0.1))
    assert 0 == calls.handles


def test_a_request_over_ipv6_goes_by_its_own_call() -> None:
    calls = WindowsCalls(echo=lambda sent: REPLY_6)
    request = EchoRequest(ip_address("fe80::10%7"), ip_address("fe80::12%7"), 1452, 0.25)

    assert Echo(0, ip_address("fe80::10")) == send_echo(calls.load("iphlpapi.dll"), request)
    assert ("fe80::12", "fe80::10", 1452, 250) == tuple(
        calls.sent[0][key] for key in ("source", "remote", "octets", "ms")
    )
    assert 0 == calls.handles


def test_the_wait_is_told_in_milliseconds_and_many_routers_may_pass_it_on() -> None:
    """IANA, IP parameters: the default time to live is 64."""
    calls = WindowsCalls(echo=lambda sent: 11010)
    send_echo(calls.load("iphlpapi.dll"), EchoRequest(VAULT, SEAT, 32, 2.0))

    assert (2000, 64) == (calls.sent[0]["ms"], calls.sent[0]["hops"])


def test_no_time_left_is_still_a_bounded_wait() -> None:
    calls = WindowsCalls(echo=lambda sent: 11010)
    send_echo(calls.load("iphlpapi.dll"), EchoRequest(VAULT, SEAT, 32, 0.0))

    assert 1 == calls.sent[0]["ms"]


def test_a_handle_that_is_not_given_raises_an_answer_error() -> None:
    calls = WindowsCalls(handle=2**64 - 1)

    with pytest.raises(AnswerError, match="IcmpCreateFile"):
        send_echo(calls.load("iphlpapi.dll"), EchoRequest(VAULT, SEAT, 32, 0.1))


@pytest.mark.parametrize(("local", "octets"), [("fe80::12", 32), ("10.44.20.12", 65_501), ("10.44.20.12", -1)])
def test_a_request_that_makes_no_sense_is_not_sent(local: str, octets: int) -> None:
    calls = WindowsCalls(echo=lambda sent: echo_reply(0))

    with pytest.raises(AnswerError, match="cannot send"):
        send_echo(calls.load("iphlpapi.dll"), EchoRequest(VAULT, ip_address(local), octets, 0.1))
    assert [] == calls.sent


@pytest.mark.parametrize(
    ("text", "scope"), [("fe80::10%7", 7), ("fe80::10", 0), ("fe80::10%eth0", 0), ("fe80::10%²", 0)]
)
def test_only_a_zone_that_is_a_number_is_handed_over(text: str, scope: int) -> None:
    assert scope == socket_address(ip_address(text)).scope
