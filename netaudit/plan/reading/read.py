"""From bytes to the raw tree, through the YAML parser's events, and every error of the YAML itself."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import Any, NamedTuple

import yaml
from yaml.error import MarkedYAMLError
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)
from yaml.reader import ReaderError

from netaudit.plan.reading.anchors import Anchors, path_of
from netaudit.plan.reading.problems import Problems
from netaudit.plan.reading.raw import DEEPEST, Document, Mapping, Positions, Sequence
from netaudit.plan.reading.syntax import TAB_MESSAGE, indents_with_tab, syntax_message, unreadable_character
from netaudit.plan.scalars.text import path_part, quoted

LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""The parser; the one written in C where PyYAML was built with it."""
MOST_EVENTS = 5_000_000
"""Parser events of one file, about one for each key and value."""

_STARTS = frozenset({MappingStartEvent, SequenceStartEvent})
_ENDS = frozenset({MappingEndEvent, SequenceEndEvent})


class Contents(NamedTuple):
    """What a file is meant to hold."""

    noun: str
    """What it is, with its article: a plan."""
    opening: str
    """How it begins, as a message shows it."""


A_PLAN = Contents("a plan", "'netaudit: 1'")


def read(text: str, problems: Problems, wanted: Contents = A_PLAN) -> Document:
    """The raw tree of one YAML document; `wanted` says what it is meant to hold.

    Problems that leave the rest readable are noted; raises StoppedError for the others.
    """
    problems.positions = Positions(text)
    loader = None
    try:
        loader = LOADER(text)
        return _document(islice(iter(loader.get_event, None), MOST_EVENTS), problems, wanted)
    except ReaderError:
        problems.stop_alone(*unreadable_character(text))
    except MarkedYAMLError as error:
        problems.stop_alone(*_syntax_error(error, text))
    finally:
        if loader is not None:
            loader.dispose()


def _syntax_error(error: MarkedYAMLError, text: str) -> tuple[int, str]:
    """The character at which the parser gave up, and what to say."""
    gave_up = error.problem_mark or error.context_mark
    index = min(gave_up.index, len(text)) if gave_up else 0
    if indents_with_tab(text, index):
        return index, TAB_MESSAGE
    begun = error.context_mark if error.context_mark is not error.problem_mark else None
    return index, syntax_message(error.problem or "", error.context or "", begun.line + 1 if begun else None)


def _document(events: Iterator[Any], problems: Problems, wanted: Contents) -> Document:
    next(events)
    if next(events).__class__ is not DocumentStartEvent:
        problems.stop(0, f"the file is empty: {wanted.noun} begins with {wanted.opening}")
    first = next(events)
    if first.__class__ is not MappingStartEvent:
        found = "a list" if first.__class__ is SequenceStartEvent else "a text"
        problems.stop(_index(first), f"{wanted.noun} is a mapping that begins with {wanted.opening}, not {found}")
    root = _tree(first, events, problems)
    if root is None:
        problems.stop(0, f"the file holds more than {MOST_EVENTS} values: divide the plan")
    next(events, None)
    after = next(events, None)
    if after.__class__ is DocumentStartEvent:
        problems.stop(_index(after), "a second document begins here: keep one plan to a file")
    return Document(root, _index(first))


def _tree(  # noqa: C901, PLR0912 - one loop over every value of the plan; a call for each would cost a third
    first: Any, events: Iterator[Any], problems: Problems
) -> Mapping | None:
    """The top mapping, once its end has come; None where the events run out before."""
    anchors = Anchors(problems)
    root = Mapping()
    anchors.note(first, root, (), None)
    current: Any = root
    above: list[Any] = []
    in_mapping, key = True, None
    for event in events:
        kind = event.__class__
        if kind is ScalarEvent:
            value: Any = event.value
        elif kind is MappingStartEvent:
            value = Mapping()
        elif kind is SequenceStartEvent:
            value = Sequence()
        elif kind is AliasEvent:
            value = anchors.value(event, (*above, current), key)
        elif above:
            current = above.pop()
            in_mapping = current.__class__ is Mapping
            continue
        else:
            return root
        if kind is not AliasEvent and (event.anchor is not None or event.tag is not None):
            anchors.note(event, value, (*above, current), key)
        index = event.start_mark.index
        if not in_mapping:
            current.append(value)
        elif key is not None:
            current[key] = value
            key = None
        elif kind is ScalarEvent and value not in current and (value != "<<" or not event.implicit[0]):
            key = value
        else:
            _refuse_key(event, value, (*above, current), problems)
            if kind in _STARTS:
                _skip_rest(events)
            _skip_value(events)
            continue
        current.marks.append(index)
        if kind in _STARTS:
            above.append(current)
            if len(above) >= DEEPEST:
                problems.stop(index, f"more than {DEEPEST} mappings and lists stand within each other here")
            current, in_mapping = value, kind is MappingStartEvent
    return None


def _refuse_key(event: Any, value: Any, containers: tuple[Any, ...], problems: Problems) -> None:
    index, current, path = _index(event), containers[-1], path_of(containers)
    if event.__class__ is not ScalarEvent:
        problems.add(index, path, "a key is a plain text: write it out, not as a list, a mapping or an alias")
    elif value in current:
        line = problems.positions.at(current.marks[2 * current.place(value)]).line
        message = f"{quoted(value)} is given twice, the first time in line {line}: keep one of them"
        problems.add(index, (*path, path_part(value)), message)
    else:
        problems.add(index, path, "the merge key '<<' is not read: write the keys out")


def _skip_value(events: Iterator[Any]) -> None:
    """Pass over one whole value."""
    if next(events, None).__class__ in _STARTS:
        _skip_rest(events)


def _skip_rest(events: Iterator[Any]) -> None:
    """Pass over what is left of a mapping or a list that has just begun."""
    levels = 1
    for event in events:
        kind = event.__class__
        levels += (kind in _STARTS) - (kind in _ENDS)
        if levels == 0:
            return


def _index(event: Any) -> int:
    return int(event.start_mark.index)
