"""The right to raw frames, and what each system calls it."""

from __future__ import annotations

import ctypes
import os
import socket
from contextlib import nullcontext
from types import SimpleNamespace

import pytest

from netaudit.errors import PrivilegeError
from netaudit.machine import raw_frames


def refused(*_: object) -> socket.socket:
    raise PermissionError(1, "Operation not permitted")


def test_linux_names_its_capability(monkeypatch: pytest.MonkeyPatch) -> None:
    """packet(7): a process needs CAP_NET_RAW to open a packet socket."""
    monkeypatch.setattr(raw_frames.sys, "platform", "linux")
    monkeypatch.setattr(raw_frames.socket, "socket", refused)
    with pytest.raises(PrivilegeError) as refusal:
        raw_frames.demand_raw_frames()

    assert "CAP_NET_RAW: run it with sudo" == refusal.value.needs


@pytest.mark.parametrize(
    ("system", "needs"),
    [
        ("darwin", "the right to open /dev/bpf: run it with sudo"),
        ("win32", "administrator rights and a packet capture driver"),
    ],
)
def test_every_other_system_names_its_own(system: str, needs: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(raw_frames.sys, "platform", system)
    monkeypatch.setattr(raw_frames.os, "access", lambda *_: False)
    with pytest.raises(PrivilegeError) as refusal:
        raw_frames.demand_raw_frames()

    assert needs == refusal.value.needs


def test_an_administrator_of_windows_may_and_nobody_else(monkeypatch: pytest.MonkeyPatch) -> None:
    """shlobj_core.h: IsUserAnAdmin gives a number that is not 0 to an elevated administrator."""
    monkeypatch.setattr(raw_frames.sys, "platform", "win32")
    for answer in (1, 0):
        shell = SimpleNamespace(IsUserAnAdmin=lambda answer=answer: answer)
        monkeypatch.setattr(ctypes, "windll", SimpleNamespace(shell32=shell), raising=False)
        with nullcontext() if answer else pytest.raises(PrivilegeError, match="administrator rights"):
            raw_frames.demand_raw_frames()


def test_a_packet_filter_that_may_be_opened_is_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(raw_frames.sys, "platform", "darwin")
    monkeypatch.setattr(raw_frames.os, "access", lambda path, _: path == "/dev/bpf2")

    raw_frames.demand_raw_frames()


@pytest.mark.skipif(os.geteuid() == 0, reason="this user has the right already")
def test_a_user_without_the_right_is_told_before_anything_is_loaded() -> None:
    with pytest.raises(PrivilegeError):
        raw_frames.demand_raw_frames()
