"""Interviews: answers from a file, every error at its place."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.model.plan import Pool
from netaudit.plan.drafting.interview import answers_in

Refused = Callable[[str], list[str]]


def test_what_is_left_out_is_answered_by_its_default() -> None:
    answers = answers_in("{}", "room.yaml")

    assert ("Cutting rooms", 3, True, "vault", "sfp+", 10**10, None, True, "192.168.1.0/24") == (
        answers.name, len(answers.seats), answers.switched, answers.storage, answers.storage_port,
        answers.storage_rate_bit_per_s, answers.disks, answers.wifi, str(answers.office_subnet),
    )  # fmt: skip


def test_one_seat_is_joined_directly_by_default_and_by_rj45() -> None:
    answers = answers_in("seats: 1", "room.yaml")

    assert (False, "rj45") == (answers.switched, answers.storage_port)


def test_figures_of_the_disks_make_a_pool() -> None:
    text = "{drives: 8, drive_size: 20 TB, drive_read: 240 MB/s, layout: single-parity}"

    expected = Pool(drives=8, size_bytes=20 * 10**12, read_bit_per_s=240 * 8 * 10**6, layout="single-parity")
    assert expected == answers_in(text, "room.yaml").disks


def test_every_problem_is_told_at_once_in_the_order_of_the_file(refused: Refused) -> None:
    lines = refused("wifi: often\nseets: 4\nseats: [a, a, b/c]\nwants: fast\n")

    assert ["1:7: wifi", "2:1: seets", "3:12: seats.2", "3:15: seats.3", "4:8: wants"] == [
        ":".join(line.split(":")[:3]) for line in lines
    ]
    assert lines[1].endswith("; did you mean 'seats'?")


def test_an_answer_is_not_held_against_one_that_is_itself_wrong(refused: Refused) -> None:
    (line,) = refused("{seats: [a, b/c], systems: [macos, linux, linux, windows], switch: no}")
    assert line.startswith("1:13: seats.2: ")
    assert 2 == len(refused("{seats: [a, b/c], systems: [macos, lynx]}"))


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "1:1: the file is empty: a file of answers begins with a question's key, such as 'seats: 3'"),
        (
            "- a",
            "1:1: a file of answers is a mapping that begins with a question's key, such as 'seats: 3', not a list",
        ),
        ("seats: [", "1:9: this is not YAML"),
        ("seats: 3\nseats: 4", "2:1: seats: 'seats' is given twice"),
        ("seats: !!python/object:os.system 3", "1:8: seats"),
        ("distances: {loft: 3 m}", "1:12: distances: a text, or a list of texts, is wanted here, not a mapping"),
        ("wifi: [yes]", "1:7: wifi: one answer is wanted here, not a list"),
    ],
)
def test_what_is_no_file_of_answers_is_told(text: str, reason: str, refused: Refused) -> None:
    assert refused(text)[0].startswith(reason)
