"""What the YAML parser stumbles over, in our own words."""

from __future__ import annotations

import re

from netaudit.plan.reading.raw import DEEPEST
from netaudit.plan.scalars.text import printable

_UNREADABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What YAML 1.1, production [1] c-printable, shuts out."""

TAB_MESSAGE = "this is not YAML: a tab indents this line: write spaces instead of tabs"

_REMEDIES = {
    "\\t": "write spaces instead of tabs",
    "mapping values are not allowed": "put a text that holds ': ' in quotes, and check the indentation",
    "could not find expected ':'": "a key is followed by ': '; check the line above too",
    "expected ',' or '}'": "close the mapping with }, and part its keys with commas",
    "expected ',' or ']'": "close the list with ], and part its items with commas",
    "expected <block end>": "check the indentation: keys of one mapping begin in one column",
    "expected key": "check the indentation: keys of one mapping begin in one column",
    "cannot start any token": "put the text in quotes",
    "quoted scalar": "close the quotes",
    "exceeded maximum nesting depth": f"at most {DEEPEST} mappings and lists may stand within each other",
}
"""Part of the parser's words to what is to be done."""


def unreadable_character(text: str) -> tuple[int, str]:
    """The first character that no YAML file may hold, and what to say of it."""
    odd = _UNREADABLE.search(text)
    if odd is None:
        return 0, "a character may not stand in a YAML file: leave it out"
    return odd.start(), f"the character U+{ord(odd[0]):04X} may not stand in a YAML file: leave it out"


def indents_with_tab(text: str, index: int) -> bool:
    """Whether a character is a tab with nothing but blanks before it in its line."""
    line_start = max(text.rfind("\n", 0, index), text.rfind("\r", 0, index)) + 1
    return text[index : index + 1] == "\t" and not text[line_start:index].strip()


def syntax_message(problem: str, context: str, begun_in_line: int | None) -> str:
    """What to say of an error of the parser, and what to do about it.

    `context` is what the parser was at, which began in that line where it was not the same.
    """
    since = "" if begun_in_line is None else f" that begins in line {begun_in_line}"
    told = ", ".join(part for part in (f"{context}{since}" if context else "", problem) if part)
    shown = printable(told)
    remedy = next((remedy for words, remedy in _REMEDIES.items() if words in shown), None)
    return f"this is not YAML: {shown}" + (f": {remedy}" if remedy else "")
