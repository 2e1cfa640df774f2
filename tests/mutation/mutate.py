"""Changes the code in many small ways, one at a time, and asks whether the tests notice.

    python tests/mutation/mutate.py --sample 300 --seed 1 --jobs 2
    python tests/mutation/mutate.py --files netaudit/rules/cabling netaudit/network/loops.py

Works on a copy of the tree. Each mutant meets the tests that mirror its module, then those of whole rooms; it is killed
by the first that fails, by an error, or by taking too long. Ends with 1 where less than nine of ten are killed.
"""

from __future__ import annotations

import argparse
import importlib.machinery
import importlib.util
import os
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from types import CodeType, ModuleType

from mutants import Mutant, mutants_of

ROOT = Path(__file__).parents[2]
ROOMS = ("netaudit/calculations", "netaudit/network", "netaudit/rules")
"""Where mutants are made unless files are named."""
WHOLE_ROOMS = ("tests/rules/test_examples.py", "tests/test_topologies.py", "tests/test_any_plan.py")
ENOUGH = 0.9
"""Share of the mutants that must be killed."""
MOST_CPU_S = 20.0
"""Processor time that one test may take, unless another is asked for [s]."""
MOST_BYTES = 4 * 2**30
"""Memory that the tests of a mutant may take [byte]."""
LOADED_BEFORE = "ignore:Module already imported:pytest.PytestAssertRewriteWarning"
"""What pytest is not to complain about: its plugins are loaded once, before the processes part."""


class OneTestAtATime:
    """Ends the process where a single test, or the collection before the first, takes too long."""

    def __init__(self, most_cpu_s: float) -> None:
        self._most_cpu_s = most_cpu_s

    def pytest_collectstart(self) -> None:
        signal.setitimer(signal.ITIMER_PROF, self._most_cpu_s)

    def pytest_runtest_logstart(self) -> None:
        signal.setitimer(signal.ITIMER_PROF, self._most_cpu_s)


class Changed(importlib.machinery.SourceFileLoader):
    """Loads a module from other code than its file holds."""

    def __init__(self, mutant: Mutant) -> None:
        super().__init__(mutant.module, str(Path(mutant.file).resolve()))
        self._code = mutant.code

    def get_code(self, fullname: str) -> CodeType:
        return self._code

    def find_spec(self, name: str, path: object = None, target: ModuleType | None = None) -> object:
        """The mutant's own spec, and none for any other module."""
        return importlib.util.spec_from_file_location(name, self.path, loader=self) if name == self.name else None


def tests_of(file: str) -> list[list[str]]:
    """The tests that a mutant of a module meets: those that mirror it, then those of whole rooms."""
    module = Path(file)
    folder = Path("tests", *module.parts[1:-1])
    mirrors = [folder / f"test_{module.stem}.py", *sorted(folder.glob(f"test_{module.stem}_*.py"))]
    rounds = ([path for path in paths if path.exists()] for paths in (mirrors, map(Path, WHOLE_ROOMS)))
    return [[str(path) for path in paths] for paths in rounds if paths]


def all_mutants(files: Sequence[str]) -> list[Mutant]:
    """Every mutant of the modules that are, or lie in, some files and folders."""
    wanted = [Path(file) for file in files]
    found: list[Mutant] = []
    for path in sorted(Path("netaudit").rglob("*.py")):
        if path.name != "__init__.py" and any(each == path or each in path.parents for each in wanted):
            found += mutants_of(path.as_posix(), path.read_text(encoding="utf-8"))
    return found


def prepare() -> None:
    """Load what every process needs, but nothing of netaudit, and let hypothesis draw the same examples each time."""
    for name in ("pytest", "hypothesis", "yaml", "jsonschema", "networkx", "rich.console", "rich.table", "click"):
        if importlib.util.find_spec(name.partition(".")[0]):
            importlib.import_module(name)
    from hypothesis import Phase, settings

    phases = (Phase.explicit, Phase.generate)
    settings.register_profile("mutants", derandomize=True, database=None, deadline=None, phases=phases)
    settings.load_profile("mutants")


def start(rounds: Sequence[Sequence[str]], most_cpu_s: float, mutant: Mutant | None = None) -> int:
    """A process that runs rounds of tests, up to one that fails; its number. What the tree as it is does wrong is shown."""
    process = os.fork()
    if process:
        return process
    code = 1
    try:
        import pytest

        output = os.open(os.devnull, os.O_WRONLY) if mutant else 2
        os.dup2(output, 1)
        os.dup2(output, 2)
        resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
        if mutant:
            sys.meta_path.insert(0, Changed(mutant))
        options = ["-x", "-q", "--tb=no", "-p", "no:cacheprovider", "-W", LOADED_BEFORE]
        codes = (int(pytest.main([*options, *tests], plugins=[OneTestAtATime(most_cpu_s)])) for tests in rounds)
        code = next((code for code in codes if code), 0)
    finally:
        os._exit(code)


def survivors(mutants: Sequence[Mutant], jobs: int, most_cpu_s: float) -> Iterator[tuple[Mutant, bool]]:
    """Each mutant in turn, with whether it survives its tests."""
    of_process: dict[int, int] = {}
    survives: dict[int, bool] = {}
    started = told = 0
    while told < len(mutants):
        while started < len(mutants) and len(of_process) < jobs:
            mutant = mutants[started]
            of_process[start(tests_of(mutant.file), most_cpu_s, mutant)] = started
            started += 1
        process, status = os.wait()
        survives[of_process.pop(process)] = os.waitstatus_to_exitcode(status) == 0
        while told in survives:
            yield mutants[told], survives[told]
            told += 1


def judge(options: argparse.Namespace) -> int:
    """Make the mutants, run them, and tell what became of each; 1 where too many survive, 2 where nothing can be said."""
    mutants = all_mutants(options.files)
    if options.sample is not None and options.sample < len(mutants):
        chance = random.Random(options.seed)  # noqa: S311 - no secret
        mutants = [mutants[number] for number in sorted(chance.sample(range(len(mutants)), options.sample))]
    if not mutants:
        print("no mutant can be made there", file=sys.stderr)
        return 2
    prepare()
    tests = list(dict.fromkeys(test for mutant in mutants for tests in tests_of(mutant.file) for test in tests))
    _, status = os.waitpid(start([tests], options.most_cpu_s), 0)
    if not tests or os.waitstatus_to_exitcode(status) != 0:
        print("the tests fail without any mutant", file=sys.stderr)
        return 2
    killed = 0
    for mutant, survived in survivors(mutants, options.jobs, options.most_cpu_s):
        killed += not survived
        print(f"{'survived' if survived else 'killed  '}  {mutant.file}:{mutant.line}  {mutant.change}", flush=True)
    share = killed / len(mutants)
    print(f"{killed} of {len(mutants)} mutants killed ({share:.1%})")
    return 0 if share >= ENOUGH else 1


def main() -> int:
    """Copy the tree, and run this file once more in the copy."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument(
        "--files", nargs="+", default=list(ROOMS), metavar="FILE", help="files or folders [all three rooms]"
    )
    parser.add_argument("--sample", type=int, metavar="N", help="so many of the mutants, by chance [all]")
    parser.add_argument("--seed", type=int, default=1, help="what decides the chance [1]")
    parser.add_argument("--jobs", type=int, default=2, help="processes at once [2]")
    parser.add_argument("--most-cpu-s", type=float, default=MOST_CPU_S, help="processor time for one test [20]")
    parser.add_argument("--tree", type=Path, default=ROOT, metavar="FOLDER", help="the tree to take [this one]")
    parser.add_argument("--in-copy", action="store_true", help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.in_copy:
        return judge(options)
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder, "tree")
        skipped = shutil.ignore_patterns(".*", "__pycache__")
        shutil.copytree(options.tree, copy, ignore=skipped)
        environment = {**os.environ, "PYTHONPATH": str(copy), "PYTHONHASHSEED": "0"}
        again = [sys.executable, str(Path(__file__).resolve()), *sys.argv[1:], "--in-copy"]
        return subprocess.run(again, cwd=copy, env=environment, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
