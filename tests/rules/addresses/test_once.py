"""Once: worked out once for the same facts, anew for others, and forgotten with them."""

from __future__ import annotations

import gc
from weakref import ref

from wiring import seat, switch, wired

from netaudit.rules.addresses.book import book_of
from netaudit.rules.addresses.once import once
from netaudit.rules.facts import Facts, build_facts


def test_the_same_facts_are_asked_once_and_others_anew() -> None:
    asked: list[Facts] = []

    @once
    def count(facts: Facts) -> int:
        """How often."""
        asked.append(facts)
        return len(asked)

    one, other = build_facts(wired(seat("cut-1"))), build_facts(wired(seat("cut-1")))

    assert [1, 1, 2, 1] == [count(one), count(one), count(other), count(one)]
    assert ("count", "How often.") == (count.__name__, count.__doc__)


def test_what_was_kept_goes_with_its_facts() -> None:
    facts = build_facts(wired(switch("core")))
    book = ref(book_of(facts))
    assert book() is book_of(facts)

    del facts
    gc.collect()

    assert book() is None
