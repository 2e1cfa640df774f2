"""Once: what several rules ask of a plan is worked out when the first of them asks, and kept as long as its facts."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar
from weakref import WeakKeyDictionary

from netaudit.rules.facts import Facts, FreePorts

Answer = TypeVar("Answer")


def once(ask: Callable[[Facts], Answer]) -> Callable[[Facts], Answer]:
    """A function of facts that works once for each and forgets with them.

    It goes by the free ports, of which each facts has its own: a named tuple cannot be referred to weakly.
    """
    answers: WeakKeyDictionary[FreePorts, Answer] = WeakKeyDictionary()

    @wraps(ask)
    def answer(facts: Facts) -> Answer:
        if facts.free not in answers:
            answers[facts.free] = ask(facts)
        return answers[facts.free]

    return answer
