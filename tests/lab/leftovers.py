"""What a probe leaves behind in a station: processes and sockets."""

from __future__ import annotations

import os
import signal
import time
from pathlib import Path

from stage import Stage


def own_sockets(stage: Stage) -> set[str]:
    """Inodes of the station's sockets that some process holds; 0 is one that the kernel only buries."""
    rows = [
        line.split()
        for kind in ("tcp", "tcp6", "udp", "udp6", "raw", "packet")
        for line in stage.edit.file(kind).splitlines()[1:]
    ]
    return {row[8] if len(row) < 10 else row[9] for row in rows} - {"0"}


def left_behind(stage: Stage, before: frozenset[int]) -> set[str]:
    """What still runs in the station, the mount's own daemon left out.

    A process that waits for a file system of user space dies, once killed, no sooner than that answers or ends
    (request_wait_answer in the kernel's fs/fuse/dev.c); so the daemon is ended first.
    """
    for pid in stage.edit.processes():
        if words_of(pid).startswith("smbnetfs"):
            os.kill(pid, signal.SIGKILL)
    ends_s = time.monotonic() + 3
    while (left := stage.edit.processes() - before) and time.monotonic() < ends_s:
        time.sleep(0.05)
    return {words_of(pid) for pid in left}


def words_of(pid: int) -> str:
    """The command line of a process; nothing where it has ended."""
    try:
        return Path(f"/proc/{pid}/cmdline").read_text(encoding="utf-8").replace("\0", " ")
    except OSError:
        return ""
