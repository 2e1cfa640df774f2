"""The mutator itself: it makes the changes it should, sees what no test notices, and is not fooled by what does not count."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import mutate
import pytest
from mutants import mutants_of

HERE = Path(__file__).parent
RULE = '''"""A rule."""

LIMIT_M = 100


def too_long(length_m: float) -> bool:
    return length_m > LIMIT_M


def word(length_m: float) -> str:
    return "long" if length_m > 100 else f"short by {100 - length_m}"
'''
FAR = """from netaudit.rules.reach import too_long


def test_far_beyond_is_too_long() -> None:
    assert too_long(200)
"""
SHORT = """

def test_short_is_good() -> None:
    assert not too_long(1)
"""
EDGE = """

def test_the_limit_is_good_and_one_more_is_not() -> None:
    assert not too_long(100)
    assert too_long(101)
"""


def changes(text: str) -> list[str]:
    return [mutant.change for mutant in mutants_of("netaudit/rules/reach.py", text)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a < b", ["a < b  ->  a <= b", "a < b  ->  a >= b"]),
        ("a >= b", ["a >= b  ->  a > b", "a >= b  ->  a < b"]),
        ("a == b", ["a == b  ->  a != b"]),
        ("a is not None", ["a is not None  ->  a is None"]),
        ("a in b", ["a in b  ->  a not in b"]),
        ("a < b == c", ["a < b == c  ->  a <= b == c", "a < b == c  ->  a >= b == c", "a < b == c  ->  a < b != c"]),
        ("a > b + TOLERANCE", ["a > b + TOLERANCE  ->  a <= b + TOLERANCE", "b + TOLERANCE  ->  b - TOLERANCE"]),
        ("a and b", ["a and b  ->  a or b"]),
        ("a or b", ["a or b  ->  a and b"]),
        ("not a", ["not a  ->  a"]),
        ("-a", ["-a  ->  a"]),
        ("a + b", ["a + b  ->  a - b"]),
        ("a - b", ["a - b  ->  a + b"]),
        ("a * b", ["a * b  ->  a / b"]),
        ("a / b", ["a / b  ->  a * b"]),
        ("a // b", ["a // b  ->  a * b"]),
        ("min(a)", ["min(a)  ->  max(a)"]),
        ("any(a)", ["any(a)  ->  all(a)"]),
        ("a = 37", ["37  ->  38"]),
        ("a = 0", ["0  ->  1"]),
        ("a = 0.1", ["0.1  ->  0.15000000000000002"]),
        ("a = 2.5", ["2.5  ->  3.5"]),
        ("a = True", ["True  ->  False"]),
        ("a[2]", ["2  ->  3"]),
        ("f(reverse=True)", ["True  ->  False"]),
    ],
)
def test_a_change_of_meaning_makes_a_mutant(text: str, expected: list[str]) -> None:
    assert expected == changes(text)


@pytest.mark.parametrize(
    "text",
    [
        '"""Text 1 < 2."""',
        "a[0]",
        "a[-1]",
        "a[1:]",
        "a[:-1]",
        "a['b']",
        "a: Literal[1, 2]",
        "def f(a: Literal[1] = None) -> Literal[2]: pass",
        "@dataclass(frozen=True)\nclass A: pass",
        "zip(a, b, strict=True)",
        "f'{a + 1} of {a > 2}'",
        "b = 'one' if a == 1 else f'{a} many'",
        "b = 'no' if a == 0 else 'one' if a == 1 else 'many'",
        "a + 'text'",
        "(a,) + b",
        "if TYPE_CHECKING:\n    A = 1",
        "a = b % c",
    ],
)
def test_what_is_not_run_or_only_words_a_sentence_makes_none(text: str) -> None:
    assert [] == changes(text)


def test_a_mutant_knows_its_line_and_its_module_and_runs_as_changed() -> None:
    (mutant,) = mutants_of("netaudit/rules/reach.py", "a = 1\nb = (a\n     is None)\n".replace("1", "'x'"))
    values: dict[str, object] = {}
    exec(mutant.code, values)  # noqa: S102 - our own code

    assert ("netaudit.rules.reach", 2) == (mutant.module, mutant.line)
    assert True is values["b"]


def test_every_mutant_of_a_module_differs_from_it_and_they_come_in_the_same_order() -> None:
    text = (HERE.parents[1] / "netaudit" / "network" / "rings.py").read_text(encoding="utf-8")
    mutants = list(mutants_of("rings.py", text))

    assert 20 < len(mutants)
    assert compile(text, "rings.py", "exec") not in [mutant.code for mutant in mutants]
    assert [mutant.change for mutant in mutants] == [mutant.change for mutant in mutants_of("rings.py", text)]


def test_a_module_meets_its_mirror_first_and_whole_rooms_then(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(HERE.parents[1])

    assert [["tests/network/test_rings.py"], list(mutate.WHOLE_ROOMS)] == mutate.tests_of("netaudit/network/rings.py")
    assert [list(mutate.WHOLE_ROOMS)] == mutate.tests_of("netaudit/network/nowhere.py")


@pytest.fixture
def tree(tmp_path: Path) -> Path:
    """A tree of one small rule with one test, which knows no more than what is far beyond the limit."""
    for folder in ("netaudit/rules", "tests/rules"):
        (tmp_path / folder).mkdir(parents=True)
    (tmp_path / "netaudit/__init__.py").touch()
    (tmp_path / "netaudit/rules/__init__.py").touch()
    (tmp_path / "netaudit/rules/reach.py").write_text(RULE, encoding="utf-8")
    (tmp_path / "tests/rules/test_reach.py").write_text(FAR, encoding="utf-8")
    (tmp_path / "pyproject.toml").write_text("[tool.pytest.ini_options]\naddopts = '--import-mode=importlib'\n")
    return tmp_path


def run(tree: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, str(HERE / "mutate.py"), "--tree", str(tree), *arguments]
    return subprocess.run(command, cwd=tree, capture_output=True, text=True, check=False)


def test_an_obvious_mutant_is_killed_and_a_planted_survivor_is_seen(tree: Path) -> None:
    done = run(tree)

    assert done.stdout.splitlines() == [
        "survived  netaudit/rules/reach.py:3  100  ->  101",
        "survived  netaudit/rules/reach.py:7  length_m > LIMIT_M  ->  length_m >= LIMIT_M",
        "killed    netaudit/rules/reach.py:7  length_m > LIMIT_M  ->  length_m <= LIMIT_M",
        "1 of 3 mutants killed (33.3%)",
    ]
    assert 1 == done.returncode


def test_tests_at_the_limit_kill_every_mutant_and_the_tree_is_left_alone(tree: Path) -> None:
    (tree / "tests/rules/test_reach.py").write_text(FAR + SHORT, encoding="utf-8")
    (tree / "tests/rules/test_reach_limit.py").write_text(FAR.partition("\n")[0] + "\n" + EDGE, encoding="utf-8")
    before = sorted(tree.rglob("*"))
    done = run(tree, "--files", "netaudit/rules/reach.py", "--jobs", "1")

    assert "3 of 3 mutants killed (100.0%)" == done.stdout.splitlines()[-1]
    assert 0 == done.returncode
    assert before == sorted(tree.rglob("*"))
    assert RULE == (tree / "netaudit/rules/reach.py").read_text(encoding="utf-8")


def test_a_sample_is_the_same_for_the_same_seed(tree: Path) -> None:
    (tree / "netaudit/rules/reach.py").write_text(RULE + "A = " + repr(list(range(50))), encoding="utf-8")
    one, other = (run(tree, "--sample", "2", "--seed", "3").stdout for _ in range(2))

    assert one == other
    assert 3 == len(one.splitlines())
    assert " of 2 mutants killed" in one


def test_a_mutant_that_never_ends_is_killed(tree: Path) -> None:
    rule = "def count(number):\n    while number > 0:\n        number = number - 1\n    return number\n"
    (tree / "netaudit/rules/count.py").write_text(rule, encoding="utf-8")
    (tree / "tests/rules/test_count.py").write_text(
        "from netaudit.rules.count import count\n\ndef test_it_counts_down() -> None:\n    assert count(3) == 0\n",
        encoding="utf-8",
    )
    done = run(tree, "--files", "netaudit/rules/count.py", "--most-cpu-s", "1")

    assert "killed    netaudit/rules/count.py:3  number - 1  ->  number + 1" in done.stdout.splitlines()


@pytest.mark.parametrize(
    ("files", "error"), [("netaudit/report", "no mutant can be made there"), ("netaudit/rules", "fail")]
)
def test_what_cannot_be_judged_is_told(tree: Path, files: str, error: str) -> None:
    (tree / "tests/rules/test_reach.py").write_text("def test_it() -> None:\n    assert False\n", encoding="utf-8")
    done = run(tree, "--files", files)

    assert (2, "") == (done.returncode, done.stdout)
    assert error in done.stderr
