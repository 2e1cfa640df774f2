"""Network namespaces without names: each is held by a process of its own and ends with it, whatever else goes wrong.

The order of a launch follows setns(2) and mount_namespaces(7): /sys shows the interfaces of the namespace in which it
was mounted, so it is mounted anew, in a view of the file system that nobody else shares.
"""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from typing import TypeVar

import enter
from pyroute2 import IPRoute

Answer = TypeVar("Answer")
LAUNCHER = str(Path(enter.__file__))
CHECKOUT = Path(__file__).parents[2]
ETC = {
    "hosts": "127.0.0.1 localhost\n",
    "resolv.conf": "",
    "nsswitch.conf": "passwd: files\ngroup: files\nhosts: files\n",
}
"""What stands in the namespace's own /etc: nothing outside of it can be asked for a name."""


class Namespace:
    """A network namespace; `close` ends every process in it and with them the namespace."""

    def __init__(self, name: str, folder: Path) -> None:
        self.name = name
        self._folder = folder
        self._etc = folder / f"etc-{name}"
        self._etc.mkdir()
        for file, text in ETC.items():
            (self._etc / file).write_text(text, encoding="utf-8")
        binds = [f"{self._etc / file}=/etc/{file}" for file in ETC if Path("/etc", file).exists()]
        self._keeper = subprocess.Popen(
            [sys.executable, "-I", "-S", LAUNCHER, "keep", *binds],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )

    def ready(self) -> Namespace:
        """Wait until it stands; raises OSError where this machine does not allow it."""
        assert self._keeper.stdout is not None
        if self._keeper.stdout.readline() != "ready\n":
            _, words = self._keeper.communicate(timeout=10)
            raise OSError(f"no namespace {self.name}: {words}")
        self.sysctl("ipv4/ping_group_range", "0 2147483647")
        self.netlink(lambda ip: ip.link("set", index=1, state="up"))
        return self

    @property
    def pid(self) -> int:
        """The process that holds it."""
        return self._keeper.pid

    def close(self) -> None:
        """End everything in it."""
        for pipe in (self._keeper.stdin, self._keeper.stdout, self._keeper.stderr):
            if pipe is not None:
                pipe.close()
        try:
            self._keeper.wait(timeout=10)
        finally:
            self._keeper.kill()

    def inside(self, function: Callable[[], Answer]) -> Answer:
        """The answer of a function that is called within; sockets that it opens stay there."""
        with ThreadPoolExecutor(1, initializer=enter.enter, initargs=(self.pid, "net")) as pool:
            return pool.submit(function).result(timeout=60)

    def netlink(self, conversation: Callable[[IPRoute], Answer]) -> Answer:
        """The answer of a conversation with its kernel."""

        def talk() -> Answer:
            with IPRoute() as ip:
                return conversation(ip)

        return self.inside(talk)

    def sysctl(self, name: str, value: object) -> None:
        """Set one of its kernel's knobs, such as `ipv4/conf/all/arp_ignore`."""
        self.inside(lambda: Path("/proc/sys/net", name).write_text(str(value), encoding="ascii"))

    def names(self, hosts: Mapping[str, Sequence[str]]) -> None:
        """Let its hosts file know a few names, each with its addresses in that order."""
        lines = [f"{address} {name}\n" for name, addresses in hosts.items() for address in addresses]
        (self._etc / "hosts").write_text(ETC["hosts"] + "".join(lines), encoding="ascii")

    def words(self, argv: Sequence[str], uid: int = 0) -> list[str]:
        """The command that runs another within it."""
        needed = [str(path) for path in (CHECKOUT, Path(sys.prefix), Path(sys.base_prefix), self._folder)]
        numbers = [str(number) for number in (os.getpid(), self.pid, uid)]
        return [sys.executable, "-I", "-S", LAUNCHER, "run", *numbers, *needed, "--", *argv]

    def run(
        self, argv: Sequence[str], uid: int = 0, timeout_s: float = 30, env: Mapping[str, str] | None = None
    ) -> subprocess.CompletedProcess[str]:
        """What a command said within it, and how it ended; raises TimeoutExpired."""
        return subprocess.run(
            self.words(argv, uid),
            capture_output=True,
            text=True,
            timeout=timeout_s,
            env={**os.environ, **(env or {})},
            check=False,
        )

    def start(self, argv: Sequence[str], uid: int = 0, **streams: int) -> subprocess.Popen[str]:
        """A command that goes on within it, in a session of its own; it ends with the namespace at the latest."""
        return subprocess.Popen(self.words(argv, uid), text=True, start_new_session=True, **streams)

    @contextmanager
    def watched(self, argv: Sequence[str], seconds: float) -> Iterator[subprocess.Popen[str]]:
        """A command with its output in pipes, which is ended after some time, whatever it does."""
        with self.start(argv, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
            end = threading.Timer(seconds, process.kill)
            end.start()
            try:
                yield process
            finally:
                end.cancel()
                process.kill()

    def processes(self) -> frozenset[int]:
        """Who is within, the keeper left out."""
        return frozenset(enter.others(self.pid))

    def file(self, path: str) -> str:
        """The text of one of its files under /proc/net."""
        return self.inside(lambda: Path("/proc/thread-self/net", path).read_text(encoding="ascii"))
