"""An example of each live rule: a desk in order, and one change to it with the sentence that tells the story."""

from __future__ import annotations

from typing import NamedTuple

from netaudit.model.expectation import Expectation
from netaudit.model.observation import Observation
from netaudit.rules.live.desk import EXPECTED, SEEN
from netaudit.rules.live.examples_links import LINKS
from netaudit.rules.live.examples_roads import ROADS
from netaudit.rules.live.examples_storage import STORAGE

_CHANGES = {**ROADS, **LINKS, **STORAGE}


class LiveExample(NamedTuple):
    """A desk at which one rule strikes."""

    story: str
    """What is wrong there, in a sentence."""
    seen: Observation
    expected: Expectation


def healthy() -> tuple[Observation, Expectation]:
    """The desk in order."""
    return SEEN, EXPECTED


def example_of(rule: str) -> LiveExample:
    """The example of a live rule by its name; KeyError where it has none."""
    story, change = _CHANGES[rule]
    return LiveExample(story, change(), EXPECTED)
