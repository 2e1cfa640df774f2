"""Hostile plans are ordinary input: each gets a verdict, or an answer that says where it is wrong."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import fuzz
import pytest
import yaml
from rooms import room
from spoil import GENTLE, ROUGH, Library, chance_of, library, spoilt
from spoil_text import ON_BYTES, ON_TEXTS

import netaudit
from netaudit.errors import InputError, Problem
from netaudit.model.report import Report

HERE = Path(__file__).parent
COUNT = 2000
NEVER = Problem(fuzz.FILE, "a tab stands here", 1, 1)


@pytest.fixture(scope="module")
def plans() -> Library:
    return fuzz.good_plans()


def done(*arguments: str) -> subprocess.CompletedProcess[str]:
    """A run in a process of its own, since it forks."""
    return subprocess.run([sys.executable, *arguments], cwd=HERE, capture_output=True, text=True, check=False)


def test_every_spoilt_plan_gets_a_verdict_or_an_answer_that_says_where_it_is_wrong() -> None:
    run = done("fuzz.py", "--count", str(COUNT), "--seed", "1")
    judged, refused, faulty = map(int, re.findall(r"\d+", run.stdout.splitlines()[-1]))

    assert (0, 0, "") == (run.returncode, faulty, run.stderr)
    assert COUNT == judged + refused
    assert COUNT // 5 < min(judged, refused)


def test_a_number_stands_for_one_spoilt_plan(plans: Library) -> None:
    first = [spoilt(plans, 1, number) for number in range(40)]

    assert first == [spoilt(fuzz.good_plans(), 1, number) for number in range(40)]
    assert 38 < len(set(first))
    assert first != [spoilt(plans, 2, number) for number in range(40)]


@pytest.mark.parametrize("change", dict.fromkeys((*GENTLE, *ROUGH)), ids=lambda change: change.__name__)
def test_every_change_of_structure_changes_a_plan(plans: Library, change: Callable[..., None]) -> None:
    trees = [yaml.safe_load(room()) for _ in range(9)]
    for seed, tree in enumerate(trees):
        change(chance_of(1, seed), tree, plans)

    assert [yaml.safe_load(room())] * len(trees) != trees


@pytest.mark.parametrize("number", range(len(ON_TEXTS)))
def test_every_change_of_text_changes_a_plan(number: int) -> None:
    assert {room()} != {ON_TEXTS[number](chance_of(1, seed), room()) for seed in range(9)}
    assert isinstance(ON_TEXTS[number](chance_of(1, 1), ""), str)


@pytest.mark.parametrize("number", range(len(ON_BYTES)))
def test_every_change_of_bytes_changes_a_plan(number: int) -> None:
    assert {b"abc"} != {ON_BYTES[number](chance_of(1, seed), b"abc") for seed in range(9)}
    assert isinstance(ON_BYTES[number](chance_of(1, 1), b""), bytes)


def test_good_plans_are_judged_and_bad_ones_are_refused() -> None:
    assert "judged" == fuzz.answer_to(room().encode())
    assert "judged" == fuzz.answer_to(room(wall="5e").encode())
    assert "refused" == fuzz.answer_to(b"netaudit: 2")


def raising(error: Exception) -> Callable[..., Report]:
    def check(*_: object) -> Report:
        raise error

    return check


@pytest.mark.parametrize(
    ("error", "answer"),
    [
        (KeyError("core"), "KeyError at test_fuzz.py:"),
        (RecursionError("too deep"), "RecursionError at "),
        (InputError([]), "refused without a problem"),
        (InputError([NEVER._replace(line=None)]), "a problem without its place"),
        (InputError([NEVER._replace(column=None)]), "a problem without its place"),
        (InputError([NEVER._replace(line=10**6)]), "a problem outside its file"),
        (InputError([NEVER._replace(column=0)]), "a problem outside its file"),
        (InputError([NEVER._replace(file="other.yaml")]), "a problem without its file or without words"),
        (InputError([NEVER._replace(message=" ")]), "a problem without its file or without words"),
        (InputError([NEVER]), "refused"),
        (InputError([NEVER._replace(message="and 7 more problems", line=None)]), "refused"),
    ],
)
def test_a_planted_fault_in_the_answer_is_seen(monkeypatch: pytest.MonkeyPatch, error: Exception, answer: str) -> None:
    monkeypatch.setattr(netaudit, "check", raising(error))

    assert fuzz.answer_to(room().encode()).startswith(answer)
    assert fuzz.Outcome(1, fuzz.answer_to(room().encode())).faulty == (answer != "refused")


@pytest.mark.parametrize(
    ("spoil", "answer"),
    [
        (
            lambda report: report._replace(findings=(report.findings[0]._replace(line=None),)),
            "a finding without its line",
        ),
        (
            lambda report: report._replace(findings=(report.findings[0]._replace(line=999),)),
            "a finding without its line",
        ),
    ],
)
def test_a_planted_fault_in_a_report_is_seen(
    monkeypatch: pytest.MonkeyPatch, spoil: Callable[[Report], Report], answer: str
) -> None:
    audit = netaudit.check
    monkeypatch.setattr(netaudit, "check", lambda plan: spoil(audit(plan)))

    assert answer == fuzz.answer_to(room(wall="5e").encode())


@pytest.mark.parametrize(
    ("name", "value", "answer"),
    [
        ("plain", lambda _: "", "the plain form does not end in its verdict"),
        ("plain", lambda report: f"verdict: {report.summary.verdict}\n", "the plain form leaves out path-below-target"),
        ("as_json", lambda _: '{"findings": []}', "the JSON form leaves out a finding"),
    ],
)
def test_a_form_that_leaves_something_out_is_seen(
    monkeypatch: pytest.MonkeyPatch, name: str, value: Callable[[Report], str], answer: str
) -> None:
    monkeypatch.setattr(fuzz, name, value)

    assert answer == fuzz.answer_to(room(wall="5e").encode())


@pytest.mark.parametrize(
    ("check", "answer"),
    [
        ("def check(plan):\n    while True: pass", "took more than 0.5 s"),
        ("def check(plan):\n    return bytearray(10**10)", "MemoryError at "),
        ("def check(plan):\n    import os; os._exit(7)", "ended the process with 7"),
        ("def check(plan):\n    import os, signal; os.kill(os.getpid(), signal.SIGKILL)", "ended the process with -9"),
    ],
)
def test_a_plan_that_takes_too_much_is_seen_and_those_after_it_are_still_asked(check: str, answer: str) -> None:
    """The third plan is made to misbehave."""
    code = (
        f"import fuzz, netaudit\n{check}\nbad, good = check, netaudit.check\n"
        "fuzz.MOST_CPU_S = 0.5\n"
        "fuzz.spoilt = lambda plans, seed, number: str(number).encode()\n"
        "netaudit.loads = lambda data, file: int(data)\n"
        "fuzz._judged = lambda data: bad(None) if data == b'3' else 'judged'\n"
        "for outcome in fuzz.attack(1, range(1, 6), fuzz.Library((), {}, {}), jobs=2): print(*outcome)\n"
    )
    run = done("-c", code)

    assert ["1 judged", "2 judged", "4 judged", "5 judged"] == [
        line for line in run.stdout.splitlines() if not line.startswith("3 ")
    ]
    assert run.stdout.splitlines()[2].startswith(f"3 {answer}")


def test_a_fault_is_kept_and_makes_the_run_fail(tmp_path: Path) -> None:
    code = (
        "import sys, fuzz, netaudit\n"
        "def check(plan): raise KeyError('core')\n"
        "netaudit.check = check\n"
        f"sys.argv = ['fuzz.py', '--count', '20', '--jobs', '1', '--keep', {str(tmp_path)!r}]\n"
        "sys.exit(fuzz.main())\n"
    )
    run = done("-c", code)
    kept = sorted(tmp_path.glob("1-*.yaml"))

    assert 1 == run.returncode
    assert len(kept) == run.stdout.count(": KeyError at ")
    assert kept[0].read_bytes() == spoilt(fuzz.good_plans(), 1, int(kept[0].stem.partition("-")[2]))


def test_the_library_knows_what_stands_under_and_beside_a_key() -> None:
    made = library(["a: {b: 1, c: [x]}\n"])

    assert {"a": [{"b": "1", "c": ["x"]}], "b": ["1"], "c": [["x"]], "0": ["x"]} == made.values
    assert [("c", ["x"])] == made.beside["b"]
