"""Traffic beside the probe: small servers, and a client that copies.

traffic.py source|sink|babbler|mute PORT   serves whoever comes: gives, takes, talks nonsense, says nothing
traffic.py get|put HOST PORT RATE          copies at so many Mb/s, 0 as fast as it goes, until it is killed
"""

from __future__ import annotations

import os
import socket
import sys
import threading
import time
from contextlib import suppress

PIECE = bytes(256 * 1024)


def give(peer: socket.socket, rate_mbit_per_s: float = 0) -> None:
    """Send without end, at most at a rate."""
    began_s, sent = time.monotonic(), 0
    while True:
        peer.sendall(PIECE)
        sent += len(PIECE)
        if rate_mbit_per_s:
            time.sleep(max(0.0, began_s + sent * 8 / (rate_mbit_per_s * 1e6) - time.monotonic()))


def take(peer: socket.socket, rate_mbit_per_s: float = 0) -> None:
    """Receive without end, at most at a rate."""
    buffer = bytearray(1024 * 1024)
    began_s, taken = time.monotonic(), 0
    while count := peer.recv_into(buffer):
        taken += count
        if rate_mbit_per_s:
            time.sleep(max(0.0, began_s + taken * 8 / (rate_mbit_per_s * 1e6) - time.monotonic()))


def babble(peer: socket.socket) -> None:
    """Send nonsense whatever is said, and hang up."""
    peer.sendall(os.urandom(4000))
    peer.recv(4000)


def listen(peer: socket.socket) -> None:
    """Say nothing, ever."""
    while peer.recv(4000):
        pass


SERVE = {"source": give, "sink": take, "babbler": babble, "mute": listen}


def serve(port: int, kind: str) -> None:
    """Serve whoever comes."""
    with socket.create_server(("", port)) as server:
        print("ready", flush=True)
        while True:
            peer, _ = server.accept()
            threading.Thread(target=attend, args=(peer, kind), daemon=True).start()


def attend(peer: socket.socket, kind: str) -> None:
    """Serve one, until it goes."""
    with suppress(OSError), peer:
        SERVE[kind](peer)


def copy(kind: str, host: str, port: int, rate_mbit_per_s: float) -> None:
    """Copy from or to a server."""
    with socket.create_connection((host, port), timeout=10) as peer:
        peer.settimeout(None)
        print("ready", flush=True)
        (take if kind == "get" else give)(peer, rate_mbit_per_s)


if __name__ == "__main__":
    if sys.argv[1] in SERVE:
        serve(int(sys.argv[2]), sys.argv[1])
    else:
        copy(sys.argv[1], sys.argv[2], int(sys.argv[3]), float(sys.argv[4]))
