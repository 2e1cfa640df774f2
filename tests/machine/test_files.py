"""Reading and writing a file through a child that can be left at any time."""

import os
import signal
import sys
from pathlib import Path

import pytest

from netaudit.errors import AnswerError, MachineError
from netaudit.machine import files
from netaudit.machine.files import Step, Transfer, pick

MIB = 1 << 20


def whole(transfer: Transfer) -> list[Step]:
    steps = []
    while not transfer.done:
        steps += transfer.steps(20)
    return steps


@pytest.fixture
def stuck(monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """A share that is dead: every child hangs. What they were to do."""
    asked: list[list[str]] = []

    def argv(module: str, *words: str) -> list[str]:
        asked.append(list(words))
        return [sys.executable, "-I", "-S", "-c", "import signal; signal.pause()"]

    monkeypatch.setattr(files, "python_argv", argv)
    monkeypatch.setattr(files, "REMOVE_S", 0.05)
    return asked


def test_a_file_is_read_step_by_step(tmp_path: Path) -> None:
    (tmp_path / "reel").write_bytes(os.urandom(5 * MIB))
    with Transfer(str(tmp_path / "reel"), "read", 3 * MIB, MIB) as transfer:
        steps = whole(transfer)

    assert [MIB] * 3 == [step.bytes for step in steps]
    assert all(step.seconds > 0 for step in steps)
    assert transfer.failed is None
    assert transfer.cpu_share is not None
    assert 0 <= transfer.cpu_share <= 1


def test_a_name_of_any_bytes_is_read(tmp_path: Path) -> None:
    name = str(tmp_path / "day\n1 \udcff'\".mov")
    Path(name).write_bytes(bytes(MIB))
    found = pick(str(tmp_path), 1, 20)
    with Transfer(name, "read", MIB, MIB) as transfer:
        whole(transfer)

    assert (name, None) == (found, transfer.failed)


def test_a_written_file_is_gone_afterwards(tmp_path: Path) -> None:
    with Transfer(str(tmp_path), "write", 2 * MIB, MIB) as transfer:
        steps = whole(transfer)

    assert [MIB, MIB, 0] == [step.bytes for step in steps]
    assert (None, None) == (transfer.failed, transfer.left)
    assert [] == os.listdir(tmp_path)


def test_a_writer_that_is_left_halfway_leaves_no_file(tmp_path: Path) -> None:
    with Transfer(str(tmp_path), "write", 1 << 40, MIB) as transfer:
        while not transfer.steps(0.05):
            pass
        assert [".netaudit-"] == [name[:10] for name in os.listdir(tmp_path)]

    assert ([], None) == (os.listdir(tmp_path), transfer.left)


def test_an_error_on_the_way_leaves_no_file_either(tmp_path: Path) -> None:
    def interrupted() -> None:
        with Transfer(str(tmp_path), "write", 1 << 40, MIB) as transfer:
            while not transfer.steps(0.05):
                pass
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        interrupted()

    assert [] == os.listdir(tmp_path)


@pytest.mark.skipif(os.name != "posix", reason="signals are a matter of POSIX")
def test_a_writer_that_was_shot_leaves_no_file_and_says_that_it_broke_off(tmp_path: Path) -> None:
    with Transfer(str(tmp_path), "write", 1 << 40, MIB) as transfer:
        while not transfer.steps(0.05):
            pass
        os.kill(transfer._child._process.pid, signal.SIGKILL)
        whole(transfer)

    assert ("the process that reads and writes broke off", None) == (transfer.failed, transfer.left)
    assert [] == os.listdir(tmp_path)


def test_a_dead_share_is_not_waited_for_and_what_may_lie_there_is_named(tmp_path: Path, stuck: list[list[str]]) -> None:
    with Transfer(str(tmp_path), "write", 4 * MIB, MIB) as transfer:
        assert [] == transfer.steps(0.05)
        assert not transfer.done
    (_, _, _, _, name), *removing = stuck

    assert [["remove", str(tmp_path), name]] * 2 == removing
    assert f"{tmp_path}/{name}" == transfer.left


def test_a_reader_of_a_dead_share_has_nothing_to_remove(tmp_path: Path, stuck: list[list[str]]) -> None:
    with Transfer(str(tmp_path), "read", 4 * MIB, MIB) as transfer:
        transfer.steps(0.05)

    assert ["read"] == [words[0] for words in stuck]


@pytest.mark.parametrize(
    ("direction", "name", "words"),
    [
        ("read", "nowhere", "No such file or directory"),
        ("write", "nowhere", "No such file or directory"),
        ("read", "", "Is a directory"),
    ],
)
def test_what_cannot_be_done_is_said_in_words(tmp_path: Path, direction: str, name: str, words: str) -> None:
    with Transfer(str(tmp_path / name), direction, MIB, MIB) as transfer:  # type: ignore[arg-type]
        steps = whole(transfer)

    assert ([], words, None) == (steps, transfer.failed, transfer.left)


def test_a_name_that_no_system_takes_cannot_be_asked_for() -> None:
    with pytest.raises(MachineError, match="cannot be run"):
        Transfer("a\0b", "read", MIB, MIB)


def test_the_largest_file_is_picked(tmp_path: Path) -> None:
    (tmp_path / "day 1").mkdir()
    for name, size in (("a", 10), ("day 1/b", 30), ("c", 20)):
        (tmp_path / name).write_bytes(bytes(size))

    assert [str(tmp_path / "day 1" / "b"), None] == [pick(str(tmp_path), size, 20) for size in (5, 31)]


def test_a_folder_that_is_silent_or_closed_is_an_answer_that_is_missing(tmp_path: Path) -> None:
    with pytest.raises(AnswerError, match="cannot be looked into: No such file or directory"):
        pick(str(tmp_path / "nowhere"), 1, 20)


def test_a_dead_folder_is_not_waited_for(tmp_path: Path, stuck: list[list[str]]) -> None:
    with pytest.raises(AnswerError, match=r"did not answer within 0\.05 s"):
        pick(str(tmp_path), 1, 0.05)


@pytest.mark.parametrize(
    "line", ["nonsense", "[]", "null", "[" * 5000, '{"step": 1}', '{"step": [1], "cpu_share": "x"}', '{"failed": 3}']
)
def test_words_of_a_child_that_cannot_be_read_count_for_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, line: str
) -> None:
    code = f"print({line!r})"
    monkeypatch.setattr(files, "python_argv", lambda *words: [sys.executable, "-I", "-S", "-c", code])
    with Transfer(str(tmp_path), "read", MIB, MIB) as transfer:
        steps = whole(transfer)

    assert ([], None, None) == (steps, transfer.failed, transfer.cpu_share)
