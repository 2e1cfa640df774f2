"""YAML as a person would lay it out: short mappings on one line, quotes only where they are needed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from textwrap import wrap
from types import MappingProxyType
from typing import TypeAlias

from netaudit.plan.scalars.text import printable

Node: TypeAlias = str | bool | Mapping[str, "Node"] | Sequence["Node"]
Comments: TypeAlias = Mapping[tuple[str, ...], str]
"""What to say above an entry, by the keys that lead to it: `()` is the document, `(section,)` or `(section, item)`;
each line of a text is a paragraph."""
NO_COMMENTS: Comments = MappingProxyType({})

WIDEST = 120
"""Characters of a line past which a mapping or list is spread over several."""
_STEP = 2
_PLAIN = re.compile(r"(?:[\w/.+(]|-(?=\w))(?:[\w/.+()°%×='*&-]| (?=[^ #:])|:(?=\w))*(?<! )")
_OTHER_READERS_GUESS = frozenset({"y", "n", "yes", "no", "on", "off", "true", "false", "null"})
_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t"}


def document(sections: Mapping[str, Node], comments: Comments = NO_COMMENTS) -> str:
    """A whole document; each mapping or list at the top stands apart from what is above it."""
    lines = list(_comment(comments.get((), ""), 0))
    if lines:
        lines.append("")
    for key, node in sections.items():
        above = _comment(comments.get((key,), ""), 0)
        if isinstance(node, str | bool) or not node:
            lines += [*above, *_entry(f"{_scalar(key)}:", node, 0)]
        else:
            lines += ["", *above, f"{_scalar(key)}:", *_section(key, node, comments)]
    return "\n".join(lines) + "\n"


def _section(key: str, node: Mapping[str, Node] | Sequence[Node], comments: Comments) -> Iterator[str]:
    """The lines of a section; an item with a comment above it stands apart from the one before."""
    if not isinstance(node, Mapping):
        yield from _block(node, _STEP)
        return
    for nth, (item, value) in enumerate(node.items()):
        comment = list(_comment(comments.get((key, item), ""), _STEP))
        if comment and nth:
            yield ""
        yield from comment
        yield from _block({item: value}, _STEP)


def _comment(text: str, indent: int) -> Iterator[str]:
    """The lines of a comment, what does not print escaped."""
    opening = " " * indent + "# "
    for paragraph in text.splitlines():
        lines = wrap(printable(paragraph), WIDEST - len(opening), break_on_hyphens=False)
        yield from (opening + line for line in lines)


def _block(node: Mapping[str, Node] | Sequence[Node], indent: int) -> Iterator[str]:
    """The lines of a mapping or list, an entry to a line where it fits."""
    pad = " " * indent
    if isinstance(node, Mapping):
        for key, value in node.items():
            yield from _entry(f"{pad}{_scalar(key)}:", value, indent)
        return
    for item in node:
        line = f"{pad}- {_flow(item)}"
        if isinstance(item, str | bool) or _fits(line, item):
            yield line
        else:
            first, *others = _block(item, indent + _STEP)
            yield f"{pad}- {first.lstrip()}"
            yield from others


def _entry(key: str, value: Node, indent: int) -> Iterator[str]:
    if isinstance(value, str) and _stands_as_lines(value):
        yield f"{key} |-"
        yield from (f"{' ' * (indent + _STEP)}{line}".rstrip() for line in value.split("\n"))
        return
    line = f"{key} {_flow(value)}"
    if isinstance(value, str | bool) or _fits(line, value):
        yield line
    else:
        yield key
        yield from _block(value, indent + _STEP)


def _fits(line: str, node: Node) -> bool:
    return not node or (len(line) <= WIDEST and not _crowded(node))


def _crowded(node: Node) -> bool:
    """Whether a mapping holds, at any depth, several mappings by name: those read best one to a line."""
    if not isinstance(node, Mapping):
        return False
    by_name = len(node) > 1 and all(isinstance(value, Mapping) for value in node.values())
    return by_name or any(_crowded(value) for value in node.values())


def _stands_as_lines(text: str) -> bool:
    lines = text.split("\n")
    return len(lines) > 1 and all(lines[end] for end in (0, -1)) and all(
        line.isprintable() and line == line.strip() for line in lines
    )  # fmt: skip


def _flow(node: Node) -> str:
    if isinstance(node, bool):
        return "true" if node else "false"
    if isinstance(node, str):
        return _scalar(node)
    if isinstance(node, Mapping):
        return "{" + ", ".join(f"{_scalar(key)}: {_flow(value)}" for key, value in node.items()) + "}"
    return "[" + ", ".join(_flow(item) for item in node) + "]"


def _scalar(text: str) -> str:
    if _PLAIN.fullmatch(text) and text.isprintable() and text.casefold() not in _OTHER_READERS_GUESS:
        return text
    return '"' + "".join(_escaped(character) for character in text) + '"'


def _escaped(character: str) -> str:
    if character in _ESCAPES:
        return _ESCAPES[character]
    if character.isprintable():
        return character
    code = ord(character)
    return f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"
