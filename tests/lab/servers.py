"""The servers of the lab's storage: Samba as it is, and small ones for what Samba never does."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

import traffic
from namespaces import Namespace

USER, PASSWORD = "root", "boathouse"
SHARE = "media"
CLIP, CLIP_BYTES = "interview.mov", 400_000_000
SMALL = {"notes.txt": 900, "stills/still-1.tif": 3_000_000, "stills/still-2.tif": 3_000_000}
READY_WITHIN_S = 15

SMB_CONF = """\
[global]
server role = standalone server
netbios name = STORE
workgroup = BOATHOUSE
disable netbios = yes
smb ports = 445
passdb backend = tdbsam:{folder}/private/passdb.tdb
private dir = {folder}/private
lock directory = {folder}/lock
state directory = {folder}/state
cache directory = {folder}/cache
pid directory = {folder}/pid
ncalrpc dir = {folder}/ncalrpc
log file = {folder}/log
log level = 0
load printers = no
disable spoolss = yes
printing = bsd
server multi channel support = yes
{extra}

[{share}]
path = {media}
read only = no
"""


def fill(media: Path) -> None:
    """Put a few files in the folder that is shared."""
    piece = os.urandom(4_000_000)
    with (media / CLIP).open("wb") as clip:
        for _ in range(CLIP_BYTES // len(piece)):
            clip.write(piece)
    for name, size in SMALL.items():
        file = media / name
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(piece[:size])


class Offered(NamedTuple):
    """A port that Samba is told to offer to its clients."""

    address: str
    rate_bit_per_s: int

    def __str__(self) -> str:
        return f'"{self.address};capability=RSS,speed={self.rate_bit_per_s}"'


class Samba:
    """A file server within a namespace, with folders of its own."""

    def __init__(self, host: Namespace, folder: Path, media: Path, lines: Sequence[str] = ()) -> None:
        self.host = host
        self._folder = folder / "samba"
        for name in ("private", "lock", "state", "cache", "pid", "ncalrpc"):
            (self._folder / name).mkdir(parents=True, mode=0o700)
        self._conf = self._folder / "smb.conf"
        text = SMB_CONF.format(folder=self._folder, extra="\n".join(lines), share=SHARE, media=media)
        self._conf.write_text(text, encoding="ascii")
        self._add_user()
        self._log = (self._folder / "said").open("wb")
        self._server = host.start(
            ["smbd", "--foreground", "--no-process-group", "-s", str(self._conf)],
            stdin=subprocess.DEVNULL,
            stdout=self._log.fileno(),
            stderr=self._log.fileno(),
        )
        wait_for(host, 445)

    def _add_user(self) -> None:
        words = self.host.words(["smbpasswd", "-c", str(self._conf), "-s", "-a", USER])
        subprocess.run(words, input=f"{PASSWORD}\n{PASSWORD}\n", text=True, capture_output=True, timeout=20, check=True)

    def workers(self) -> tuple[int, ...]:
        """The processes that serve clients, and those that help them."""
        name = f"/proc/{self._server.pid}/task/{self._server.pid}/children"
        return tuple(map(int, Path(name).read_text(encoding="ascii").split()))

    def stall(self) -> None:
        """Let the workers stand still while the network goes on, as disks that seek do."""
        for pid in self.workers():
            with suppress(ProcessLookupError):
                os.kill(pid, signal.SIGSTOP)

    def go_on(self) -> None:
        """Let them work again."""
        for pid in self.workers():
            with suppress(ProcessLookupError):
                os.kill(pid, signal.SIGCONT)

    def freeze(self) -> None:
        """Let the whole server stand still: its kernel still shakes hands."""
        self.stall()
        os.kill(self._server.pid, signal.SIGSTOP)

    def close(self) -> None:
        """Stop it, whatever state it is in."""
        os.killpg(self._server.pid, signal.SIGKILL)
        self._server.wait()
        self._log.close()


def wait_for(host: Namespace, port: int) -> None:
    """Wait until a service of a host answers; raises TimeoutError."""

    def knock() -> None:
        ends_s = time.monotonic() + READY_WITHIN_S
        while time.monotonic() < ends_s:
            with suppress(OSError), socket.create_connection(("127.0.0.1", port), timeout=1):
                return
            time.sleep(0.02)
        raise TimeoutError(f"nothing answers on port {port} of {host.name}")

    host.inside(knock)


def mount(client: Namespace, folder: Path, server: str) -> Path:
    """Mount the share in a client's own view of the file system, by a file system in user space; its folder."""
    home, point = folder / "home", folder / "mount"
    (home / ".smb").mkdir(parents=True, mode=0o700)
    point.mkdir()
    (home / ".smb/smb.conf").write_text(
        "[global]\nclient min protocol = SMB2\nname resolve order = host\ndisable netbios = yes\n", "ascii"
    )
    auth = home / ".smb/smbnetfs.auth"
    auth.write_text(f'auth "{server}" "{USER}" "{PASSWORD}"\n', "ascii")
    conf = home / ".smb/smbnetfs.conf"
    conf.write_text('include "smbnetfs.auth"\n', "ascii")
    for file in (auth, conf):
        file.chmod(0o600)
    options = f"config={conf},fsname=//{server}/{SHARE},subtype=cifs"
    said = client.run(["smbnetfs", str(point), "-o", options], env={"HOME": str(home)})
    if said.returncode:
        raise OSError(f"smbnetfs: {said.stdout}{said.stderr}")
    return point / server / SHARE


class Helper:
    """A small program that serves, or copies, within a namespace."""

    def __init__(self, host: Namespace, *words: str) -> None:
        self.process = host.start([sys.executable, *words], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        assert self.process.stdout is not None
        said = self.process.stdout.readline()
        if said != "ready\n":
            self.close()
            raise OSError(f"{words}: {said!r}")

    def close(self) -> None:
        """End it."""
        self.process.kill()
        with self.process:
            pass


def serve(host: Namespace, kind: str, port: int) -> Helper:
    """A small server: `source`, `sink`, `babbler`, `mute`."""
    return Helper(host, traffic.__file__, kind, str(port))


def copy(host: Namespace, kind: str, server: str, port: int, rate_mbit_per_s: float = 0) -> Helper:
    """A copy that runs beside: `get` from a source, `put` to a sink."""
    return Helper(host, traffic.__file__, kind, server, str(port), str(rate_mbit_per_s))


def announce(host: Namespace, name: str, *addresses: str) -> Helper:
    """A responder that gives those addresses for NAME.local."""
    return Helper(host, script("responder.py"), name, *addresses)


def announce_port(switch: Namespace, device: str, name: str, port: str) -> Helper:
    """A switch that announces one of its ports to whoever is plugged in there."""
    return Helper(switch, script("announcer.py"), device, name, port)


def script(name: str) -> str:
    """A program beside this one."""
    return str(Path(__file__).with_name(name))
