"""Feeds spoilt plans to netaudit: each gets a verdict or an answer that says where it is wrong, soon and in little memory.

    python tests/fuzz/fuzz.py --count 100000 --jobs 2

Every spoilt plan follows from the seed and its number, so that `--first N --count 1` meets it again.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import signal
import sys
import traceback
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from spoil import Library, library, spoilt

import netaudit
from netaudit.errors import InputError, Problem
from netaudit.model.plan import Plan
from netaudit.model.report import Report
from netaudit.report.bill.data.bill import as_json as bill_json
from netaudit.report.bill.plain import plain as bill_text
from netaudit.report.data import as_json
from netaudit.report.plain import plain

ROOT = Path(__file__).parents[2]
FILE = "spoilt.yaml"
MOST_CPU_S = 3
"""Time that one plan may take [s], of the processor, so that a busy machine changes nothing."""
SEARCH_S = 0.2
"""Time for the search of fewer boxes [s]."""
MOST_BYTES = 512 * 2**20
"""Memory that a worker may take beyond what it starts with [byte]."""
BATCH = 200
"""Plans that one worker is asked about."""


class Outcome(NamedTuple):
    """What became of one spoilt plan."""

    number: int
    answer: str
    """judged, refused, or what went wrong."""

    @property
    def faulty(self) -> bool:
        """Whether netaudit did something that it never may."""
        return self.answer not in ("judged", "refused")


def good_plans(root: Path = ROOT) -> Library:
    """Every example plan of the project."""
    folders = (root / "topologies", root / "netaudit" / "rules" / "example_plans")
    return library([file.read_text(encoding="utf-8") for folder in folders for file in sorted(folder.glob("*.yaml"))])


def answer_to(data: bytes) -> str:
    """`judged` or `refused`, or what netaudit did wrong, in a line."""
    try:
        return _judged(data)
    except InputError as error:
        return _refusal_fault(error, data) or "refused"
    except Exception as error:
        trace = error.__traceback__
        while trace and trace.tb_next:
            trace = trace.tb_next
        place = f"{Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno}" if trace else "?"
        return f"{type(error).__name__} at {place}: {str(error)[:200]!r}"


def _judged(data: bytes) -> str:
    plan = netaudit.loads(data, FILE)
    report = netaudit.check(plan)
    lines = len(data.splitlines()) + 1
    if report.exit_code != (1 if report.summary.fail else 0):
        return f"exit code {report.exit_code} of a judged plan"
    if any(finding.line is None or not 1 <= finding.line <= lines for finding in report.findings):
        return "a finding without its line"
    return _form_fault(report) or _bill_fault(plan) or "judged"


def _form_fault(report: Report) -> str | None:
    text = plain(report)
    if not text.endswith(f"verdict: {report.summary.verdict}\n"):
        return "the plain form does not end in its verdict"
    missing = [finding for finding in report.findings if finding.message not in text or finding.remedy not in text]
    if missing:
        return f"the plain form leaves out {missing[0].rule}"
    values = json.loads(as_json(report))
    if [each["message"] for each in values["findings"]] != [finding.message for finding in report.findings]:
        return "the JSON form leaves out a finding"
    return None


def _bill_fault(plan: Plan) -> str | None:
    """What is wrong with the bill of a plan: every cable is on it once, in the JSON too."""
    made = netaudit.bill(plan, netaudit.Request(limit_s=SEARCH_S))
    bought = [name for item in made.buy for name in item.serves]
    cut = [name for row in made.bulk for name in (*row.uncounted, *(piece.cable for piece in row.cuts))]
    if sorted((*bought, *cut, *made.there, *made.to_choose)) != sorted(plan.cables):
        return "a bill that forgets a cable, or has one twice"
    values = json.loads(bill_json(made))
    if len(values["labels"]) != sum(len(cable.ends) for cable in plan.cables.values()):
        return "a bill without a label for each end"
    return None if bill_text(made).endswith("\n") else "a bill whose plain form has no end"


def _refusal_fault(error: InputError, data: bytes) -> str | None:
    """What is wrong with an answer that refuses a plan."""
    if error.exit_code != 2 or not error.problems:
        return "refused without a problem, or with another exit code than 2"
    if len(str(error).splitlines()) != len(error.problems):
        return f"a problem on more than one line: {str(error)[:200]!r}"
    lines = data.decode("utf-8", "replace").count("\n") + data.count(b"\r") + 1
    for problem in error.problems:
        fault = _place_fault(problem, lines)
        if fault:
            return f"{fault}: {str(problem)[:200]!r}"
    return None


def _place_fault(problem: Problem, lines: int) -> str | None:
    if problem.file != FILE or not problem.message.strip():
        return "a problem without its file or without words"
    counted = problem.message.startswith("and ") and problem.message.endswith("more problems")
    if counted:
        return None
    if problem.line is None or problem.column is None:
        return "a problem without its place"
    if not (1 <= problem.line <= lines and problem.column >= 1):
        return "a problem outside its file"
    return None


def attack(seed: int, numbers: Sequence[int], plans: Library, jobs: int = 1) -> Iterator[Outcome]:
    """What becomes of the spoilt plans of some numbers, in their order."""
    batches = [numbers[start : start + BATCH] for start in range(0, len(numbers), BATCH)]
    for start in range(0, len(batches), jobs):
        workers = [_Worker(seed, batch, plans) for batch in batches[start : start + jobs]]
        for worker in workers:
            yield from worker.outcomes()


class _Worker:
    """A process that answers a batch; one that dies leaves a fault where it died, and another goes on from there."""

    def __init__(self, seed: int, numbers: Sequence[int], plans: Library) -> None:
        self._seed, self._numbers, self._plans = seed, numbers, plans
        self._read, write = os.pipe()
        self._process = os.fork()
        if self._process == 0:
            os.close(self._read)
            self._work(write)
        os.close(write)

    def _work(self, write: int) -> None:
        """Answer every plan of the batch, and end the process."""
        code = 1
        try:
            own = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0]) * resource.getpagesize()
            resource.setrlimit(resource.RLIMIT_AS, (own + MOST_BYTES, own + MOST_BYTES))
            signal.signal(signal.SIGPROF, signal.SIG_DFL)
            for number in self._numbers:
                data = spoilt(self._plans, self._seed, number)
                signal.setitimer(signal.ITIMER_PROF, MOST_CPU_S)
                answer = answer_to(data)
                signal.setitimer(signal.ITIMER_PROF, 0)
                os.write(write, json.dumps(answer).encode() + b"\n")
            code = 0
        except BaseException:
            traceback.print_exc()
        finally:
            os._exit(code)

    def outcomes(self) -> Iterator[Outcome]:
        """The answers in order, once the process has ended."""
        with open(self._read, "rb") as read:
            answers = [str(json.loads(line)) for line in read]
        _, status = os.waitpid(self._process, 0)
        yield from map(Outcome, self._numbers, answers)
        if len(answers) == len(self._numbers):
            return
        ended = os.waitstatus_to_exitcode(status)
        why = f"took more than {MOST_CPU_S} s" if ended == -signal.SIGPROF else f"ended the process with {ended}"
        yield Outcome(self._numbers[len(answers)], why)
        yield from _Worker(self._seed, self._numbers[len(answers) + 1 :], self._plans).outcomes()


def main() -> int:
    """Run the command; 1 where netaudit did something that it never may."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=2000, help="spoilt plans [2000]")
    parser.add_argument("--first", type=int, default=0, help="number of the first one [0]")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2, help="processes at once [2]")
    parser.add_argument("--keep", type=Path, metavar="FOLDER", help="write each plan that is answered badly there")
    options = parser.parse_args()
    plans = good_plans()
    counts: Counter[str] = Counter()
    numbers = range(options.first, options.first + options.count)
    for outcome in attack(options.seed, numbers, plans, options.jobs):
        counts["faulty" if outcome.faulty else outcome.answer] += 1
        if outcome.faulty:
            print(f"{options.seed}/{outcome.number}: {outcome.answer}", flush=True)
            if options.keep:
                options.keep.mkdir(parents=True, exist_ok=True)
                file = options.keep / f"{options.seed}-{outcome.number}.yaml"
                file.write_bytes(spoilt(plans, options.seed, outcome.number))
    print(f"{counts['judged']} judged, {counts['refused']} refused, {counts['faulty']} answered badly")
    return 1 if counts["faulty"] else 0


if __name__ == "__main__":
    sys.exit(main())
