"""Loading: a plan or every problem, whatever the bytes."""

from __future__ import annotations

import gc
import random
from collections.abc import Callable
from pathlib import Path

import pytest

from netaudit.errors import InputError
from netaudit.model.plan import Plan
from netaudit.plan.load import load, loads

Lines = Callable[[str | bytes], list[str]]

SCRAPS = (
    b"", b"\n", b" ", b":", b": ", b",", b"{", b"}", b"[", b"]", b"&a", b"*a", b"!", b"|", b">", b"'", b'"', b"-", b"- ",
    b"#", b"\t", b"\xff", b"\x00", b"\xc3", b"\xe2\x80\xa8", b"<<: ", b"---\n", b"...", b"true", b"1-4096", b"0", b"nan",
)  # fmt: skip


def test_a_file_and_its_text_make_the_same_plan(example: str, tmp_path: Path) -> None:
    file = tmp_path / "boathouse.yaml"
    file.write_text(example, encoding="utf-8")

    assert loads(example) == load(file) == load(str(file)) == loads(example.encode())
    assert (str(file), "<text>", "x") == (load(file).file, loads(example).file, loads(example, "x").file)


def test_the_example_of_the_format_is_read_whole(example: str) -> None:
    plan = loads(example)

    assert ["cut-1", "loft-plate", "bay-panel", "core", "vault"] == list(plan.devices)
    assert [4, 24, 12] == [len(plan.devices[name].ports) for name in ("loft-plate", "bay-panel", "core")]
    assert ["C01", "W01", "C02", "D01"] == list(plan.cables)


def test_carriage_returns_change_nothing_but_the_place(example: str) -> None:
    assert loads(example) == loads(example.replace("\n", "\r\n"))
    assert loads(example).lines == loads(example.replace("\n", "\r\n")).lines


def test_every_problem_is_told_on_a_line_of_its_own_in_file_order(lines: Lines) -> None:
    told = lines("netaudit: 1\nnetworks: {m: {vlan: 0}}\nname: ''\ncables: {'a\\nb': {}}\nambient: hot\n")

    assert ["2:22", "3:7", "4:18", "4:18", "5:10"] == [":".join(line.split(":")[1:3]) for line in told]
    assert all(line.isprintable() for line in told)


def test_two_hundred_problems_are_told_and_the_rest_counted(lines: Lines) -> None:
    text = "netaudit: 1\ncables:\n" + "".join(f"  C{number}: {{from: a/1, to: b/1}}\n" for number in range(150))
    told = lines(text)

    assert 201 == len(told)
    assert "plan.yaml: and 100 more problems" == told[-1]


@pytest.mark.parametrize("collecting", [True, False])
def test_the_collector_is_left_as_it_was(collecting: bool, example: str) -> None:
    before = gc.isenabled()
    try:
        (gc.enable if collecting else gc.disable)()
        loads(example)
        after_plan = gc.isenabled()
        with pytest.raises(InputError):
            loads("[")
        assert [collecting] * 2 == [after_plan, gc.isenabled()]
    finally:
        (gc.enable if before else gc.disable)()


@pytest.mark.parametrize("seed", range(6))
def test_a_plan_with_bytes_changed_at_random_is_a_plan_or_an_input_error(seed: int, example: str) -> None:
    chance = random.Random(seed)  # noqa: S311 - the same changes every time
    whole = example.encode()
    for _ in range(100):
        changed = bytearray(whole)
        for _ in range(chance.randint(1, 4)):
            place = chance.randrange(len(changed))
            changed[place : place + chance.randint(0, 3)] = chance.choice(SCRAPS)
        outcome = outcome_of(bytes(changed))

        assert isinstance(outcome, Plan) or all(
            str(problem).isprintable() and problem.message for problem in outcome.problems
        )


def outcome_of(data: bytes) -> Plan | InputError:
    try:
        return loads(data, "plan.yaml")
    except InputError as error:
        return error
