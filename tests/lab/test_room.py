"""The lab itself: what it builds is there, and nothing of it outlives its end, whatever way it ends."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

import pytest
from namespaces import Namespace
from room import STORE_FAST, Room
from stage import Stage, two_networks

LAB = Path(__file__).parent
HOLDER = """
import sys, time
sys.path.insert(0, sys.argv[1])
from pathlib import Path
from room import Room
room = Room(Path(sys.argv[2]))
sleeper = room.store.start(["sleep", "600"])
print(*[each.pid for each in room.namespaces], sleeper.pid, flush=True)
time.sleep(600)
"""


def gone(pid: int) -> bool:
    """Whether a process has ended."""
    try:
        return Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rsplit(")", 1)[1].split()[0] == "Z"
    except (FileNotFoundError, ProcessLookupError):
        return True


def wait_until_gone(pids: list[int]) -> bool:
    """Whether processes end within a few seconds."""
    ends_s = time.monotonic() + 5
    while time.monotonic() < ends_s:
        if all(gone(pid) for pid in pids):
            return True
        time.sleep(0.02)
    return False


def test_a_room_that_is_closed_leaves_no_process(stage: Stage) -> None:
    two_networks(stage)
    samba = stage.samba()
    stage.mounted()
    pids = [pid for each in stage.room.namespaces for pid in each.processes()]
    assert samba.workers()
    assert len(pids) >= 4
    stage.close()
    assert wait_until_gone(pids)


def test_a_room_ends_with_whoever_built_it_even_when_that_is_killed(media: Path, tmp_path: Path) -> None:
    words = [sys.executable, "-c", HOLDER, str(LAB), str(tmp_path)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as holder:
        assert holder.stdout is not None
        pids = [int(word) for word in holder.stdout.readline().split()]
        holder.send_signal(signal.SIGKILL)
    assert len(pids) == 4
    assert wait_until_gone(pids)


def test_a_room_that_cannot_be_finished_is_taken_down(
    media: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[int] = []

    def fail(self: Namespace, name: str, value: object) -> None:
        made.append(self.pid)
        raise OSError("no such knob")

    monkeypatch.setattr(Namespace, "sysctl", fail)
    with pytest.raises(OSError, match="no such knob"):
        Room(tmp_path)
    assert made
    assert wait_until_gone(made)


def test_a_namespace_sees_its_own_interfaces_and_names_only(stage: Stage) -> None:
    two_networks(stage)
    stage.edit.names({"store": [STORE_FAST]})
    listed = stage.edit.run(["ls", "/sys/class/net"]).stdout.split()
    assert ["en5", "lo", "wlan0"] == sorted(listed)
    asked = "import socket; print(socket.gethostbyname('store'))"
    assert STORE_FAST == stage.edit.run([sys.executable, "-c", asked]).stdout.strip()
    assert "store" not in Path("/etc/hosts").read_text(encoding="ascii").split()


def test_a_user_without_privileges_can_run_this_very_interpreter(stage: Stage) -> None:
    asked = "import os, sys, netaudit; print(os.getuid(), sys.prefix, open('/proc/self/status').read())"
    words = stage.edit.run([sys.executable, "-c", asked], uid=1000).stdout.split()
    assert ["1000", sys.prefix] == words[:2]
    assert "0000000000000000" == words[words.index("CapEff:") + 1]


def test_the_rates_of_the_room_are_what_they_are_meant_to_be(stage: Stage) -> None:
    """A Wi-Fi of 300 Mb/s carries less than that, and not much less; the wire far more."""
    import servers

    two_networks(stage)
    stage.until_closed(servers.serve(stage.store, "source", 5001))
    rates = {}
    for name, address in (("wlan0", "192.168.44.10"), ("en5", STORE_FAST)):
        copy = stage.until_closed(servers.copy(stage.edit, "get", address, 5001))
        stage.wait(0.2)
        rates[name] = stage.moved(stage.edit, lambda: stage.wait(0.5))[name][1] * 8 / 0.5 / 1e6
        copy.close()
    assert 200 < rates["wlan0"] < 330
    assert rates["en5"] > 2000


def knocked(stage: Stage) -> float:
    """How long the storage takes to refuse a connection [s]; raises TimeoutError after 800 ms."""

    def knock() -> float:
        began_s = time.monotonic()
        with pytest.raises(ConnectionRefusedError), socket.create_connection((STORE_FAST, 9), timeout=0.8):
            pass
        return time.monotonic() - began_s

    return stage.edit.inside(knock)


@pytest.mark.parametrize("name", ["loss", "delay", "carrier"])
def test_a_patch_cable_does_what_it_is_told(stage: Stage, name: str) -> None:
    from scenario import patched

    patched(stage, 1000)
    knocked(stage)
    stage.room.tell_cable("en5", {"loss": "loss 1", "delay": "delay 150", "carrier": "carrier 0"}[name])
    if name == "delay":
        assert knocked(stage) >= 0.3
    else:
        with pytest.raises(TimeoutError):
            knocked(stage)
    assert "1000" == stage.edit.run(["cat", "/sys/class/net/en5/speed"]).stdout.strip()
