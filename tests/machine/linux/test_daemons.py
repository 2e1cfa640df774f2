"""The processes behind a mount, and their connections: this process for real, and others in a made-up proc."""

import os
import socket
import sys
from ipaddress import ip_address
from pathlib import Path

import pytest

from netaudit.machine.linux.daemons import Connection, connections, fuse_daemons, open_files, processes, ssh_of
from netaudit.model.machine_state import Endpoint

PROC = Path("/proc")
on_linux = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only Linux has this proc")


@on_linux
def test_this_process_has_both_ends_of_the_connection_that_it_made_and_not_what_only_listens() -> None:
    with socket.create_server(("127.0.0.1", 0)) as server, socket.create_connection(server.getsockname()) as client:
        local, remote = (Endpoint(ip_address(end[0]), end[1]) for end in (client.getsockname(), client.getpeername()))
        with server.accept()[0]:
            found = [each for each in connections(os.getpid(), PROC) if remote in each]
    expected = {Connection(local, remote), Connection(remote, local)}

    assert expected == set(found)


@on_linux
def test_this_process_is_among_the_processes_and_its_files_are_shown() -> None:
    with Path(__file__).open() as file:
        files = dict(open_files(os.getpid(), PROC))

        assert __file__ == files[str(file.fileno())]
    assert os.getpid() in processes(PROC)


def test_processes_come_by_number_and_other_names_are_none(tmp_path: Path) -> None:
    for name in ("9", "10", "self", "²"):
        (tmp_path / name).mkdir()

    assert (9, 10) == processes(tmp_path)


@pytest.mark.parametrize(
    ("target", "text", "found"),
    [
        ("/dev/fuse", "pos:\t0\nfuse_connection:\t41\n", (7,)),
        ("/dev/fuse", "pos:\t0\nfuse_connection:\t4\n", ()),
        ("/dev/fuse", "pos:\t0\n", ()),
        ("/dev/fuse", "fuse_connection:\t²\n", ()),
        ("/dev/null", "fuse_connection:\t41\n", ()),
    ],
)
def test_a_daemon_is_known_by_the_number_of_its_mount(
    tmp_path: Path, target: str, text: str, found: tuple[int, ...]
) -> None:
    for name in ("fd", "fdinfo"):
        (tmp_path / "7" / name).mkdir(parents=True)
    (tmp_path / "7" / "fd" / "5").symlink_to(target)
    (tmp_path / "7" / "fdinfo" / "5").write_text(text)

    assert found == fuse_daemons((0, 41), tmp_path)


@pytest.mark.parametrize(
    ("cmdline", "found"),
    [
        ("ssh\0-x\0edit@vault\0-s\0sftp\0", (7,)),
        ("ssh\0-x\0edit@other\0-s\0sftp\0", ()),
        ("ssh\0edit@vault\0", ()),
        ("sshd: edit@vault sftp", ()),
        ("", ()),
    ],
)
def test_the_ssh_of_a_mount_is_known_by_its_words(tmp_path: Path, cmdline: str, found: tuple[int, ...]) -> None:
    (tmp_path / "7").mkdir()
    (tmp_path / "7" / "cmdline").write_text(cmdline)

    assert found == ssh_of("edit@vault:/srv", tmp_path)


def test_a_process_that_is_gone_or_belongs_to_somebody_else_has_nothing(tmp_path: Path) -> None:
    assert () == connections(7, tmp_path)
    assert () == fuse_daemons((0, 41), tmp_path)
