"""The import table as data, and the tests that hold every file to it."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "netaudit"

ROOMS: Mapping[str, frozenset[str]] = {
    room: frozenset(allowed.split())
    for room, allowed in {
        "errors": "",
        "units": "",
        "listing": "",
        "citation": "",
        "model": "errors units citation listing",
        "standards": "model errors units citation listing",
        "plan": "model standards errors units listing",
        "machine": "model errors units listing",
        "calculations": "model standards errors units listing",
        "network": "model standards calculations errors units listing",
        "rules": "model standards calculations network errors citation units listing",
        "ordering": "model standards calculations network errors units listing",
        "probing": "model machine standards errors units listing",
        "pictures": "model network calculations units listing",
        "report": "model units citation listing",
        "audit": "rules network calculations model errors listing",
        "diagnosis": "rules network calculations model errors listing",
        "advice": "audit network standards calculations model errors units listing",
    }.items()
}
"""What each room may import beside itself and the standard library."""

TOP: frozenset[str] = frozenset({"cli", "__init__", "__main__"})
"""The rooms above all others: they may import every room, and no room may import them."""

FENCES: Mapping[str, tuple[str, ...]] = {
    "networkx": ("network", "calculations"),
    "yaml": ("plan.reading",),
    "pydantic": ("plan",),
    "pydantic_core": ("plan",),
    "rich": ("report", "cli"),
    "click": ("cli",),
    "jinja2": ("report",),
    "xlsxwriter": ("report",),
    "highspy": ("calculations.cutting",),
    "numpy": ("calculations.cutting",),
    "psutil": ("machine",),
    "scapy": ("machine",),
    "ifaddr": ("machine",),
    "netifaces": ("machine",),
    "smbprotocol": ("machine",),
    "zeroconf": ("machine",),
    "socket": ("machine",),
    "subprocess": ("machine",),
    "ctypes": ("machine",),
    "fcntl": ("machine",),
    "select": ("machine",),
    "selectors": ("machine",),
    "platform": ("machine",),
    "time": ("machine.clock",),
    "sched": ("machine.clock",),
}
"""Libraries, and calls on the clock or the operating system, to the only modules that may hold them."""

SHARED: Mapping[str, frozenset[str]] = {
    "rules": frozenset(
        {"rule", "facts", "situation", "counted", "sent", "gaps", "hosts", "optics", "remedies", "words"}
    ),
    "report": frozenset({"words", "values", "columns", "goods_words", "goods_values"}),
}
"""Rooms whose families are siblings that do not know one another, to what the siblings share; a family is a file or a
folder of them."""

LISTS: frozenset[str] = frozenset({"__init__", "catalogue"})
"""Files that only list their siblings, and so must know them."""

SYSTEMS: frozenset[str] = frozenset({"linux", "macos", "windows"})
"""Siblings in the room `machine`; everything else there they may share."""


def module_name(path: Path) -> str:
    """The name of a file below the package: `rules.cabling`, `plan.__init__`, `audit`."""
    return ".".join(path.with_suffix("").parts)


def sources() -> dict[str, str]:
    """Every module of the package to its text."""
    return {
        module_name(path.relative_to(PACKAGE)): path.read_text(encoding="utf-8")
        for path in sorted(PACKAGE.rglob("*.py"))
    }


def imported_names(module: str, tree: ast.Module) -> Iterator[str]:
    """Full dotted names that a module imports, wherever in the file the import stands."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = absolute_base(module, node)
            yield from (f"{base}.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.Call):
            yield from called_import(node)


def absolute_base(module: str, node: ast.ImportFrom) -> str:
    """The package or module that a `from` names, dots resolved."""
    if not node.level:
        return node.module or ""
    parents = ["netaudit", *module.split(".")][: -node.level]
    return ".".join([*parents, *filter(None, [node.module])])


def called_import(node: ast.Call) -> Iterator[str]:
    """The name given to `import_module` or `__import__` where it is written out."""
    called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", None)
    if called in ("import_module", "__import__") and node.args and isinstance(node.args[0], ast.Constant):
        yield str(node.args[0].value)


def own_module(name: str, known: frozenset[str]) -> str:
    """The module of this package that a full dotted name reaches into."""
    parts = name.split(".")[1:]
    for length in range(len(parts), 0, -1):
        candidate = ".".join(parts[:length])
        if candidate in known:
            return candidate
        if f"{candidate}.__init__" in known:
            return f"{candidate}.__init__"
    return "__init__"


def violations(texts: Mapping[str, str]) -> list[str]:
    """Every breach of the table in a set of modules, a sentence each."""
    known = frozenset(texts)
    trees = {module: ast.parse(text) for module, text in texts.items()}
    found: list[str] = []
    graph: dict[str, set[str]] = {}
    for module, tree in trees.items():
        names = set(imported_names(module, tree))
        own = {own_module(name, known) for name in names if name.split(".")[0] == "netaudit"}
        outside = {name.split(".")[0] for name in names} - {"netaudit"}
        graph[module] = own - {module}
        found += caption_faults(module, tree)
        found += room_faults(module, own)
        found += sibling_faults(module, own)
        found += fence_faults(module, outside)
    return [*found, *circle_faults(graph)]


def caption_faults(module: str, tree: ast.Module) -> Iterator[str]:
    """A file whose first line is not its caption."""
    caption = ast.get_docstring(tree, clean=False)
    if caption is None or tree.body[0].lineno != 1 or not caption.split("\n")[0].strip():
        yield f"{module}: the first line is not a caption docstring"


def room_faults(module: str, imported: set[str]) -> Iterator[str]:
    """A room that is not in the table, or imports what the table does not give it."""
    room = module.partition(".")[0]
    if room in TOP:
        return
    if room not in ROOMS:
        yield f"{module}: room {room} is not in the table"
        return
    for other in sorted(imported):
        if other.split(".")[0] not in ROOMS[room] | {room}:
            yield f"{module}: imports {other}"


def sibling_faults(module: str, imported: set[str]) -> Iterator[str]:
    """A rule family, a report form or a system that knows its sibling."""
    room, *rest = module.split(".")
    if rest and rest[-1] in LISTS:
        return
    for other in sorted(imported):
        other_room, *other_rest = other.split(".")
        if other_room != room or other == module or not other_rest:
            continue
        if room in SHARED and other_rest[0] not in SHARED[room] | {rest[0]}:
            yield f"{module}: imports its sibling {other}"
        if room == "machine" and {rest[0], other_rest[0]} <= SYSTEMS and rest[0] != other_rest[0]:
            yield f"{module}: imports its sibling {other}"


def fence_faults(module: str, outside: set[str]) -> Iterator[str]:
    """A library outside its fence, or without one."""
    for library in sorted(outside):
        if library not in FENCES:
            if library not in sys.stdlib_module_names:
                yield f"{module}: library {library} has no fence"
        elif not any(module == place or module.startswith(f"{place}.") for place in FENCES[library]):
            yield f"{module}: library {library} is outside its fence"


def circle_faults(graph: Mapping[str, set[str]]) -> Iterator[str]:
    """Modules that import one another in a circle."""
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        yield f"circle: {' <- '.join(error.args[1])}"


def captioned(texts: Mapping[str, str]) -> dict[str, str]:
    """The texts with a caption above each."""
    return {module: f'"""A caption."""\n{text}' for module, text in texts.items()}


NEIGHBOURS = dict.fromkeys(
    (
        "__init__", "audit", "cli.main", "machine.parse", "machine.windows", "network.paths", "plan.read",
        "report.json", "report.words", "rules.cabling", "rules.facts", "rules.rule",
    ),
    "",
)  # fmt: skip
"""Empty modules that the planted ones may import."""


def test_the_package_keeps_to_the_table() -> None:
    assert not violations(sources())


@pytest.mark.parametrize(
    ("module", "text", "breach"),
    [
        ("model.plan", "import netaudit.plan.read", "imports plan.read"),
        ("model.plan", "from netaudit.plan import read", "imports plan.read"),
        ("model.plan", "from netaudit.plan.read import load", "imports plan.read"),
        ("model.plan", "from ..plan import read", "imports plan.read"),
        ("model.plan", "from netaudit import load", "imports __init__"),
        ("model.plan", "def late():\n    import netaudit.plan.read", "imports plan.read"),
        ("model.plan", "if TYPE_CHECKING:\n    import netaudit.plan.read", "imports plan.read"),
        ("model.plan", "importlib.import_module('netaudit.plan.read')", "imports plan.read"),
        ("report.console", "import netaudit.rules.cabling", "imports rules.cabling"),
        ("report.console", "from netaudit.network import paths", "imports network.paths"),
        ("report.console", "from netaudit.report import json", "imports its sibling report.json"),
        ("report.console", "from . import json", "imports its sibling report.json"),
        ("rules.ports", "from netaudit.rules.cabling.twisted_pair import X", "imports its sibling rules.cabling"),
        ("rules.remedies", "from netaudit.rules.cabling.twisted_pair import X", "imports its sibling rules.cabling"),
        ("rules.live.link", "import netaudit.cli.main", "imports cli.main"),
        ("machine.macos", "from netaudit.machine import windows", "imports its sibling machine.windows"),
        ("pantry.jar", "", "room pantry is not in the table"),
        ("plan.shape", "import yaml", "library yaml is outside its fence"),
        ("plan.read", "import networkx.algorithms", "library networkx is outside its fence"),
        ("audit", "from time import monotonic", "library time is outside its fence"),
        ("cli.main", "import yaml", "library yaml is outside its fence"),
        ("units", "import numpy", "library numpy is outside its fence"),
        ("units", "import sympy", "library sympy has no fence"),
    ],
)
def test_a_planted_breach_is_caught(module: str, text: str, breach: str) -> None:
    expected = [f"{module}: {breach}"]

    assert expected == violations(captioned(NEIGHBOURS | {module: text}))


def test_a_planted_circle_is_caught() -> None:
    one, other = "import netaudit.network.tree", "def late():\n    from netaudit.network import paths"
    expected = ["circle: network.paths <- network.tree <- network.paths"]

    assert expected == violations(captioned({"network.paths": one, "network.tree": other}))


@pytest.mark.parametrize("text", ["", "import ast", '# a remark\n"""Too late."""', '"""\nBelow the first line."""'])
def test_a_file_without_a_caption_is_caught(text: str) -> None:
    expected = ["units: the first line is not a caption docstring"]

    assert expected == violations({"units": text})


@pytest.mark.parametrize(
    ("module", "text"),
    [
        ("rules.ports", "from netaudit.rules.rule import Rule\nfrom netaudit.rules.facts import Facts"),
        ("rules.catalogue", "from netaudit.rules.cabling.twisted_pair import RULE"),
        ("report.__init__", "from netaudit.report import json"),
        ("report.csv", "from netaudit.report.words import plural\nimport csv"),
        ("machine.macos", "from netaudit.machine.parse import route\nimport socket"),
        ("cli.check", "from netaudit.audit import check\nimport click"),
        ("plan.reading.read", "import yaml"),
    ],
)
def test_what_the_table_allows_passes(module: str, text: str) -> None:
    assert not violations(captioned(NEIGHBOURS | {module: text}))


def test_importing_the_package_imports_nothing_else() -> None:
    code = "import sys; before = set(sys.modules); import netaudit; print(*sorted(set(sys.modules) - before))"
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    foreign = [name for name in shown.split() if name.partition(".")[0] not in sys.stdlib_module_names]
    expected = ["netaudit"]

    assert expected == foreign
