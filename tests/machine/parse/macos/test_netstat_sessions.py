"""`netstat -anvl -p tcp`. Format: Apple's inet.c and main.c; captures are written from it, not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from mac_captures import capture

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.netstat_sessions import Socket, parse_netstat_sessions
from netaudit.model.machine_state import Endpoint

RELEASES = {
    "10.14": (None, None),
    "12": (None, None),
    "14": (None, None),
    "15.0": (7_340_032_123, 1_075_958_462),
    "26": (7_340_032_123, 1_075_958_462),
}
"""Releases to what their rows count: received and sent bytes."""


def sockets(release: str) -> tuple[Socket, ...]:
    return parse_netstat_sessions(capture(f"netstat-tcp-{release}.txt"))


@pytest.mark.parametrize("release", RELEASES)
def test_the_kernels_own_connection_is_read_in_every_release(release: str) -> None:
    """Rows do not stand under their header, the owner's column has changed twice, and the file
    clients live in the kernel, number 0."""
    ends = Endpoint(ip_address("10.44.20.11"), 61042), Endpoint(ip_address("10.44.20.10"), 445)

    assert Socket(*ends, "ESTABLISHED", *RELEASES[release], "kernel_task", 0) == sockets(release)[0]


def test_a_process_may_have_spaces_and_a_colon_in_its_name() -> None:
    """From 15.4 on the column is process:pid."""
    assert ("Boathouse Sync: helper", 731) == (sockets("26")[2].process, sockets("26")[2].pid)


@pytest.mark.parametrize("release", ["10.14", "15.0"])
def test_before_15_4_only_the_number_of_the_process_is_told(release: str) -> None:
    assert (None, 731) == (sockets(release)[2].process, sockets(release)[2].pid)


@pytest.mark.parametrize("release", ["12", "14", "15.0", "26"])
def test_ipv6_ends_are_parted_at_the_last_dot(release: str) -> None:
    expected = (
        Endpoint(ip_address("2001:db8:44::1111:2222:3333:51"), 52000),
        Endpoint(ip_address("2001:db8:44::10"), 445),
    )
    scoped = Endpoint(ip_address("fe80::11:2233:4455:6677%en7"), 52001), Endpoint(ip_address("fe80::10%en7"), 2049)

    assert expected == sockets(release)[3][:2]
    assert scoped == sockets(release)[4][:2]


@pytest.mark.parametrize("release", ["10.14", "12-narrow"])
def test_an_ipv6_address_that_may_have_been_cut_is_not_believed(release: str) -> None:
    """Without -l an IPv6 address is cut to 16 characters, and what is left may be another address."""
    assert [4] * 6 == [end.address.version for socket in sockets(release) for end in socket[:2]]


def test_a_short_ipv6_address_is_whole_in_the_narrow_table_too() -> None:
    row = f"tcp6  0  0  {'fd44::11.52000':22} {'fd44::10.445':22} ESTABLISHED 1 1 0 0 0182 00000008"
    (found,) = parse_netstat_sessions(f"{capture('netstat-tcp-12-narrow.txt').splitlines()[1]}\n{row}\n")

    assert (Endpoint(ip_address("fd44::11"), 52000), Endpoint(ip_address("fd44::10"), 445)) == found[:2]


def test_a_port_is_a_number_of_16_bits() -> None:
    header = capture("netstat-tcp-26.txt").splitlines()[1]
    rows = [f"tcp4 0 0 10.44.20.11.{port} 10.44.20.10.445 ESTABLISHED" for port in (65_535, 65_536)]

    assert [65_535] == [found.local.port for found in parse_netstat_sessions("\n".join([header, *rows]))]


def test_wildcards_are_no_ends() -> None:
    assert all(socket.state != "LISTEN" for release in RELEASES for socket in sockets(release))


def test_no_connection_at_all_is_an_answer() -> None:
    assert () == parse_netstat_sessions("")


def test_without_its_table_the_answer_cannot_be_read() -> None:
    with pytest.raises(AnswerError, match="without its table of connections"):
        parse_netstat_sessions("netstat: sysctl: net.inet.tcp.pcblist_n: Operation not permitted\n")


@pytest.mark.parametrize("release", ["10.14", "15.0", "26"])
def test_a_row_that_ends_after_its_state_keeps_its_ends(release: str) -> None:
    text = "\n".join(line.partition("ESTABLISHED")[0] + "ESTABLISHED" if "ESTABLISHED" in line else line
                     for line in capture(f"netstat-tcp-{release}.txt").splitlines())  # fmt: skip

    assert (None, None, None, None) == parse_netstat_sessions(text)[0][3:]
