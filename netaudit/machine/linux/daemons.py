"""File systems in user space: the process that serves a mount, and the connections of a process."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from netaudit.machine.parse.linux.tcp_table import ESTABLISHED, tcp_rows
from netaudit.machine.small_files import link_of, names_in, text_of
from netaudit.model.machine_state import Endpoint

FUSE_DEVICE = "/dev/fuse"
MOST_FILES = 4096
"""Open files of one process that are looked at."""


class Connection(NamedTuple):
    """Both ends of an established connection."""

    local: Endpoint
    remote: Endpoint


def fuse_daemons(device: tuple[int, int], proc: Path) -> tuple[int, ...]:
    """The processes that serve a FUSE mount of that device number, the eldest first: its helpers hold it open too.

    `fuse_connection:` in their fdinfo equals the minor number: fuse_dev_show_fdinfo in the kernel's fs/fuse/dev.c.
    Empty where they belong to somebody else, or the kernel does not tell.
    """
    return tuple(process for process in processes(proc) if _serves(process, device, proc))


def _serves(process: int, device: tuple[int, int], proc: Path) -> bool:
    return any(
        _fuse_connection(text_of(proc / str(process) / "fdinfo" / number)) == device
        for number, target in open_files(process, proc)
        if target == FUSE_DEVICE
    )


def ssh_of(source: str, proc: Path) -> tuple[int, ...]:
    """The ssh processes of an sshfs mount: sshfs(1) starts `ssh … user@host -s sftp`, and is not its parent later."""
    user_at_host = source.partition(":/")[0].removesuffix(":")
    return tuple(process for process in processes(proc) if _is_ssh(process, user_at_host, proc))


def _is_ssh(process: int, user_at_host: str, proc: Path) -> bool:
    words = text_of(proc / str(process) / "cmdline").split("\0")
    return Path(words[0]).name == "ssh" and user_at_host in words and "sftp" in words


def connections(process: int, proc: Path) -> tuple[Connection, ...]:
    """The established connections of a process to other machines, in its own network namespace."""
    inodes = {target for _, target in open_files(process, proc) if target.startswith("socket:[")}
    rows = (row for name in ("tcp", "tcp6") for row in tcp_rows(text_of(proc / str(process) / "net" / name)))
    found = (
        Connection(row.local, row.remote)
        for row in rows
        if row.state == ESTABLISHED and f"socket:[{row.inode}]" in inodes
    )
    return tuple(dict.fromkeys(found))


def processes(proc: Path) -> tuple[int, ...]:
    """The processes there are, by number."""
    return tuple(sorted(int(name) for name in names_in(proc) if name.isascii() and name.isdecimal()))


def open_files(process: int, proc: Path) -> Iterator[tuple[str, str]]:
    """Number and target of each open file of a process; none where it belongs to somebody else."""
    folder = proc / str(process) / "fd"
    for number in names_in(folder)[:MOST_FILES]:
        yield number, link_of(folder / number)


def _fuse_connection(text: str) -> tuple[int, int] | None:
    for line in text.splitlines():
        name, _, value = line.partition(":")
        if name == "fuse_connection" and value.strip().isdecimal():
            return 0, int(value)
    return None
