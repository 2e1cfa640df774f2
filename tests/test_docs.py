"""README says what is: every command shown is run, and every table is made from the code it describes.

`pytest --update` writes the blocks anew.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from netaudit.cli.main import COMMANDS
from netaudit.plan.schema import key_table

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
BLOCK = re.compile(
    r"(?P<head><!-- (?P<kind>file|plan|run|keys) ?(?P<what>[^>]*?) ?-->\n)(?P<body>.*?)(?P<foot><!-- end -->\n)",
    re.S,
)


def blocks(text: str) -> Iterator[re.Match[str]]:
    return BLOCK.finditer(text)


def made(kind: str, what: str, folder: Path) -> str:
    """What a block should hold; a plan is its own truth and is laid into the folder for the commands after it."""
    if kind == "keys":
        return key_table()
    if kind == "file":
        return f"```yaml\n{(ROOT / what).read_text(encoding='utf-8')}```\n"
    command = what.split()
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=folder, capture_output=True, text=True, encoding="utf-8", check=False
    )
    return f"```\n{done.stdout}{done.stderr}```\n"


def renewed_block(block: re.Match[str], folder: Path) -> str:
    body = block["body"] if block["kind"] == "plan" else made(block["kind"], block["what"], folder)
    return f"{block['head']}{body}{block['foot']}"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "topologies", tmp_path / "topologies")
    for block in blocks(README.read_text(encoding="utf-8")):
        if block["kind"] == "plan":
            (tmp_path / block["what"]).write_text(block["body"].removeprefix("```yaml\n").removesuffix("```\n"))
    return tmp_path


def test_every_block_of_the_readme_is_what_the_tool_says(request: pytest.FixtureRequest, folder: Path) -> None:
    text = README.read_text(encoding="utf-8")
    renewed = BLOCK.sub(lambda block: renewed_block(block, folder), text)
    if request.config.getoption("--update"):
        README.write_text(renewed, encoding="utf-8")

    assert renewed == README.read_text(encoding="utf-8")


def test_every_table_and_every_answer_stands_in_the_readme_once() -> None:
    text = README.read_text(encoding="utf-8")

    assert 1 == text.count(key_table())
    assert 7 <= len(list(blocks(text)))
    assert all(block["body"].count("\n") > 2 for block in blocks(text))
    assert len(text) < 75_000


def test_the_readme_opens_with_two_lines_that_set_everything_up() -> None:
    fences = re.findall(r"^```\n(.*?)^```$", README.read_text(encoding="utf-8"), re.S | re.M)

    assert [1, 1] == [len(fence.splitlines()) for fence in fences[:2]]
    assert fences[0].endswith("netaudit check topologies/boathouse.yaml\n")
    assert fences[1].endswith("pytest -n 2 --dist worksteal\n")


def test_the_readme_shows_every_command_and_every_plan() -> None:
    text = README.read_text(encoding="utf-8")

    assert [] == [name for name in COMMANDS if f"netaudit {name}" not in text]
    assert [] == [plan.name for plan in (ROOT / "topologies").iterdir() if plan.name not in text]


def test_the_python_example_of_the_readme_runs(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (example,) = re.findall(r"^```python\n(.*?)^```$", README.read_text(encoding="utf-8"), re.S | re.M)
    monkeypatch.chdir(ROOT)

    exec(compile(example, "README.md", "exec"), {})  # noqa: S102 - our own example

    assert capsys.readouterr().out.startswith("fail ")
    assert 5 >= len([line for line in example.splitlines() if line])


def test_every_module_has_tests_of_its_own() -> None:
    package = ROOT / "netaudit"
    modules = [path for path in package.rglob("*.py") if not path.name.startswith("__")]
    mirrors = [ROOT / "tests" / path.relative_to(package).parent / f"test_{path.name}" for path in modules]

    assert [] == [str(mirror.relative_to(ROOT)) for mirror in mirrors if not mirror.exists()]
