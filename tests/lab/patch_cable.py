"""A patch cable in user space between two TAP devices (or two TUN devices), each in a namespace of its own.

    patch_cable.py PID NAME PID NAME [--tunnel] [--offload]

PID is a process in the namespace, NAME the device to make there. Says "ready", then takes one command a line:
`delay 5 2` [ms, and how far it wavers], `loss 0.01` [share of packets], `carrier 0`. It ends with its standard input.
--offload passes long segments whole, so that it runs near 10 Gb/s; without it every frame fits the wire.
Requests are those of linux/if_tun.h.
"""

from __future__ import annotations

import fcntl
import heapq
import os
import random
import select
import struct
import sys
import time

import enter

TUNSETIFF, TUNSETOFFLOAD, TUNSETCARRIER = 0x400454CA, 0x400454D0, 0x400454E2
IFF_TUN, IFF_TAP, IFF_NO_PI, IFF_VNET_HDR = 0x1, 0x2, 0x1000, 0x4000
CHECKSUM_AND_SEGMENTS = 0x01 | 0x02 | 0x04 | 0x08
LONGEST = 70_000
BURST = 64


class Cable:
    """Two ends, and what happens to a frame between them."""

    def __init__(self, ends: tuple[int, int]) -> None:
        self.ends = ends
        self._other = dict(zip(ends, reversed(ends), strict=True))
        self._delay_s = 0.0
        self._wavers_s = 0.0
        self._loss = 0.0
        self._dead = False
        self._on_the_way: list[tuple[float, int, int, bytes]] = []
        self._count = 0
        self._random = random.Random(44)  # noqa: S311 - a loss that is the same each time

    def obey(self, line: str) -> None:
        """Take one command."""
        word, *values = line.split()
        numbers = [float(value) for value in values]
        if word == "delay":
            self._delay_s, self._wavers_s = numbers[0] / 1000, (numbers[1] if len(numbers) > 1 else 0.0) / 1000
        elif word == "loss":
            self._loss = numbers[0]
        elif word == "carrier":
            self._dead = numbers[0] == 0
            for end in self.ends:
                fcntl.ioctl(end, TUNSETCARRIER, struct.pack("i", int(numbers[0])))
        else:
            raise ValueError(line)

    def take(self, end: int) -> None:
        """Take what lies ready at one end, and send it on or keep it for later."""
        for _ in range(BURST):
            try:
                frame = os.read(end, LONGEST)
            except OSError:
                return
            if self._dead or (self._loss and self._random.random() < self._loss):
                continue
            if not self._delay_s:
                _send(self._other[end], frame)
                continue
            due_s = time.monotonic() + self._delay_s + self._random.uniform(-self._wavers_s, self._wavers_s)
            self._count += 1
            heapq.heappush(self._on_the_way, (due_s, self._count, self._other[end], frame))

    def deliver(self) -> float | None:
        """Send what is due, and tell how long it is until the next [ms]; None where nothing is on the way."""
        while self._on_the_way and self._on_the_way[0][0] <= time.monotonic():
            _, _, end, frame = heapq.heappop(self._on_the_way)
            _send(end, frame)
        return max(0.0, (self._on_the_way[0][0] - time.monotonic()) * 1000) if self._on_the_way else None


def _send(end: int, frame: bytes) -> None:
    """Send a frame; an end that is full, or whose device is down, loses it as a cable would."""
    try:
        os.write(end, frame)
    except OSError:
        return


def device(pid: int, name: str, tunnel: bool, offload: bool) -> int:
    """Make a device in the namespace of a process; this one stays there."""
    enter.enter(pid, "net")
    end = os.open("/dev/net/tun", os.O_RDWR | os.O_NONBLOCK | os.O_CLOEXEC)
    flags = (IFF_TUN if tunnel else IFF_TAP) | IFF_NO_PI | (IFF_VNET_HDR if offload else 0)
    fcntl.ioctl(end, TUNSETIFF, struct.pack("16sH22x", name.encode(), flags))
    if offload:
        fcntl.ioctl(end, TUNSETOFFLOAD, CHECKSUM_AND_SEGMENTS)
    return end


def carry(cable: Cable) -> None:
    """Carry frames until the standard input ends."""
    poll = select.poll()
    for handle in (*cable.ends, 0):
        poll.register(handle, select.POLLIN)
    while True:
        for handle, _ in poll.poll(cable.deliver()):
            if handle:
                cable.take(handle)
                continue
            words = os.read(0, 4096).decode()
            if not words:
                return
            for line in words.splitlines():
                cable.obey(line)
                print("done", flush=True)


if __name__ == "__main__":
    marks = {word for word in sys.argv[1:] if word.startswith("--")}
    near_pid, near, far_pid, far = (word for word in sys.argv[1:] if word not in marks)
    made = [
        device(int(pid), name, "--tunnel" in marks, "--offload" in marks)
        for pid, name in ((near_pid, near), (far_pid, far))
    ]
    print("ready", flush=True)
    carry(Cable((made[0], made[1])))
