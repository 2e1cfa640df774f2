"""The plain form."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from observations import diagnosed, first_look

from netaudit.model.diagnosis import Diagnosis
from netaudit.report.probe.plain import rest, whole
from netaudit.report.probe.words import sentence

Expect = Callable[[str, str], None]


def test_the_plain_form_of_a_healthy_room_is_stable(expect: Expect) -> None:
    expect("probe-healthy.txt", whole(diagnosed()))


def test_the_plain_form_of_a_troubled_room_is_stable(troubled: Diagnosis, expect: Expect) -> None:
    expect("probe-troubled.txt", whole(troubled))


def test_the_first_line_is_the_answer_and_the_rest_can_be_had_without_it(troubled: Diagnosis) -> None:
    assert f"{sentence(troubled.situation)}\n{rest(troubled)}" == whole(troubled)


def test_no_line_is_wrapped_or_ends_in_blanks(troubled: Diagnosis) -> None:
    lines = whole(troubled).splitlines()

    assert lines == [line.rstrip() for line in lines]
    assert max(map(len, lines)) > 200


def test_whatever_a_terminal_would_obey_is_written_out(hostile: Diagnosis) -> None:
    text = whole(hostile)

    assert all(line.isprintable() for line in text.split("\n"))
    assert text.count(r"[red]\x1b[2Jev\u202eil\n\x07\x9b31m[/]") > 10


def test_a_first_look_has_few_sections_and_no_empty_ones() -> None:
    lines = rest(diagnosed(first_look(), expected_bit_per_s=None)).splitlines()
    headings = [now for before, now in pairwise(lines) if not before]

    assert ["Addresses of vault", "Ports of this machine", lines[-1]] == headings
