"""What is doubtful about labels: equal texts, texts that name only one end, texts too long to be read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from netaudit.listing import first_few
from netaudit.model.moving import Label
from netaudit.ordering.day.label_pattern import MOST_TOLD, quoted
from netaudit.ordering.day.whole_names import names_all

LONGEST_TEXT = 60
"""Characters that still print large enough to be read on a cable: common practice, no source."""


def label_remarks(labels: Sequence[Label]) -> tuple[str, ...]:
    """What is doubtful about labels, a sentence each: equal texts, texts that name only one end, very long ones."""
    return (*_equal(labels), *_one_sided(labels), *_long(labels))


def _equal(labels: Iterable[Label]) -> Iterator[str]:
    """Texts that stand at more than one end."""
    ends: dict[str, list[Label]] = {}
    for label in labels:
        ends.setdefault(label.text, []).append(label)
    shared = [(text, group) for text, group in ends.items() if len(group) > 1]
    for text, group in shared[:MOST_TOLD]:
        told = first_few([f"{label.cable} at {label.port}" for label in group], MOST_TOLD)
        yield f"The label {quoted(text)} stands at {len(group)} ends: {told}; add {{near}} to tell them apart."
    if len(shared) > MOST_TOLD:
        yield f"{len(shared) - MOST_TOLD} more labels stand at several ends each; add {{near}} to tell them apart."


def _one_sided(labels: Iterable[Label]) -> Iterator[str]:
    """Texts that do not name both ends as device/port."""
    found = [label for label in labels if not names_all(label.text, map(str, (label.port, *label.far)))]
    if found:
        first = found[0]
        yield (
            f"{len(found)} {'label does' if len(found) == 1 else 'labels do'} not name both ends as device/port, the "
            f"first being {quoted(first.text)} of {first.cable} at {first.port}: put {{near}} and {{far}} into the "
            "pattern, or whoever holds one end has to look up the other."
        )


def _long(labels: Iterable[Label]) -> Iterator[str]:
    """Texts so long that they print small."""
    found = [label for label in labels if len(label.text) > LONGEST_TEXT]
    if found:
        longest = max(found, key=lambda label: len(label.text))
        yield (
            f"{len(found)} {'label is' if len(found) == 1 else 'labels are'} longer than {LONGEST_TEXT} characters and "
            f"will be small in print; the longest, of {longest.cable} at {longest.port}, has {len(longest.text)}."
        )
