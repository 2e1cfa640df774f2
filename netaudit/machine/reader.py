"""Reading and writing one file in a process of its own: on a dead share it hangs in the kernel, and is killed there.

It prints a JSON object a line. `step`: bytes and seconds of a step, and the share of a
processor core used since it began · `candidate`: a file worth reading · `failed`: why, in words.
"""

from __future__ import annotations

import json
import os
import stat
import sys
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from functools import partial

from netaudit.machine.clock import now_s

ENTRIES_AT_MOST = 400
"""Entries of folders that are looked at for a file worth reading."""
LEVELS = 2
"""Folders below the one given are looked into so deep."""
F_NOCACHE = 48
"""fcntl of macOS: keep this file's data out of memory; sys/fcntl.h."""


class _Meter:
    """Measures steps, and the processor time that this process uses."""

    def __init__(self) -> None:
        self._began_s, self._cpu_began_s = now_s(), _cpu_s()

    def step(self, work: Callable[[], int | None]) -> int:
        """Do one step and say how long it took; its bytes."""
        started_s = now_s()
        moved = work() or 0
        seconds = now_s() - started_s
        share = (_cpu_s() - self._cpu_began_s) / max(now_s() - self._began_s, 1e-9)
        _say(step=[moved, seconds], cpu_share=min(1.0, share))
        return moved


def main(words: Sequence[str]) -> None:
    """`read PATH MOST STEP`, `write PATH MOST STEP NAME`, `remove PATH NAME` or `pick PATH LEAST`."""
    try:
        match words:
            case ["read", path, most, step]:
                read(path, int(most), int(step))
            case ["write", path, most, step, name]:
                write(path, int(most), int(step), name)
            case ["remove", path, name]:
                remove(path, name)
            case ["pick", path, least]:
                pick(path, int(least))
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except OSError as error:
        _say(failed=error.strerror or "the system gives no reason")


def read(path: str, most_bytes: int, step_bytes: int) -> None:
    """Read a file from its beginning, past what this machine remembers of it."""
    opened = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with open(opened, "rb", buffering=0) as file:
        if not stat.S_ISREG(os.fstat(opened).st_mode):
            _say(failed="it is no plain file")
            return
        _forget(opened)
        meter, room, left = _Meter(), memoryview(bytearray(step_bytes)), most_bytes
        while left > 0:
            moved = meter.step(partial(file.readinto, room[: min(left, step_bytes)]))
            if not moved:
                return
            left -= moved


def write(path: str, most_bytes: int, step_bytes: int, name: str) -> None:
    """Write a new file of that many bytes, wait until the storage has it, and remove it again.

    The last step has no bytes: it is the wait for the storage. The bytes are random, so that nothing shrinks them.
    """
    whole = os.path.join(_folder_of(path), name)
    opened = os.open(whole, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600)
    try:
        with open(opened, "wb", buffering=0) as file:
            meter, block, left = _Meter(), bytearray(os.urandom(step_bytes)), most_bytes
            while left > 0:
                block[:8] = left.to_bytes(8, "big")
                left -= meter.step(partial(file.write, memoryview(block)[: min(left, step_bytes)]))
            meter.step(partial(os.fsync, opened))
    finally:
        remove(path, name)


def remove(path: str, name: str) -> None:
    """Remove a file that was written, where it is still there."""
    with suppress(FileNotFoundError):
        os.unlink(os.path.join(_folder_of(path), name))


def pick(path: str, least_bytes: int) -> None:
    """Name files that are large enough, each larger than the one before, among the first few hundred entries."""
    largest = least_bytes - 1
    for candidate, size in _files(path):
        if size > largest and os.access(candidate, os.R_OK):
            largest = size
            _say(candidate=candidate)


def _files(path: str) -> Iterator[tuple[str, int]]:
    status = os.stat(path)
    if stat.S_ISREG(status.st_mode):
        yield path, status.st_size
        return
    waiting, looked_at = deque([(path, 0)]), 0
    while waiting:
        folder, level = waiting.popleft()
        for entry in _entries(folder, level):
            looked_at += 1
            if looked_at > ENTRIES_AT_MOST:
                return
            if entry.is_file(follow_symlinks=False):
                yield entry.path, entry.stat(follow_symlinks=False).st_size
            elif entry.is_dir(follow_symlinks=False) and level < LEVELS and not entry.name.startswith("."):
                waiting.append((entry.path, level + 1))


def _entries(folder: str, level: int) -> Iterator[os.DirEntry[str]]:
    """What a folder holds; nothing where a deeper one may not be looked into."""
    try:
        with os.scandir(folder) as entries:
            yield from entries
    except OSError:
        if level == 0:
            raise


def _folder_of(path: str) -> str:
    """The folder itself, or that of a file."""
    return path if stat.S_ISDIR(os.stat(path).st_mode) else os.path.dirname(path) or "."


def _forget(opened: int) -> None:
    """Ask the system to read this file from the storage, not from its own memory: posix_fadvise(2), fcntl(2)."""
    if hasattr(os, "posix_fadvise"):
        os.posix_fadvise(opened, 0, 0, os.POSIX_FADV_DONTNEED)
    elif sys.platform == "darwin":
        from fcntl import fcntl  # noqa: PLC0415 - there is none on Windows

        fcntl(opened, F_NOCACHE, 1)


def _cpu_s() -> float:
    used = os.times()
    return used.user + used.system


def _say(**words: object) -> None:
    print(json.dumps(words), flush=True)
