"""Numbers kept on one line with their units."""

from __future__ import annotations

import pytest

from netaudit.report.bill.unbroken import unbroken


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("6A 5 m", "6A 5\u00a0m"),
        ("cord 6A, 26 AWG, 0.5 m", "cord 6A, 26\u00a0AWG, 0.5\u00a0m"),
        ("304.8 m (1000 ft)", "304.8\u00a0m (1000\u00a0ft)"),
        ("10 Gb/s (1250 MB/s)", "10\u00a0Gb/s (1250\u00a0MB/s)"),
        ("941 b/s and 8 kb/s", "941\u00a0b/s and 8\u00a0kb/s"),
        ("room 5 meeting", "room 5 meeting"),
        ("C 5 mouse, m 5", "C 5 mouse, m 5"),
        ("a m", "a m"),
    ],
)
def test_only_a_blank_between_a_number_and_its_unit_is_kept_together(text: str, expected: str) -> None:
    assert expected == unbroken(text)
