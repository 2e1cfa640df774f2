"""An example of each rule: a small plan in which it strikes, with the change that cures it noted beside the fault."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

FOLDER = Path(__file__).parent / "example_plans"
_INSTEAD = re.compile(r"(?P<line>.*?) *# good: (?P<good>.+) instead of (?P<bad>.+)")
_WITHOUT = re.compile(r"(?P<line>.*?) *# good: without (?P<bad>.+)")


class Example(NamedTuple):
    """A plan in which one rule strikes."""

    text: str
    """The faulty plan as written, with a comment `# good: X instead of Y` or `# good: without Y` where it is cured."""
    cured: str
    """The same plan with those changes made."""


def example_of(rule: str) -> Example:
    """The example of a rule by its name; ValueError where a comment names something that its line does not hold."""
    text = (FOLDER / f"{rule}.yaml").read_text(encoding="utf-8")
    return Example(text, "".join(_cured(line) for line in text.splitlines(keepends=True)))


def _cured(line: str) -> str:
    changed = _INSTEAD.fullmatch(line.rstrip("\n")) or _WITHOUT.fullmatch(line.rstrip("\n"))
    if changed is None:
        return line
    if changed["bad"] not in changed["line"]:
        raise ValueError(f"no {changed['bad']!r} in: {line}")
    return f"{changed['line'].replace(changed['bad'], changed.groupdict().get('good', ''))}\n"
