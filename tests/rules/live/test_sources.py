"""The sources that live rules share: what was seen may fail a probe, custom may only warn."""

from __future__ import annotations

from netaudit.citation import OBSERVED
from netaudit.rules.live.sources import PRACTICE, observed, practice


def test_what_was_seen_may_fail_and_custom_may_not() -> None:
    assert (OBSERVED,) == observed()
    assert (PRACTICE, OBSERVED) == practice()
    assert (True, False) == (OBSERVED.may_fail, PRACTICE.may_fail)
