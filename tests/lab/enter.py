"""Keeps a network namespace with a file system view of its own, or runs a command in one that is kept; no imports of
the lab, so that it starts fast.

    enter.py keep SOURCE=TARGET…
        makes one, says "ready", ends with its standard input and takes all in it along
    enter.py run STARTER PID UID FOLDER… -- WORD…
        runs a command for the process STARTER in the one that PID keeps, as a user who can read those folders
"""

import ctypes
import os
import signal
import sys
from collections.abc import Iterator
from contextlib import suppress

CLONE_NEWNS = 0x00020000
CLONE_NEWNET = 0x40000000
MS_BIND, MS_REC, MS_SLAVE = 0x1000, 0x4000, 0x80000
MNT_DETACH = 2
PR_SET_PDEATHSIG = 1
"""Flags of unshare(2), setns(2), mount(2), umount2(2) and prctl(2), as their manual pages and headers give them."""

libc = ctypes.CDLL(None, use_errno=True)


def call(name: str, *words: object) -> None:
    """Call a function of the C library; raises OSError where it fails."""
    if getattr(libc, name)(*words) != 0:
        number = ctypes.get_errno()
        raise OSError(number, f"{name}{words}: {os.strerror(number)}")


def mount(source: str, target: str, kind: str | None = None, flags: int = 0, data: str = "") -> None:
    """mount(2)."""
    call("mount", source.encode(), target.encode(), kind and kind.encode(), flags, data.encode())


def enter(pid: int, kinds: str = "mnt net") -> None:
    """Step into the namespaces of a process; the network alone may be entered by one thread of many."""
    for handle in [os.open(f"/proc/{pid}/ns/{kind}", os.O_RDONLY | os.O_CLOEXEC) for kind in kinds.split()]:
        try:
            call("setns", handle, 0)
        finally:
            os.close(handle)


def others(keeper: int) -> Iterator[int]:
    """The processes in the network namespace of the one that keeps it, itself left out."""
    here = os.readlink(f"/proc/{keeper}/ns/net")
    for pid in [int(name) for name in os.listdir("/proc") if name.isdigit()]:
        with suppress(OSError):
            if pid != keeper and os.readlink(f"/proc/{pid}/ns/net") == here:
                yield pid


def keep(files: list[str]) -> None:
    """Hold a namespace whose /sys shows its own interfaces and whose /etc has files of its own."""
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, signal.SIG_IGN)
    call("unshare", CLONE_NEWNET | CLONE_NEWNS)
    mount("none", "/", flags=MS_REC | MS_SLAVE)
    call("umount2", b"/sys", MNT_DETACH)
    mount("lab", "/sys", "sysfs")
    for source, target in (file.split("=") for file in files):
        mount(source, target, flags=MS_BIND)
    print("ready", flush=True)
    sys.stdin.read()
    while found := list(others(os.getpid())):
        for pid in found:
            with suppress(ProcessLookupError):
                os.kill(pid, signal.SIGKILL)


def closed_to_others(folder: str) -> str | None:
    """The topmost folder on the way to another that not everybody may pass."""
    parts = folder.split("/")
    way = ["/".join(parts[:count]) for count in range(2, len(parts) + 1)]
    return next((step for step in way if not os.stat(step).st_mode & 0o001), None)


def open_up(folders: list[str]) -> None:
    """Let everybody reach some folders, in this process's own view of the file system alone.

    A closed folder on the way, such as /root, is covered by an open and empty one in which only those folders appear.
    """
    call("unshare", CLONE_NEWNS)
    handles = {folder: os.open(folder, os.O_PATH) for folder in map(os.path.realpath, folders)}
    covered = {folder: closed for folder in handles if (closed := closed_to_others(folder))}
    for closed in set(covered.values()):
        mount("lab", closed, "tmpfs", data="mode=755")
    for folder in covered:
        os.makedirs(folder, exist_ok=True)
        mount(f"/proc/self/fd/{handles[folder]}", folder, flags=MS_BIND | MS_REC)
    for handle in handles.values():
        os.close(handle)


def run(starter: int, pid: int, uid: int, folders: list[str], words: list[str]) -> None:
    """Become a command within a namespace, as one user; it ends with whoever started it."""
    enter(pid)
    if uid:
        open_up(folders)
        os.setgroups([])
        os.setresgid(uid, uid, uid)
        os.setresuid(uid, uid, uid)
    call("prctl", PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != starter:
        raise ProcessLookupError("whoever started this has ended")
    os.execvp(words[0], words)  # noqa: S606 - there is no shell to be had


if __name__ == "__main__":
    if sys.argv[1] == "keep":
        keep(sys.argv[2:])
    else:
        border = sys.argv.index("--")
        run(*map(int, sys.argv[2:5]), sys.argv[5:border], sys.argv[border + 1 :])
