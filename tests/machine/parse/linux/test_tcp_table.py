"""The TCP table: format as published in proc_pid_net(5); not taken from a machine."""

import os
import socket
from ipaddress import ip_address
from pathlib import Path

import pytest
from spoiled import spoiled

from netaudit.machine.parse.linux.tcp_table import ESTABLISHED, TcpRow, tcp_rows
from netaudit.model.machine_state import Endpoint

ANY = "0.0.0.0"  # noqa: S104 - as the kernel prints a socket that listens everywhere
CAPTURES = Path(__file__).parents[3] / "captures" / "linux"


def end(address: str, port: int) -> Endpoint:
    return Endpoint(ip_address(address), port)


@pytest.mark.parametrize(
    ("file", "rows"),
    [
        (
            "tcp.txt",
            (
                TcpRow(end(ANY, 445), end(ANY, 0), 10, 0, 21001),
                TcpRow(end("198.51.100.21", 59899), end("192.0.2.50", 445), ESTABLISHED, 1000, 21002),
            ),
        ),
        (
            "tcp6.txt",
            (
                TcpRow(end("fd55::11", 59900), end("fd55::50", 2049), ESTABLISHED, 0, 21003),
                TcpRow(end("198.51.100.21", 59901), end("192.0.2.50", 445), 6, 0, 0),
            ),
        ),
    ],
)
def test_both_ends_are_read_and_a_mapped_address_is_given_as_what_it_is(file: str, rows: tuple[TcpRow, ...]) -> None:
    assert rows == tcp_rows((CAPTURES / file).read_text(), "little")


def test_on_a_big_endian_machine_the_words_stand_in_the_order_of_the_network() -> None:
    line = "0: C6336415:E9FB C0000232:01BD 01 0:0 0:0 0 1000 0 7 1"
    expected = (TcpRow(end("198.51.100.21", 59899), end("192.0.2.50", 445), ESTABLISHED, 1000, 7),)

    assert expected == tcp_rows(line, "big")


def test_a_line_may_end_with_the_number_of_its_socket_but_not_before_it() -> None:
    line = "0: C6336415:E9FB C0000232:01BD 01 0:0 0:0 0 1000 0"

    assert [7] == [row.inode for row in tcp_rows(f"{line} 7\n{line}", "big")]


def test_a_connection_of_this_process_is_found_by_the_number_of_its_socket() -> None:
    """The kernel's own fstat of the socket names the inode."""
    table = Path("/proc/self/net/tcp")
    if not table.exists():
        pytest.skip("this system has no /proc/self/net/tcp")
    with socket.create_server(("127.0.0.1", 0)) as server, socket.create_connection(server.getsockname()) as client:
        row = next(row for row in tcp_rows(table.read_text()) if row.inode == os.fstat(client.fileno()).st_ino)
        expected = (end(*client.getsockname()), end(*client.getpeername()), ESTABLISHED, os.getuid())

    assert expected == (row.local, row.remote, row.state, row.user)


@pytest.mark.parametrize("file", ["tcp.txt", "tcp6.txt"])
def test_a_spoiled_table_never_raises(file: str) -> None:
    ports = {row.remote.port for text in spoiled((CAPTURES / file).read_text()) for row in tcp_rows(text)}

    assert all(0 <= port <= 65_535 for port in ports)
