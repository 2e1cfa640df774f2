"""Words for media. Spelling: Apple's if_media.h, the strings of its tables."""

from __future__ import annotations

import pytest
from mac_captures import capture

from netaudit.machine.parse.macos.media import media_rate_bit_per_s, parse_media

M = 10**6


@pytest.mark.parametrize(
    ("word", "mbit_per_s"),
    [
        ("10baseT/UTP", 10), ("10MBase-T", 10), ("100baseTX", 100), ("1000baseT", 1000), ("1000baseSX", 1000), ("2500Base-T", 2500),
        ("5000Base-T", 5000), ("10Gbase-T", 10_000), ("10Gbase-LRM", 10_000), ("10GBase-KR", 10_000),
        ("20GBase-KR2", 20_000), ("25GBase-T", 25_000), ("25G-AUI", 25_000), ("40Gbase-CR4", 40_000),
        ("40G-XLAUI", 40_000), ("50GBase-SR", 50_000), ("56GBase-R4", 56_000), ("100GBase-CR4", 100_000),
        ("400GBase-DR4", 400_000), ("PCIExpress-25G", 25_000), ("PCIExpress-50G", 50_000),
    ],
)  # fmt: skip
def test_every_spelling_of_the_kernels_table_has_its_rate(word: str, mbit_per_s: int) -> None:
    """Libraries know neither 2.5 nor 5 nor 25 Gb/s and call them 0."""
    assert mbit_per_s * M == media_rate_bit_per_s(word)


@pytest.mark.parametrize("word", ["autoselect", "none", "Other", "manual", "<unknown type>", "", "0baseT", "base"])
def test_a_medium_without_a_rate_is_unknown_not_zero(word: str) -> None:
    assert media_rate_bit_per_s(word) is None


def test_the_medium_in_brackets_is_the_agreed_one() -> None:
    media = parse_media("autoselect (10Gbase-T <full-duplex,flow-control>)")

    assert media is not None
    assert (10_000 * M, "full", None) == (media.rate_bit_per_s, media.duplex, media.forced_bit_per_s)


def test_without_brackets_the_rate_was_set_by_hand_and_is_all_that_is_offered() -> None:
    media = parse_media("1000baseT <half-duplex>")

    assert media is not None
    assert (1000 * M, "half", 1000 * M) == (media.rate_bit_per_s, media.duplex, media.forced_bit_per_s)


def test_options_are_parted_by_commas_in_one_command_and_by_spaces_in_another() -> None:
    """Ifconfig writes commas, networksetup spaces."""
    one, other = (parse_media(f"autoselect (1000baseT <full-duplex{gap}flow-control>)") for gap in (",", " "))

    assert one is not None
    assert frozenset({"full-duplex", "flow-control"}) == one.options
    assert one == other


@pytest.mark.parametrize("text", ["autoselect", "autoselect (none)", "<unknown type>", "autoselect (<unknown type>)"])
def test_without_a_link_neither_rate_nor_duplex_is_known(text: str) -> None:
    media = parse_media(text)

    assert media is not None
    assert (None, None, None) == (media.rate_bit_per_s, media.duplex, media.forced_bit_per_s)


def test_rubbish_is_no_medium() -> None:
    assert parse_media("(((") is None
    assert parse_media("") is None


def test_every_line_of_media_in_the_captures_is_read() -> None:
    lines = [line.strip() for line in capture("ifconfig-av-26.txt").splitlines() if line.startswith("\tmedia: ")]

    assert 10 == len(lines)
    assert all(parse_media(line.removeprefix("media: ")) for line in lines)
