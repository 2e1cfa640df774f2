"""The reader's child: what it does to a file, and what it says of it."""

import errno
import json
import os
from collections.abc import Callable, Mapping
from itertools import count
from pathlib import Path
from types import SimpleNamespace

import pytest

from netaudit.machine import reader
from netaudit.machine.reader import main

Said = list[Mapping[str, object]]
Ask = Callable[..., Said]


@pytest.fixture
def ask(capsys: pytest.CaptureFixture[str]) -> Ask:
    """Runs it here, and gives what it said."""

    def asked(*words: object) -> Said:
        main([str(word) for word in words])
        return [json.loads(line) for line in capsys.readouterr().out.splitlines()]

    return asked


def sizes(said: Said) -> list[object]:
    return [each["step"][0] for each in said]  # type: ignore[index]


@pytest.mark.parametrize(
    ("most", "steps"), [(25, [10, 10, 5]), (20, [10, 10]), (99, [10, 10, 10, 2, 0]), (3, [3]), (0, [])]
)
def test_a_file_is_read_in_steps_up_to_a_bound(tmp_path: Path, ask: Ask, most: int, steps: list[int]) -> None:
    (tmp_path / "reel").write_bytes(b"x" * 32)

    assert steps == sizes(ask("read", tmp_path / "reel", most, 10))


def test_before_a_read_the_system_is_asked_to_forget_the_file(
    tmp_path: Path, ask: Ask, monkeypatch: pytest.MonkeyPatch
) -> None:
    """posix_fadvise(2): POSIX_FADV_DONTNEED drops the cached pages."""
    if not hasattr(os, "posix_fadvise"):
        pytest.skip("this system has no posix_fadvise")
    advice: list[tuple[int, ...]] = []
    monkeypatch.setattr(reader.os, "posix_fadvise", lambda *words: advice.append(words[1:]))
    (tmp_path / "reel").write_bytes(b"x")
    ask("read", tmp_path / "reel", 1, 1)

    assert [(0, 0, os.POSIX_FADV_DONTNEED)] == advice


@pytest.mark.skipif(os.name != "posix", reason="fcntl is of POSIX")
def test_a_mac_is_asked_to_keep_the_file_out_of_its_memory(
    tmp_path: Path, ask: Ask, monkeypatch: pytest.MonkeyPatch
) -> None:
    """sys/fcntl.h of macOS: F_NOCACHE is 48, and 1 turns it on (fcntl(2))."""
    import fcntl

    asked: list[tuple[int, ...]] = []
    monkeypatch.delattr(reader.os, "posix_fadvise", raising=False)
    monkeypatch.setattr(fcntl, "fcntl", lambda opened, *words: asked.append(words))
    (tmp_path / "reel").write_bytes(b"x")
    for system, expected in (("win32", []), ("darwin", [(48, 1)])):
        monkeypatch.setattr(reader.sys, "platform", system)
        assert [1] == sizes(ask("read", tmp_path / "reel", 1, 1))
        assert expected == asked


@pytest.mark.parametrize(("used_s", "share"), [(1.5, 0.5), (30.0, 1.0)])
def test_a_step_is_told_with_its_time_and_the_processors_share(
    tmp_path: Path, ask: Ask, monkeypatch: pytest.MonkeyPatch, used_s: float, share: float
) -> None:
    """A clock that goes on by a second each time that it is asked; no process uses more than all of the time."""
    used = iter([10.0, 10.0 + used_s])
    monkeypatch.setattr(reader, "now_s", count(1000.0).__next__)
    monkeypatch.setattr(reader.os, "times", lambda: SimpleNamespace(user=next(used), system=0.0))
    (tmp_path / "reel").write_bytes(b"x")

    assert [{"step": [1, 1.0], "cpu_share": share}] == ask("read", tmp_path / "reel", 1, 1)


def test_a_written_file_is_new_whole_on_the_storage_and_gone_again(
    tmp_path: Path, ask: Ask, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[tuple[int, int]] = []
    real = os.fsync

    def fsync(number: int) -> None:
        real(number)
        status = os.fstat(number)
        seen.append((status.st_size, status.st_mode & 0o777))

    monkeypatch.setattr(reader.os, "fsync", fsync)
    said = ask("write", tmp_path, 25, 10, ".netaudit-test")

    assert [10, 10, 5, 0] == sizes(said)
    assert [(25, 0o600)] == seen
    assert [] == os.listdir(tmp_path)


def test_beside_a_file_it_writes_into_the_same_folder(tmp_path: Path, ask: Ask) -> None:
    (tmp_path / "reel").write_bytes(b"mine")

    assert [8, 0] == sizes(ask("write", tmp_path / "reel", 8, 8, ".netaudit-test"))
    assert [("reel", b"mine")] == [(each.name, each.read_bytes()) for each in tmp_path.iterdir()]


def test_nothing_is_ever_written_over(tmp_path: Path, ask: Ask) -> None:
    (tmp_path / ".netaudit-test").write_bytes(b"mine")

    assert [{"failed": "File exists"}] == ask("write", tmp_path, 8, 8, ".netaudit-test")
    assert b"mine" == (tmp_path / ".netaudit-test").read_bytes()


def test_a_full_storage_is_told_and_left_clean(tmp_path: Path, ask: Ask, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(number: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(reader.os, "fsync", full)

    assert {"failed": "No space left on device"} == ask("write", tmp_path, 8, 8, ".netaudit-test")[-1]
    assert [] == os.listdir(tmp_path)


def test_removing_what_is_not_there_is_done(tmp_path: Path, ask: Ask) -> None:
    (tmp_path / ".netaudit-test").touch()

    assert [[], []] == [ask("remove", tmp_path, ".netaudit-test"), ask("remove", tmp_path, ".netaudit-test")]
    assert [] == os.listdir(tmp_path)


@pytest.mark.parametrize(
    ("name", "words"),
    [("missing", "No such file or directory"), ("folder", "Is a directory"), ("pipe", "it is no plain file")],
)
def test_what_is_no_plain_file_is_not_read(tmp_path: Path, ask: Ask, name: str, words: str) -> None:
    """A named pipe without a writer would be waited for: open(2), O_NONBLOCK."""
    (tmp_path / "folder").mkdir()
    os.mkfifo(tmp_path / "pipe")

    assert [{"failed": words}] == ask("read", tmp_path / name, 8, 8)


def test_ever_larger_files_are_named_among_those_that_are_large_enough(tmp_path: Path, ask: Ask) -> None:
    for name, size in {"a": 5, "b/c": 20, "b/d/e": 40, "b/d/f/g": 80, ".hidden/h": 90, "small": 2}.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(b"x" * size)
    (tmp_path / "link").symlink_to(tmp_path / "b" / "d" / "f" / "g")
    expected = [{"candidate": str(tmp_path / name)} for name in ("a", "b/c", "b/d/e")]

    assert expected == ask("pick", tmp_path, 5)
    assert expected[1:] == ask("pick", tmp_path, 6)
    assert [] == ask("pick", tmp_path, 41)


def test_a_deeper_folder_that_may_not_be_looked_into_is_passed_over_and_the_first_is_told(
    tmp_path: Path, ask: Ask, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.scandir
    (tmp_path / "locked").mkdir()
    (tmp_path / "reel").write_bytes(b"x" * 8)

    def scandir(path: str) -> object:
        if path == str(forbidden):
            raise PermissionError(errno.EACCES, "Permission denied")
        return real(path)

    monkeypatch.setattr(reader.os, "scandir", scandir)
    forbidden = tmp_path / "locked"
    assert [{"candidate": str(tmp_path / "reel")}] == ask("pick", tmp_path, 8)
    forbidden = tmp_path
    assert [{"failed": "Permission denied"}] == ask("pick", tmp_path, 8)


def test_a_link_to_a_file_is_no_candidate(tmp_path: Path, ask: Ask) -> None:
    """Where it leads to may hang."""
    (tmp_path / "outside").write_bytes(b"x" * 80)
    (tmp_path / "folder").mkdir()
    (tmp_path / "folder" / "link").symlink_to(tmp_path / "outside")
    (tmp_path / "folder" / "deeper").symlink_to(tmp_path)

    assert [] == ask("pick", tmp_path / "folder", 8)


def test_a_file_stands_for_itself(tmp_path: Path, ask: Ask) -> None:
    (tmp_path / "reel").write_bytes(b"x" * 8)

    assert [[{"candidate": str(tmp_path / "reel")}], []] == [ask("pick", tmp_path / "reel", size) for size in (8, 9)]


def test_only_so_many_entries_are_looked_at(tmp_path: Path, ask: Ask, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reader, "ENTRIES_AT_MOST", 3)
    for number in range(9):
        (tmp_path / str(number)).write_bytes(b"x" * number)
    looked_at: list[str] = []
    monkeypatch.setattr(reader.os, "access", lambda path, mode: not looked_at.append(path))
    ask("pick", tmp_path, 0)

    assert 1 <= len(looked_at) <= 3
