"""A stage: a room with its servers and its plan, and the probe that is sent into it."""

from __future__ import annotations

import json
import shutil
import socket
import sys
import threading
import time
from collections.abc import Callable, Mapping, Sequence
from contextlib import ExitStack
from pathlib import Path
from typing import Any, NamedTuple

import jsonschema
import servers
from namespaces import CHECKOUT, Namespace
from plans import RoomPlan
from room import EDIT_AIR, EDIT_WIRE, STORE_FAST, STORE_SLOW, Fitting, Room

PROBE = [sys.executable, "-m", "netaudit", "probe"]
SCHEMA = CHECKOUT / "netaudit/report/schemas/probe.json"
KNOCKS = 20


class Answer(NamedTuple):
    """What a probe said."""

    code: int
    data: Mapping[str, Any]
    errors: str

    @property
    def causes(self) -> list[str]:
        """Names of the causes, the likeliest first."""
        return [cause["cause"] for cause in self.data["causes"]]

    @property
    def found(self) -> list[str]:
        """Rules that found something."""
        return [finding["rule"] for finding in self.data["findings"]]

    @property
    def skipped(self) -> dict[str, str]:
        """Why something was not checked, by its rule."""
        return {gap["rule"]: f"{gap['reason']} {gap['decides']}" for gap in self.data["not_checked"]}


class Stage:
    """A room on which one thing after another is set up; closing it strikes all."""

    def __init__(self, folder: Path, media: Path) -> None:
        folder.chmod(0o755)
        self.folder = folder
        self.media = _linked(media, folder / "media")
        self.plan: RoomPlan | None = RoomPlan()
        self._stack = ExitStack()
        self.room = self._stack.enter_context(Room(folder))

    def close(self) -> None:
        """Strike all."""
        self._stack.close()
        shutil.rmtree(self.media, ignore_errors=True)

    @property
    def edit(self) -> Namespace:
        """The station."""
        return self.room.edit

    @property
    def store(self) -> Namespace:
        """The storage."""
        return self.room.store

    def until_closed(self, thing: Any) -> Any:
        """Anything that has to be closed before the room is."""
        self._stack.callback(thing.close)
        return thing

    def samba(self, *lines: str) -> servers.Samba:
        """The file server, with lines of its own in its [global] section."""
        server: servers.Samba = self.until_closed(servers.Samba(self.store, self.folder, self.media, lines))
        return server

    def mounted(self, server: str = STORE_FAST) -> Path:
        """The share as the station has it mounted."""
        return servers.mount(self.edit, self.folder, server)

    def held(self, remote: str, port: int = 445) -> socket.socket:
        """A connection of the station that stays open."""
        peer: socket.socket = self.until_closed(
            self.edit.inside(lambda: socket.create_connection((remote, port), timeout=5))
        )
        return peer

    def again_and_again(self, step: Callable[[], object], pause_s: float) -> None:
        """Let something happen again and again beside the probe."""
        stop = threading.Event()

        def go() -> None:
            while not stop.wait(pause_s):
                step()

        worker = threading.Thread(target=go)
        worker.start()
        self._stack.callback(worker.join)
        self._stack.callback(stop.set)

    def wait(self, seconds: float) -> None:
        """Let time pass."""
        time.sleep(seconds)

    def words(self, target: str, *options: str) -> list[str]:
        """The command line of a probe of this room."""
        planned: Sequence[str] = ()
        if self.plan is not None:
            file = self.folder / "room.yaml"
            file.write_text(self.plan.text, encoding="utf-8")
            planned = ("--plan", str(file), "--station", "edit")
        return [*PROBE, target, *planned, *options]

    def probe(self, target: str = STORE_FAST, *options: str, uid: int = 0, timeout_s: float = 40) -> Answer:
        """The answer of the probe, sent into the station."""
        said = self.edit.run(
            self.words(target, *options, "--format", "json"),
            uid,
            timeout_s,
            env={"NETAUDIT_PASSWORD": servers.PASSWORD, "PYTHONDONTWRITEBYTECODE": "1"},
        )
        assert "Traceback" not in said.stderr, said.stderr
        data = json.loads(said.stdout) if said.stdout else {}
        if data:
            schema = jsonschema.Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))
            assert [] == [f"{error.json_path}: {error.message[:200]}" for error in schema.iter_errors(data)]
        return Answer(said.returncode, data, said.stderr)

    def moved(self, host: Namespace, action: Callable[[], object]) -> dict[str, tuple[int, int]]:
        """Bytes that each port of a host sent and received while something was done: the truth."""
        before = self.room.counts(host)
        action()
        after = self.room.counts(host)
        return {name: (after[name][0] - before[name][0], after[name][1] - before[name][1]) for name in after}

    def carrying(self, remote: str = STORE_FAST, port: int = 445) -> tuple[str | None, str | None]:
        """The ports of the station by which new connections really leave, and by which their answers come in."""

        def knock() -> None:
            for _ in range(KNOCKS):
                with socket.socket() as peer:
                    peer.setblocking(False)
                    peer.connect_ex((remote, port))
                    time.sleep(0.002)
            time.sleep(0.05)

        moved = self.moved(self.edit, lambda: self.edit.inside(knock))
        return _most(moved, 0), _most(moved, 1)


def _linked(media: Path, folder: Path) -> Path:
    """A folder of its own with the same files."""
    for file in media.rglob("*"):
        if file.is_file():
            own = folder / file.relative_to(media)
            own.parent.mkdir(parents=True, exist_ok=True)
            own.hardlink_to(file)
    return folder


def _most(moved: Mapping[str, tuple[int, int]], way: int) -> str | None:
    """The port with most bytes one way; None where no port had as much as half of the knocks alone."""
    name = max(moved, key=lambda each: moved[each][way])
    return name if moved[name][way] >= KNOCKS * 54 / 2 else None


def two_networks(stage: Stage, wire_mtu: int = 9000, slow_cap: int | None = 1000) -> None:
    """The room as it was planned: the wire to the storage, the Wi-Fi for all else."""
    room = stage.room
    room.plug(stage.edit, Fitting("en5", (f"{EDIT_WIRE}/24",), wire_mtu))
    room.plug(stage.edit, Fitting("wlan0", (f"{EDIT_AIR}/24",), cap_mbit_per_s=300))
    room.plug(stage.store, Fitting("s10g", (f"{STORE_FAST}/24",), wire_mtu))
    room.plug(stage.store, Fitting("s1g", (f"{STORE_SLOW}/24",), cap_mbit_per_s=slow_cap))
