"""The mount of a folder: found without touching a share, told from a made-up proc, and for real over sshfs."""

import os
import shutil
import signal
import subprocess
import sys
from contextlib import nullcontext
from ipaddress import ip_address
from pathlib import Path

import pytest

from netaudit.errors import AnswerError, InputError
from netaudit.machine.linux.mounts import mount_of
from netaudit.model.machine_state import Mount

ROOT = "22 1 254:1 / / rw - ext4 /dev/root rw"
SFTP = next(
    (path for path in map(Path, ("/usr/lib/openssh/sftp-server", "/usr/libexec/openssh/sftp-server")) if path.exists()),
    None,
)


@pytest.fixture
def touched(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Every path that is looked at."""
    seen: list[str] = []
    real = os.lstat

    def lstat(path: str) -> os.stat_result:
        seen.append(path)
        return real(path)

    monkeypatch.setattr(os, "lstat", lstat)
    return seen


def proc_with(folder: Path, *lines: str) -> Path:
    (folder / "self").mkdir(parents=True)
    (folder / "self" / "mountinfo").write_text("\n".join((ROOT, *lines)) + "\n")
    return folder


def test_a_share_and_what_lies_on_it_are_never_touched(tmp_path: Path, touched: list[str]) -> None:
    share = tmp_path / "share"
    share.mkdir()
    proc = proc_with(tmp_path / "proc", f"36 22 0:52 / {share} rw - cifs //vault/media rw,addr=192.0.2.50")
    expected = Mount(
        folder=str(share),
        kind="cifs",
        source="//vault/media",
        host="vault",
        share="media",
        remote=ip_address("192.0.2.50"),
        port=445,
        options=("rw", "rw", "addr=192.0.2.50"),
    )

    assert expected == mount_of(f"{share}/day 1/./take.mov", proc)
    assert not [path for path in touched if path.startswith(str(share))]


def test_links_are_followed_as_the_kernel_does_while_they_lie_on_a_local_disk(tmp_path: Path) -> None:
    """os.path.realpath is the oracle for paths that no share holds."""
    for name in ("share", "home", "home/deep"):
        (tmp_path / name).mkdir()
    (tmp_path / "home" / "up").symlink_to("../share")
    (tmp_path / "home" / "far").symlink_to(tmp_path / "share" / "reel")
    (tmp_path / "home" / "deep" / "again").symlink_to("../up")
    proc = proc_with(tmp_path / "proc", f"36 22 0:52 / {tmp_path}/share rw - nfs4 vault:/data rw")
    paths = ("home/up", "home/up/x", "home/far", "home/deep/again/x", "home/up/../home/up", "home/deep/..", "home")
    expected = [os.path.realpath(tmp_path / path).startswith(str(tmp_path / "share")) for path in paths]

    assert expected == [mount_of(str(tmp_path / path), proc) is not None for path in paths]


def test_a_path_may_begin_at_home_or_where_one_stands(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    proc = proc_with(tmp_path / "proc", f"36 22 0:52 / {tmp_path}/share rw - nfs4 vault:/data rw")
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    found = [mount_of(path, proc) for path in ("~/share", "share", "./share/x")]

    assert ["vault"] * 3 == [mount.host for mount in found if mount is not None]
    assert mount_of("~", proc) is None


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("nowhere/x", "there is no"),
        ("file/x", "is no folder"),
        ("round", "lead in a circle"),
        ("demand/x", "mounted on demand"),
        ("a\0b", "is no path"),
        ("x" * 300, "there is no"),
    ],
)
def test_a_folder_that_cannot_be_meant_is_an_input_error_with_a_remedy(tmp_path: Path, path: str, words: str) -> None:
    (tmp_path / "file").touch()
    (tmp_path / "round").symlink_to("round")
    proc = proc_with(tmp_path / "proc", f"45 22 0:46 / {tmp_path}/demand rw - autofs systemd-1 rw")
    with pytest.raises(InputError, match=words) as caught:
        mount_of(f"{tmp_path}/{path}", proc)

    assert ": " in caught.value.problems[0].message


def test_no_path_at_all_is_an_input_error(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="is no path"):
        mount_of("", proc_with(tmp_path / "proc"))


def test_a_table_that_cannot_be_read_is_an_answer_that_is_missing(tmp_path: Path) -> None:
    with pytest.raises(AnswerError, match="mountinfo"):
        mount_of("/", tmp_path)


def with_process(proc: Path, number: int, files: dict[str, str], texts: dict[str, str]) -> None:
    """A process with some open files, and the texts of its fdinfo, cmdline and net/tcp."""
    folder = proc / str(number)
    for name in ("fd", "fdinfo", "net"):
        (folder / name).mkdir(parents=True)
    for name, target in files.items():
        (folder / "fd" / name).symlink_to(target)
        (folder / "fdinfo" / name).write_text(texts.get("fdinfo", ""))
    (folder / "cmdline").write_text(texts.get("cmdline", "").replace(" ", "\0"))
    (folder / "net" / "tcp").write_text(texts["tcp"])


TCP = (
    "0: 0B142C0A:A1C4 0A142C0A:{port:04X} 01 0:0 0:0 0 0 0 71 1\n"
    "1: 0B142C0A:A1C5 0A142C0A:{port:04X} 01 0:0 0:0 0 0 0 72 1\n"
    "2: 0B142C0A:A1C6 630200C0:01BB 01 0:0 0:0 0 0 0 73 1\n"
)


def test_the_helpers_of_a_daemon_carry_its_connections(tmp_path: Path) -> None:
    proc = proc_with(tmp_path / "proc", f"40 22 0:41 / {tmp_path}/smb rw - fuse.smbnetfs smbnetfs rw")
    own = {"fdinfo": "pos:\t0\nfuse_connection:\t41\n", "tcp": TCP.format(port=445)}
    with_process(proc, 90, {"5": "/dev/fuse"}, own)
    with_process(proc, 200, {"5": "/dev/fuse", "9": "socket:[72]"}, own)
    with_process(proc, 300, {"5": "/dev/fuse", "9": "socket:[73]"}, {**own, "fdinfo": "fuse_connection:\t4\n"})
    mount = mount_of(f"{tmp_path}/smb/vault/media", proc)

    assert mount is not None
    assert ("vault", "media", ip_address("10.44.20.10"), ip_address("10.44.20.11"), 445, 90) == (
        mount.host, mount.share, mount.remote, mount.local, mount.port, mount.process,
    )  # fmt: skip


def test_the_ssh_of_an_sshfs_mount_is_known_by_its_words(tmp_path: Path) -> None:
    proc = proc_with(tmp_path / "proc", f"39 22 0:40 / {tmp_path}/takes rw - fuse.sshfs edit@vault:/srv rw")
    tcp = TCP.format(port=2222)
    with_process(proc, 50, {"3": "socket:[73]"}, {"cmdline": "ssh edit@vault", "tcp": tcp})
    with_process(proc, 60, {"3": "socket:[71]"}, {"cmdline": "/usr/bin/ssh -x edit@vault -s sftp", "tcp": tcp})
    mount = mount_of(f"{tmp_path}/takes", proc)

    assert mount is not None
    assert (ip_address("10.44.20.10"), ip_address("10.44.20.11"), 2222, None) == (
        mount.remote, mount.local, mount.port, mount.process,
    )  # fmt: skip


def test_a_daemon_that_talks_to_several_hosts_leaves_open_which_one_it_is(tmp_path: Path) -> None:
    proc = proc_with(tmp_path / "proc", f"40 22 0:41 / {tmp_path}/any rw - fuse.rclone vault:media rw")
    own = {"fdinfo": "fuse_connection:\t41\n", "tcp": TCP.format(port=445)}
    with_process(proc, 90, {"5": "/dev/fuse", "7": "socket:[71]", "8": "socket:[73]"}, own)
    mount = mount_of(f"{tmp_path}/any", proc)

    assert mount is not None
    assert (None, None, None, None, 90) == (mount.host, mount.remote, mount.local, mount.port, mount.process)


STAGE = """
import os, socket, subprocess, sys, threading
from pathlib import Path
folder, sftp = sys.argv[1:]
subprocess.run(["mount", "--make-rprivate", "/"], check=True)
subprocess.run(["ip", "link", "set", "lo", "up"], check=True)
listening = socket.create_server(("127.0.0.1", 0))
port = listening.getsockname()[1]
def serve():
    with listening.accept()[0] as living:
        subprocess.run([sftp], stdin=living, stdout=living)
threading.Thread(target=serve, daemon=True).start()
daemon = subprocess.Popen(["sshfs", "-f", "-o", f"directport={port}", f"127.0.0.1:{folder}/far", f"{folder}/near"])
while "fuse.sshfs" not in Path("/proc/self/mountinfo").read_text():
    assert daemon.poll() is None
print(daemon.pid, port, flush=True)
sys.stdin.read()
subprocess.run(["umount", "-l", f"{folder}/near"])
daemon.kill()
daemon.wait()
"""
ASK = """
import json, sys
from netaudit.machine.files import Transfer, pick
from netaudit.machine.linux.mounts import mount_of
from netaudit.errors import AnswerError
folder, wait_s = sys.argv[1], float(sys.argv[2])
mount = mount_of(f"{folder}/link/reel")
try:
    picked = pick(f"{folder}/near", 1 << 20, wait_s)
except AnswerError:
    picked = "silent"
said = [str(mount.remote), mount.port, mount.process, picked]
for path, direction in ((f"{folder}/near/reel", "read"), (f"{folder}/near", "write")):
    with Transfer(path, direction, 2 << 20, 1 << 20) as transfer:
        steps = transfer.steps(wait_s)
    said += [sum(step.bytes for step in steps), transfer.done, transfer.left is not None]
print(json.dumps(said))
"""


def asked(process: int, folder: Path, wait_s: float) -> str:
    argv = ["nsenter", "-m", "-n", "-t", str(process), sys.executable, "-c", ASK, str(folder), str(wait_s)]
    return subprocess.run(argv, capture_output=True, text=True, timeout=30, check=True).stdout.strip()


@pytest.mark.skipif(os.geteuid() != 0, reason="root mounts a share in a namespace of its own")
@pytest.mark.skipif(
    shutil.which("sshfs") is None or SFTP is None, reason="needs the server program sshfs (package sshfs)"
)
@pytest.mark.skipif(not os.access("/dev/fuse", os.W_OK), reason="there is no /dev/fuse")
def test_a_real_share_is_known_and_read_and_when_it_is_dead_nothing_waits_for_it(tmp_path: Path) -> None:
    for name in ("far", "near"):
        (tmp_path / name).mkdir()
    (tmp_path / "far" / "reel").write_bytes(os.urandom(2 << 20))
    (tmp_path / "link").symlink_to("near")
    argv = ["unshare", "-m", "-n", sys.executable, "-c", STAGE, str(tmp_path), str(SFTP)]
    with subprocess.Popen(argv, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as stage:
        try:
            assert stage.stdout is not None
            daemon, port = stage.stdout.readline().split()
            road = f'"127.0.0.1", {port}, {daemon}'
            living = asked(stage.pid, tmp_path, 10)
            os.kill(int(daemon), signal.SIGSTOP)
            dead = asked(stage.pid, tmp_path, 0.3)
            os.kill(int(daemon), signal.SIGCONT)
        finally:
            stage.communicate(timeout=20)

    assert f'[{road}, "{tmp_path}/near/reel", 2097152, true, false, 2097152, true, false]' == living
    assert f'[{road}, "silent", 0, false, false, 0, false, true]' == dead
    assert ["reel"] == os.listdir(tmp_path / "far")


@pytest.mark.parametrize(("links", "found"), [(40, True), (41, False)])
def test_as_many_links_are_followed_as_the_kernel_follows(tmp_path: Path, links: int, found: bool) -> None:
    """path_resolution(7): 40 since Linux 4.2; the kernel itself is asked beside."""
    (tmp_path / "0").mkdir()
    for number in range(1, links + 1):
        (tmp_path / str(number)).symlink_to(str(number - 1))
    last = tmp_path / str(links)
    refused = nullcontext() if found else pytest.raises(InputError, match="lead in a circle")
    with refused:
        assert mount_of(str(last), proc_with(tmp_path / "proc")) is None

    assert found is last.is_dir()
