"""Reports as values."""

from __future__ import annotations

import pytest
from rooms import report_of, room


@pytest.mark.parametrize(
    ("text", "verdict", "code"),
    [(room(), "pass", 0), (room(None), "incomplete", 0), (room(wall="5e"), "fail", 1)],
    ids=["good", "open", "slow"],
)
def test_only_a_failure_gives_exit_code_1(text: str, verdict: str, code: int) -> None:
    report = report_of(text)

    assert (verdict, code) == (report.summary.verdict, report.exit_code)
