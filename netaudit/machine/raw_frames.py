"""The right to send and receive raw frames, asked for before anything is loaded that needs it."""

from __future__ import annotations

import os
import socket
import sys

from netaudit.errors import PrivilegeError


def demand_raw_frames() -> None:
    """Raise PrivilegeError, naming the privilege, where this user may not open a raw socket on a port."""
    if sys.platform.startswith("linux"):
        _demand_packet_socket()
    elif sys.platform == "win32":
        _demand_administrator()
    else:
        _demand_packet_filter()


def _demand_packet_socket() -> None:
    """Linux: packet(7) asks for CAP_NET_RAW."""
    try:
        socket.socket(socket.AF_PACKET, socket.SOCK_RAW, 0).close()
    except PermissionError as error:
        raise PrivilegeError("CAP_NET_RAW: run it with sudo") from error


def _demand_packet_filter() -> None:
    """macOS: bpf(4) devices belong to root."""
    if not any(os.access(f"/dev/bpf{number}", os.R_OK | os.W_OK) for number in range(4)):
        raise PrivilegeError("the right to open /dev/bpf: run it with sudo")


def _demand_administrator() -> None:
    """Windows: raw frames need a packet capture driver, and its use an administrator."""
    import ctypes  # noqa: PLC0415 - only there

    windows = getattr(ctypes, "windll", None)
    if windows is None or not windows.shell32.IsUserAnAdmin():
        raise PrivilegeError("administrator rights and a packet capture driver")
