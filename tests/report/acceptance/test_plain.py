"""A filled sheet as plain text."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from netaudit.report.acceptance.plain import NO_LINK_REMEDIES, SLOWER_REMEDIES, plain
from netaudit.rules.live import RULES

Made = Callable[..., Any]


def test_the_answer_stands_first_then_only_what_is_not_as_planned(report: Made, every: Any) -> None:
    remedies = "".join(f"  To do: {remedy}\n" for remedy in (*NO_LINK_REMEDIES, *SLOWER_REMEDIES))
    expected = f"""\
1 of 6 cables runs as planned; 2 fall short, the worst of them: C10 shows no link instead of 10 Gb/s (1250 MB/s); C11 is faster than planned; 1 is not tested; 1 has no planned rate to hold it against.

Boathouse (boathouse.yaml), held against accept.csv

Not as planned
  cable  ends                 planned              seen                 where                          initials  note
  C09    cut-1/wire - core/1  10 Gb/s (1250 MB/s)  1 Gb/s (125 MB/s)    read at cut-1/wire and core/1  MB        a note over\\x1b[31m two lines
  C10    cut-1/wire - core/1  10 Gb/s (1250 MB/s)  no link              read at cut-1/wire and core/1  MB
  C11    cut-1/wire - core/1  1 Gb/s (125 MB/s)    10 Gb/s (1250 MB/s)  read at cut-1/wire and core/1  MB
{remedies}
Not tested
  cable  ends                 planned              where
  C12    cut-1/wire - core/1  10 Gb/s (1250 MB/s)  read at cut-1/wire and core/1

Tested, but the plan has no rate for it
  cable  ends                 planned  seen               where                          initials  note
  C13    cut-1/wire - core/1  none     1 Gb/s (125 MB/s)  read at cut-1/wire and core/1  MB

What else does not agree
  Nobody signed for C01.

7 cables: 1 as expected, 2 slower, 1 faster, 1 not tested, 1 without a planned rate, 1 without a rate to read
"""

    assert expected == plain(report(*every, remarks=("Nobody signed for C01.",)))


def test_what_is_as_planned_has_no_row_and_no_remedy(report: Made, good: Made) -> None:
    expected = """\
All 2 cables run as planned.

Boathouse (boathouse.yaml), held against accept.csv

2 cables: 2 as expected, 0 slower, 0 faster, 0 not tested, 0 without a planned rate, 0 without a rate to read
"""

    assert expected == plain(report(*good(2)))


def test_a_link_without_carrier_has_another_remedy_than_one_that_is_slow(report: Made, made_cable: Made) -> None:
    slow = plain(report(made_cable("C09", "slower", 1_000_000_000)))
    dead = plain(report(made_cable("C09", "slower", 0)))

    assert all(remedy in slow and remedy not in dead for remedy in SLOWER_REMEDIES)
    assert all(remedy in dead and remedy not in slow for remedy in NO_LINK_REMEDIES)


def test_a_link_that_is_faster_than_planned_needs_no_remedy(report: Made, made_cable: Made) -> None:
    assert "To do:" not in plain(report(made_cable("C11", "faster", 10_000_000_000, 1_000_000_000)))


def test_every_rule_that_a_remedy_names_can_be_explained() -> None:
    named = re.findall("netaudit explain ([a-z-]+)", " ".join((*SLOWER_REMEDIES, *NO_LINK_REMEDIES)))

    assert ["link-below-plan", "carrier-lost"] == named
    assert set(named) <= {rule.name for rule in RULES}


def test_no_line_trails_blanks_or_holds_what_a_terminal_would_obey(report: Made, every: Any) -> None:
    for line in plain(report(*every, remarks=("a\x07\nb",))).splitlines():
        assert line == line.rstrip()
        assert line.isprintable()
