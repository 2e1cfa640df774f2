"""Speed and memory, each measured side by side with a yardstick in one run: `python tests/benchmarks/run.py`.

Seconds depend on the machine; ratios hardly do. Every figure is the median of pairs that were run in turn.
"""

from __future__ import annotations

import argparse
import compileall
import json
import math
import os
import random
import shutil
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from campus import write_campus

import netaudit

Command = Sequence[str | Path]

TOPOLOGIES = Path(__file__).parents[2] / "topologies"
NETAUDIT = Path(sys.executable).with_name("netaudit")
PUBLISHED = Path(__file__).parents[1] / "calculations" / "cutting" / "falkenauer_u120_00.txt"
"""Falkenauer's instance u120_00, whose fewest boxes are 48; its source stands beside it."""
BILLED_STATIONS = 3_300
"""Stations with about 12,000 cables."""
YAML_LOAD_LIMITS = {10_000: 1.0, 1_000: 2.0}
"""Stations to how many times as long as a bare load of the file a check may take; start-up weighs more in a small one."""
MAXRSS_BYTES = 1 if sys.platform == "darwin" else 1024
"""Unit of the peak memory that the system reports [byte]."""


@dataclass(frozen=True)
class Run:
    """One whole process."""

    seconds: float
    """From before its start until after its end [s]."""
    peak_bytes: int
    """Most memory it held [byte]."""


@dataclass(frozen=True)
class Row:
    """One line of the table."""

    what: str
    detail: str
    figure: float
    limit: float
    unit: str = ""

    @property
    def kept(self) -> bool:
        """Whether the figure is within its limit."""
        return self.figure <= self.limit


def run(command: Command) -> Run:
    """Run a command with its output thrown away."""
    start = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    seconds = time.perf_counter() - start
    child.returncode = os.waitstatus_to_exitcode(status)
    return Run(seconds, usage.ru_maxrss * MAXRSS_BYTES)


def prove(command: Command) -> None:
    """Run a command once, which also warms the caches, and stop unless it does its work: a crash is fast.

    Raises:
        SystemExit: it came to no verdict.
    """
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1) or "Traceback" in done.stderr:
        sys.exit(f"{' '.join(map(str, command))} gave exit code {done.returncode}:\n{done.stderr}")


def in_turn(commands: Sequence[Command], times: int) -> list[list[Run]]:
    """Run commands in turn a number of times: the runs of each."""
    for command in commands:
        prove(command)
    rounds = [[run(command) for command in commands] for _ in range(times)]
    return [list(runs) for runs in zip(*rounds, strict=True)]


def median_s(runs: Sequence[Run]) -> float:
    """The median time [s]."""
    return statistics.median(one.seconds for one in runs)


def ratio_row(what: str, limit: float, ours: Sequence[Run], yardstick: Sequence[Run]) -> Row:
    """How many times as long as its yardstick something takes: the median over the pairs."""
    ratio = statistics.median(one.seconds / other.seconds for one, other in zip(ours, yardstick, strict=True))
    return Row(what, f"{median_s(ours) * 1e3:.0f} ms against {median_s(yardstick) * 1e3:.0f} ms", ratio, limit)


def python(code: str, *arguments: Path) -> Command:
    """A command that runs a line of Python, as the yardstick."""
    return [sys.executable, "-c", code, *arguments]


def check(plan: Path) -> Command:
    """The command that judges a plan, as a user gives it."""
    return [NETAUDIT, "check", plan]


def cables(plan: Path) -> list[str | Path]:
    """The command that lists what a plan needs."""
    return [NETAUDIT, "cables", plan]


def campus_rows(folder: Path, stations: int, pairs: int) -> list[Row]:
    """A campus against a bare YAML load of the same file, its memory, and how time grows with its size."""
    large, small = campus(folder, stations), campus(folder, stations // 10)
    load = python("import sys, yaml; yaml.load(open(sys.argv[1]), yaml.CSafeLoader)", large)
    ours, loads = in_turn([check(large), load], pairs)
    start_ups, smalls = in_turn([check(TOPOLOGIES / "three-seats.yaml"), check(small)], pairs)
    start_s, small_s, large_s = median_s(start_ups), median_s(smalls), median_s(ours)
    peak_mb = max(one.peak_bytes for one in ours) / 1e6
    return [
        ratio_row(f"check {stations} stations / YAML load", YAML_LOAD_LIMITS[stations], ours, loads),
        Row("its peak memory", "the most of all runs", peak_mb, 400, " MB"),
        Row(
            f"growth from {stations // 10} stations",
            f"{small_s * 1e3:.0f} ms to {large_s * 1e3:.0f} ms, start-up {start_s * 1e3:.0f} ms",
            growth_exponent(small_s - start_s, large_s - start_s),
            1.1,
        ),
    ]


def bill_rows(folder: Path, pairs: int) -> list[Row]:
    """The bill of about 12,000 cables, a third of them cut from boxes, against the check of the same plan; and proofs."""
    plan = campus(folder, BILLED_STATIONS)
    plan.write_text(plan.read_text(encoding="utf-8").replace(", installed: true", ""), encoding="utf-8")
    billed = in_turn([cables(plan), check(plan)], pairs)
    chance = random.Random(1)  # noqa: S311 - the same runs every time
    cables_m = [length_mm / 1000 for length_mm in chance.sample(range(5_000, 90_000), 120)]
    u120 = [float(word) for word in PUBLISHED.read_text(encoding="utf-8").split()[2:]]
    return [
        ratio_row("cables of 12,000 cables / check of them", 1.5, *billed),
        proof_row(folder, "proof of 120 distinct runs", cables_m, 5.0),
        proof_row(folder, "proof of u120_00", u120, 60.0, "--box", "150 m", "--waste", "0 m"),
    ]


def proof_row(folder: Path, what: str, runs_m: Sequence[float], limit_s: float, *options: str) -> Row:
    """How long a whole bill takes that needs the fewest boxes for some runs.

    Raises:
        SystemExit: it was not proved.
    """
    plan = folder / "walls.yaml"
    plan.write_text(walls(runs_m), encoding="utf-8")
    command = [*cables(plan), "--format", "json", *options]
    (row,) = json.loads(subprocess.run(command, capture_output=True, text=True, check=True).stdout)["bulk"]
    if not row["proved_optimal"]:
        sys.exit(f"{what}: {row['boxes']} boxes are not proved")
    seconds = statistics.median(run(command).seconds for _ in range(3))
    return Row(what, f"a whole process; {row['boxes']} boxes", seconds, limit_s, " s")


def walls(runs_m: Sequence[float]) -> str:
    """A plan of nothing but runs between an outlet and a panel."""
    count = len(runs_m)
    head = (
        "netaudit: 1", "devices:",
        f"  plate: {{role: outlet, ports: {{1-{count}: {{connector: rj45}}}}}}",
        f"  panel: {{role: panel, ports: {{1-{count}: {{connector: rj45}}}}}}",
        "cables:",
    )  # fmt: skip
    runs = (
        f"  W{number}: {{from: plate/{number}, to: panel/{number}, category: 6A, length: {run_m} m}}"
        for number, run_m in enumerate(runs_m, start=1)
    )
    return "\n".join((*head, *runs, ""))


def growth_exponent(small_s: float, large_s: float) -> float:
    """The power of the size with which time grows when the size grows ten times; not a number if it cannot be told."""
    return math.log10(large_s / small_s) if small_s > 0 and large_s > 0 else math.nan


def campus(folder: Path, stations: int) -> Path:
    """A campus plan in a folder."""
    plan = folder / f"campus-{stations}.yaml"
    with plan.open("w", encoding="utf-8") as file:
        write_campus(file, stations)
    return plan


def small_rows(pairs: int) -> list[Row]:
    """What somebody waits for at the desk, against the bare imports it cannot do without."""
    boathouse = in_turn([check(TOPOLOGIES / "boathouse.yaml"), python("import yaml, pydantic, networkx")], pairs)
    helped = in_turn([[NETAUDIT, "--help"], python("import click")], pairs)
    return [
        ratio_row("check boathouse.yaml / its imports", 1.5, *boathouse),
        ratio_row("--help / importing click", 1.3, *helped),
    ]


def first_line(command: Command) -> Run:
    """Run a command until it has said its first line; it is ended then."""
    start = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    with child:
        assert child.stdout is not None
        said = child.stdout.readline()
        seconds = time.perf_counter() - start
        child.kill()
    if not said.strip():
        sys.exit(f"{' '.join(map(str, command))} said nothing")
    return Run(seconds, 0)


def probe_rows(pairs: int) -> list[Row]:
    """The first answer of a probe against the system's own route look-up; and how long a whole one takes."""
    with socket.create_server(("127.0.0.1", 0), backlog=4096) as service:
        port = str(service.getsockname()[1])
        probe = [NETAUDIT, "probe", "127.0.0.1", "--port", port]
        route, click = ["ip", "route", "get", "127.0.0.1"], python("import click")
        prove(probe)
        rounds = [(first_line(probe), run(route), run(click)) for _ in range(pairs)]
        whole = [run(probe) for _ in range(3)]
    yardstick = [Run(routed.seconds + clicked.seconds, 0) for _, routed, clicked in rounds]
    return [
        ratio_row("probe, first line / ip route + click", 2.0, [first for first, _, _ in rounds], yardstick),
        Row("probe of a healthy service", "a whole process, two seconds of them counting", median_s(whole), 4.0, " s"),
    ]


def show(rows: Sequence[Row]) -> None:
    """Print the table."""
    for row in rows:
        figure, limit = f"{row.figure:.2f}{row.unit}", f"{row.limit:g}{row.unit}"
        print(f"{row.what:<40} {figure:>10}  limit {limit:<7} {'kept' if row.kept else 'BROKEN':<7} {row.detail}")


def main() -> int:
    """Measure, print the table, and give 1 if a limit is broken."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pairs", type=int, default=5, metavar="N", help="pairs behind each median (default 5)")
    parser.add_argument("--quick", action="store_true", help="1,000 stations instead of 10,000")
    chosen = parser.parse_args()
    if chosen.pairs < 1:
        parser.error("--pairs: give at least 1")
    compileall.compile_dir(Path(netaudit.__file__).parent, quiet=1)  # as an installer leaves it, like its yardsticks
    with tempfile.TemporaryDirectory() as folder:
        rows = small_rows(chosen.pairs) + campus_rows(Path(folder), 1_000 if chosen.quick else 10_000, chosen.pairs)
        rows += bill_rows(Path(folder), chosen.pairs)
    if shutil.which("ip"):
        rows += probe_rows(chosen.pairs)
    show(rows)
    return 0 if all(row.kept for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main())
