"""The examples on the storage: everything near is in order, and the far end is not."""

from __future__ import annotations

import pytest
from deskwork import situation

from netaudit.rules.live.desk import SEEN
from netaudit.rules.live.examples_storage import STORAGE


@pytest.mark.parametrize("rule", STORAGE)
def test_this_machine_is_the_desk_in_order(rule: str) -> None:
    _, change = STORAGE[rule]
    seen = change()

    assert (SEEN.interfaces, SEEN.moved) == (seen.interfaces, seen.moved)
    assert ("en5",) == situation(seen).used_names
