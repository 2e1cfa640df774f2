"""Readers: what counts as an answer, and what contradicts an earlier one."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.calculations.pools import streaming_drives
from netaudit.model.plan import Pool
from netaudit.plan.drafting.interview import answers_in
from netaudit.plan.drafting.readers import LEAST_DRIVES, MOST_SEATS, RATES_OF_PORT
from netaudit.plan.scalars.spelling import port_rate

Refused = Callable[[str], list[str]]


def names(text: str) -> list[str]:
    return [seat.name for seat in answers_in(text, "x").seats]


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("1", ["cut-1"]),
        ("2", ["cut-1", "cut-2"]),
        ("grade", ["grade"]),
        ("a, b", ["a", "b"]),
        ("['a, b', c]", ["a, b", "c"]),
        ("['[red]x', <b>, é, 日本語]", ["[red]x", "<b>", "é", "日本語"]),
        ("3rd desk", ["3rd desk"]),
    ],
)
def test_seats_are_a_number_or_names(written: str, expected: list[str]) -> None:
    assert expected == names(f"seats: {written}")


def test_the_most_seats_are_taken_and_one_more_is_not(refused: Refused) -> None:
    many = ", ".join(f"s{nth}" for nth in range(MOST_SEATS + 1))

    assert MOST_SEATS == len(names(f"seats: {MOST_SEATS}")) == len(names(f"seats: [{many.rpartition(',')[0]}]"))
    assert [f"1:8: seats: {MOST_SEATS + 1} seats are too many for one switch: name at most {MOST_SEATS}"] == refused(
        f"seats: {many}"
    )


@pytest.mark.parametrize("written", ["0", "65", "10000", "-1", "3.5", "1e3", "9" * 30])
def test_a_wrong_number_of_seats_is_told_with_the_bounds(written: str, refused: Refused) -> None:
    (line,) = refused(f"seats: {written}")

    assert line.startswith("1:8: seats: '")
    assert "a number of seats, on one switch, is a whole number from 1 to 64" in line


@pytest.mark.parametrize(
    ("written", "reason"),
    [
        ("[a, a/b]", "1:12: seats.2: 'a/b' holds '/'"),
        ("[a, 'b > c']", "1:12: seats.2: 'b > c' holds ' > '"),
        ("[a, a]", "1:12: seats.2: 'a' is named before already"),
        ("[a, '12']", "1:12: seats.2: '12' is a number among names"),
        ("10,000", "1:8: seats: '10' is a number among names"),
        ('["a\\u0007", b]', "1:9: seats.1: 'a\\x07' holds the character U+0007"),
        ('["a\\u202e", b]', "1:9: seats.1: 'a\\u202e' holds the character U+202E"),
        ("a,,b", "1:8: seats: a name is missing here"),
        (f"[{'x' * 65}]", "1:9: seats.1: '"),
    ],
)
def test_a_wrong_name_is_told_at_its_place(written: str, reason: str, refused: Refused) -> None:
    assert refused(f"seats: {written}")[0].startswith(reason)


@pytest.mark.parametrize(
    ("written", "reason"),
    [
        ("wants: 10.001G", "'10.001G' is more than a seat of a draft has, at most 10G"),
        ("wants: 10 Gbps", "write 10 Gb/s"),
        ("systems: macoss", "did you mean 'macos'?"),
        ("walls: cat 6x", "'cat 6x' is not what may be in a wall"),
        ("walls: OM4", "write one of 3, 5, 5e, 6, 6A, 7, 7A, 8.1, 8.2, unknown, nothing"),
        ("distances: 20", "'20' has no unit"),
        ("distances: 201 km", "a length is 1 mm to 200 km"),
        ("storage_port: sfp", "did you mean 'sfp+'?"),
        ("storage_rate: 5G", "'5G' is no rate of a port of kind sfp+: write 10G"),
        ("{storage_port: rj45, storage_rate: 25G}", "write 10G, 5G, 2.5G or 1G"),
        ("drives: 0", "a number of drives is a whole number from 1 to 10000"),
        ("drive_size: 20 TB", "`drives` is unknown"),
        ("layout: mirror", "`drives` is unknown"),
        ("{drives: 8, layout: miror}", "did you mean 'mirror'?"),
        ("{drives: 8, drive_read: 240}", "'240' has no unit"),
        ("wifi: perhaps", "'perhaps' is neither yes nor no"),
        ("office_subnet: 192.168.1.1/24", "the subnet is 192.168.1.0/24"),
        ("office_subnet: 0.0.0.0/0", "leaves no private addresses"),
        ("storage: cut-2", "'cut-2' is a seat already"),
        ("{seats: 4, switch: no}", "4 seats need a switch"),
        ("{switch: direct, walls: 6A, storage_port: sfp+}", "fits no cage: write rj45"),
        ("name: ''", "nothing is written here"),
    ],
)
def test_a_wrong_answer_is_told_with_what_would_be_right(written: str, reason: str, refused: Refused) -> None:
    (line,) = refused(written)

    assert reason in line


def test_feet_are_read_as_lengths_of_a_plan_are() -> None:
    assert [15.24] == [run.length_m for run in answers_in("distances: 50 ft", "x").runs.values()]


@pytest.mark.parametrize(("port", "rate"), [(port, rate) for port, rates in RATES_OF_PORT.items() for rate in rates])
def test_every_rate_of_a_port_is_taken(port: str, rate: int) -> None:
    answers = answers_in(f"{{storage_port: {port}, storage_rate: {port_rate(rate)}}}", "x")

    assert (port, rate) == (answers.storage_port, answers.storage_rate_bit_per_s)


@pytest.mark.parametrize("layout", LEAST_DRIVES)
def test_a_layout_takes_the_fewest_drives_that_leave_one_for_data(layout: str, refused: Refused) -> None:
    least = LEAST_DRIVES[layout]
    disks = answers_in(f"{{drives: {least}, layout: {layout}}}", "x").disks

    assert disks is not None
    assert streaming_drives(disks)
    if layout.endswith("parity"):
        assert streaming_drives(Pool(drives=least - 1, layout=disks.layout)) is None
    if least > 1:
        assert [f"1:21: layout: '{layout}' takes at least {least} drives, here are {least - 1}"] == refused(
            f"{{drives: {least - 1}, layout: {layout}}}"
        )


def test_up_to_three_seats_may_go_without_a_switch() -> None:
    for seats in (1, 2, 3):
        assert not answers_in(f"{{seats: {seats}, switch: no}}", "x").switched
