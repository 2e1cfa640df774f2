"""The share that a folder lies on; shares are stood for by names that are never looked at."""

from __future__ import annotations

import os
import unicodedata
from pathlib import Path

import pytest

from netaudit.errors import InputError
from netaudit.machine.macos.folders import share_of
from netaudit.model.machine_state import Mount


def mount(folder: str | Path) -> Mount:
    return Mount(str(folder), "smbfs", "//edit@vault.local/Projects", host="vault.local")


@pytest.fixture
def share(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Mount:
    """A share whose folder fails whoever looks at it, as a dead one would hang them."""
    place = tmp_path / "Volumes" / "Projects"
    place.parent.mkdir()
    real = os.lstat

    def lstat(path: str) -> os.stat_result:
        assert place not in (Path(path), *Path(path).parents), "a share is never touched"
        return real(path)

    monkeypatch.setattr(os, "lstat", lstat)
    return mount(place)


def test_a_folder_on_a_share_is_found_without_touching_it(share: Mount) -> None:
    for folder in (share.folder, f"{share.folder}/", f"{share.folder}/day 4/card (2)", f"{share.folder}/../Projects/x"):
        assert share == share_of(folder, [mount("/elsewhere"), share])


def test_a_share_within_a_share_is_the_one_that_counts(share: Mount) -> None:
    inner = mount(f"{share.folder}/inner")

    assert inner == share_of(f"{share.folder}/inner/x", [share, inner])
    assert share == share_of(f"{share.folder}/innermost", [share, inner])


def test_a_way_that_leaves_the_share_again_does_not_end_on_it(share: Mount) -> None:
    assert share_of(f"{share.folder}/day 4/../..", [share]) is None


def test_the_home_folder_is_written_short(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", str(tmp_path))
    home = mount(tmp_path / "Projects")

    assert home == share_of("~/Projects", [home])


def test_neither_case_nor_the_form_of_accents_counts(tmp_path: Path) -> None:
    """APFS and HFS+ compare names that way by default."""
    composed = mount(tmp_path / "Bühne")

    assert composed == share_of(unicodedata.normalize("NFD", composed.folder.upper()).replace(
        str(tmp_path).upper(), str(tmp_path)), [composed])  # fmt: skip


def test_a_link_on_a_local_disk_leads_to_the_share(share: Mount, tmp_path: Path) -> None:
    (tmp_path / "desk").symlink_to(share.folder)
    (tmp_path / "again").symlink_to("desk/day 4")

    assert share == share_of(str(tmp_path / "desk"), [share])
    assert share == share_of(str(tmp_path / "again" / "card"), [share])


def test_a_folder_on_a_local_disk_is_on_no_share(share: Mount, tmp_path: Path) -> None:
    (tmp_path / "Volumes" / "Projects-1").mkdir()

    assert share_of(str(tmp_path / "Volumes"), [share]) is None
    assert share_of(str(tmp_path / "Volumes" / "Projects-1"), [share]) is None
    assert share_of("/", [share]) is None


def test_a_relative_folder_counts_from_where_one_stands(
    share: Mount, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)

    assert share == share_of("Volumes/./Projects/x", [share])


@pytest.mark.parametrize("folder", ["no such folder", "nul\0l", "x" * 5000])
def test_a_folder_that_is_not_there_is_an_error_with_a_remedy(share: Mount, tmp_path: Path, folder: str) -> None:
    with pytest.raises(InputError, match="there is no such folder; give a folder on the mounted share"):
        share_of(str(tmp_path / folder), [share])


def test_links_in_a_circle_end(tmp_path: Path) -> None:
    (tmp_path / "one").symlink_to("other")
    (tmp_path / "other").symlink_to("one")

    with pytest.raises(InputError, match="its links lead in a circle"):
        share_of(str(tmp_path / "one"), [])


def test_standing_in_a_folder_that_is_gone_is_an_error(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    gone = tmp_path / "gone"
    gone.mkdir()
    monkeypatch.chdir(gone)
    gone.rmdir()

    with pytest.raises(InputError, match="there is no such folder"):
        share_of("Projects", [])
