"""What is asked for, and how long it may take."""

from __future__ import annotations

import pytest

from netaudit.probing.request import TRANSFER_BYTES, TRANSFER_S, Request, looks_like_folder


@pytest.mark.parametrize(
    "target",
    ["/mnt/media", "./here", "~/share", "~", ".", "..", "media/cut", "X:\\media", "X:", "\\\\vault\\media", "x:/"],
)
def test_a_slash_a_drive_or_a_dot_in_front_means_a_folder(target: str) -> None:
    assert looks_like_folder(target)


@pytest.mark.parametrize(
    "target", ["vault", "vault.local", "10.44.20.10", "fe80::1%en5", "fd00::10", "[fd00::10]", "a.b"]
)
def test_names_and_addresses_are_no_folders(target: str) -> None:
    assert not looks_like_folder(target)


def test_the_bound_covers_each_thing_that_was_asked_for() -> None:
    """In seconds: 5 for a name, 9 for the talk, the interval, the listening; 5 for each time that a file is moved, 4 more
    where it is read, 8 where it is written and has to go again."""
    bounds = [
        Request("vault").bound_s,
        Request("/mnt", read=True).bound_s,
        Request("/mnt", write=True).bound_s,
        Request("vault", listen_s=30).bound_s,
        Request("vault", seconds=5).bound_s,
    ]

    assert [16, 30, 29, 46, 19] == bounds


def test_a_file_is_moved_no_longer_and_no_further_than_the_options_help_says() -> None:
    """`netaudit probe --help`: at most 1 GiB or 5 s."""
    assert (1024**3, 5) == (TRANSFER_BYTES, TRANSFER_S)
