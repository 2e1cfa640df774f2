"""Network namespaces of a test's own, spoilt answers, and the kernel's own headers to check against."""

import ctypes
import os
import platform
import random
import re
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import TypeVar

import pytest

Answer = TypeVar("Answer")
CLONE_NEWNET = 0x40000000
"""unshare(2)."""
SETRESUID = {"x86_64": 117, "aarch64": 147}
"""Numbers of the call that changes the user of one thread: setresuid(2) itself, not the library's for all threads."""


class Room:
    """One thread that stands in a namespace of its own; /sys stays that of the machine, as after nsenter --net."""

    def __init__(self, thread: ThreadPoolExecutor) -> None:
        self._thread = thread
        self.thread_id = self.ask(threading.get_native_id)

    def ask(self, question: Callable[..., Answer], *words: object) -> Answer:
        """Ask a question from within."""
        return self._thread.submit(question, *words).result(timeout=20)

    def run(self, *argv: str) -> str:
        """Run a command within."""
        done = self.ask(lambda: subprocess.run(argv, check=True, capture_output=True, text=True, timeout=10))
        return done.stdout

    def ip(self, line: str) -> str:
        """Run iproute2 within, a line of words."""
        return self.run("ip", *line.split())

    def become(self, uid: int) -> None:
        """Let the room's thread go on as a user without any privilege."""
        number = SETRESUID.get(platform.machine())
        if number is None:
            pytest.skip(f"the number of setresuid is not known on {platform.machine()}")
        done = self.ask(lambda: ctypes.CDLL(None, use_errno=True).syscall(number, uid, uid, uid))
        assert done == 0


@pytest.fixture
def linux() -> None:
    if not sys.platform.startswith("linux"):
        pytest.skip("the kernel that is asked is Linux")


@pytest.fixture
def room(linux: None) -> Iterator[Room]:
    yield from _opened()


@pytest.fixture
def station(room: Room) -> Room:
    """A machine with a wire en5 (198.51.100.11) and a radio wlan0 (.12) in one subnet, and an office wire en6."""
    for number, name in enumerate(("en5", "wlan0", "en6"), 1):
        room.ip(
            f"link add {name} address 02:00:00:00:00:0{number} type veth peer far-{name} address 02:00:00:00:01:0{number}"
        )
        room.ip(f"link set {name} up")
        room.ip(f"link set far-{name} up")
    room.ip("addr add 198.51.100.11/24 dev en5")
    room.ip("addr add 198.51.100.12/24 dev wlan0")
    room.ip("addr add 203.0.113.11/24 dev en6")
    return room


@pytest.fixture
def storage(station: Room) -> Iterator[Room]:
    """The machine at the other ends: 198.51.100.50 on the wire and .51 on the radio."""
    for other in _opened():
        for name in ("en5", "wlan0", "en6"):
            station.ip(f"link set far-{name} netns {other.thread_id}")
            other.ip(f"link set far-{name} up")
        other.ip("addr add 198.51.100.50/24 dev far-en5")
        other.ip("addr add 198.51.100.51/24 dev far-wlan0")
        yield other


@pytest.fixture
def spoilt() -> Callable[[bytes], Iterator[bytes]]:
    """An answer cut short, doubled, with bits turned, or replaced by noise: the same ones on every run."""

    def spoil(good: bytes) -> Iterator[bytes]:
        dice = random.Random(445)  # noqa: S311 - the same spoilt answers on every run
        yield from (good[:size] for size in range(len(good)))
        yield good + good
        for _ in range(300):
            bad = bytearray(good)
            for _ in range(dice.randint(1, 4)):
                bad[dice.randrange(len(bad))] = dice.randrange(256)
            yield bytes(bad)
        yield from (dice.randbytes(dice.randrange(200)) for _ in range(300))

    return spoil


@pytest.fixture
def header() -> Callable[[str], Mapping[str, int]]:
    """The enumerations of one of the kernel's own header files, as it is installed."""

    def read(name: str) -> Mapping[str, int]:
        path = Path("/usr/include/linux") / name
        if not path.is_file():
            pytest.skip(f"{path} is not installed (package linux-libc-dev)")
        text = re.sub(r"/\*.*?\*/|//[^\n]*", " ", path.read_text(), flags=re.DOTALL)
        defines = re.findall(r"^#define\s+(\w+)\s+\(?(\d+|0x[0-9a-fA-F]+)\)?\s*$", text, flags=re.MULTILINE)
        found = {key: int(value, 0) for key, value in defines}
        text = re.sub(r"^\s*#.*$", " ", text, flags=re.MULTILINE)
        for body in re.findall(r"enum\s*\w*\s*\{(.*?)\}", text, flags=re.DOTALL):
            found.update(_enumerated(body))
        return found

    return read


def _enumerated(body: str) -> Mapping[str, int]:
    found: dict[str, int] = {}
    following = 0
    for item in body.split(","):
        name, _, value = (part.strip() for part in item.partition("="))
        if value:
            following = (
                found[value]
                if value in found
                else int(value, 0)
                if re.fullmatch(r"\d+|0x[0-9a-fA-F]+", value)
                else -(10**6)
            )
        if name:
            found[name] = following
        following += 1
    return found


def _opened() -> Iterator[Room]:
    if os.geteuid() != 0:
        pytest.skip("a network namespace of its own needs root")
    with ThreadPoolExecutor(1, initializer=_step_out) as thread:
        made = Room(thread)
        made.ip("link set lo up")
        yield made


def _step_out() -> None:
    libc = ctypes.CDLL(None, use_errno=True)
    if libc.unshare(CLONE_NEWNET) != 0:
        raise OSError(ctypes.get_errno(), "unshare")
