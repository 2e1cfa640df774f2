"""What could not be found out, merged."""

from __future__ import annotations

from observations import diagnosed, observed

from netaudit.model.diagnosis import Diagnosis
from netaudit.model.observation import Skipped
from netaudit.report.probe.gaps import Gap, gaps


def test_a_question_that_a_rule_misses_already_is_told_once_and_equal_reasons_are_joined(troubled: Diagnosis) -> None:
    assert gaps(troubled) == (
        Gap(
            "retransmits-high at session 10.44.20.11:51820 - 10.44.20.10:445",
            "this machine only reads, and segments are sent again at the storage",
            "probe once more with --write",
        ),
        Gap(
            "hardware addresses of 10.44.20.10 and hardware addresses of 192.168.44.10",
            "asking for it needs CAP_NET_RAW",
            "run it with sudo",
        ),
    )


def test_nothing_is_told_where_nothing_was_left_out() -> None:
    assert () == gaps(diagnosed())


def test_a_rule_that_gives_the_reason_in_more_words_tells_it_too(troubled: Diagnosis) -> None:
    (gap,) = troubled.not_checked
    longer = gap._replace(reason=f"Segments sent again: {gap.reason}")
    other = gap._replace(rule="link-full")

    assert 2 == len(gaps(troubled._replace(not_checked=(longer,))))
    assert 3 == len(gaps(troubled._replace(not_checked=(other,))))


def test_a_skipped_question_that_no_rule_wanted_is_told_all_the_same() -> None:
    seen = observed(skipped=(Skipped("the switch port", "nobody listened", "--listen 35"),))

    assert (Gap("the switch port", "nobody listened", "--listen 35"),) == gaps(diagnosed(seen))
