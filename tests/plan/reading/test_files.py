"""Files that cannot be read, and bytes that are no text."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from netaudit.errors import InputError
from netaudit.plan.load import load
from netaudit.plan.reading.files import LARGEST_BYTES, decoded, read_bytes

Lines = Callable[[str | bytes], list[str]]


def refusal(file: object) -> str:
    with pytest.raises(InputError) as caught:
        load(str(file))
    return str(caught.value)


def test_a_missing_file_is_told_the_nearest_name_in_its_folder(tmp_path: Path) -> None:
    (tmp_path / "boathouse.yaml").write_text("")
    (tmp_path / "notes.txt").write_text("")

    assert f"{tmp_path}/boathose.yaml: there is no such file; did you mean 'boathouse.yaml'?" == refusal(
        tmp_path / "boathose.yaml"
    )
    assert f"{tmp_path}/zzz: there is no such file: check the name" == refusal(tmp_path / "zzz")


def test_a_missing_file_of_this_folder_is_compared_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "boathouse.yaml").write_text("")
    monkeypatch.chdir(tmp_path)

    assert "boathouse.yml: there is no such file; did you mean 'boathouse.yaml'?" == refusal("boathouse.yml")


def test_a_missing_folder_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)

    assert "no/plan.yaml: there is no folder 'no': check the path" == refusal("no/plan.yaml")


def test_a_folder_is_no_plan(tmp_path: Path) -> None:
    assert f"{tmp_path}: this is a folder: name the plan's file in it" == refusal(tmp_path)


def test_a_file_below_a_file_cannot_be_read(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text("")

    assert refusal(tmp_path / "plan.yaml" / "x").endswith("the file cannot be read: Not a directory")


def test_a_file_name_that_no_system_has_is_told() -> None:
    assert "a\\x00b: the file cannot be read: embedded null byte" == refusal("a\0b")


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the system has no other user to become")
def test_a_file_without_permission_is_told(tmp_path: Path) -> None:
    file = tmp_path / "plan.yaml"
    file.write_text("netaudit: 1\n")
    file.chmod(0)

    assert f"{file}: you may not read this file: ask its owner, or change its permissions" == as_nobody(file)


def as_nobody(file: Path) -> str:
    """The refusal as a user without rights sees it, in a child that gives up those of root."""
    for folder in [*file.parents][:3]:
        folder.chmod(0o755)
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            if os.geteuid() == 0:
                os.setuid(65534)
            os.write(writing, refusal(file).encode())
        finally:
            os._exit(0)
    os.close(writing)
    os.waitpid(child, 0)
    with os.fdopen(reading) as told:
        return told.read()


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="the system has no endless file")
def test_an_endless_file_is_read_to_the_limit_only() -> None:
    assert LARGEST_BYTES + 1 == len(read_bytes("/dev/zero"))
    assert "/dev/zero: the file is larger than 16 MiB: divide the plan" == refusal("/dev/zero")


def test_sixteen_mebibytes_are_still_read() -> None:
    text = "#" * LARGEST_BYTES

    assert text == decoded(text, "plan.yaml")


def test_the_mark_that_some_editors_put_first_is_passed_over(example: str, lines: Lines) -> None:
    assert ["plan.yaml:1:11: netaudit: '2' is not a plan format that can be read: write 1"] == lines(
        b"\xef\xbb\xbfnetaudit: 2\n"
    )
    assert example == decoded("\ufeff" + example, "plan.yaml")


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (b"netaudit: 1\nname: caf\xe9\n", "plan.yaml:2:10: the byte 0xe9 is not UTF-8: save the file as UTF-8"),
        ("é: ".encode() + b"\xff", "plan.yaml:1:4: the byte 0xff is not UTF-8: save the file as UTF-8"),
        ("netaudit: 1".encode("utf-16"), "plan.yaml:1:1: this is UTF-16: save the file as UTF-8"),
        ("a\nb\ud800", "plan.yaml:2:2: '\\ud800' is half a character: leave it out"),
    ],
)
def test_bytes_that_are_not_utf_8_are_told_their_place(data: bytes | str, expected: str, lines: Lines) -> None:
    assert [expected] == lines(data)


def test_windows_says_no_permission_for_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise PermissionError

    monkeypatch.setattr("builtins.open", refuse)

    assert f"{tmp_path}: this is a folder: name the plan's file in it" == refusal(tmp_path)


def test_a_pipe_that_nobody_writes_into_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")

    assert b"" == read_bytes(str(tmp_path / "pipe"))
