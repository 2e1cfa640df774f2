"""Nothing of Windows runs here: what WNetGetUniversalNameW returns is made up after winnetwk.h and winerror.h."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from windowscalls import WindowsCalls
from windowsroom import told

from netaudit.errors import InputError, MachineError
from netaudit.machine.windows.asked import Asked
from netaudit.machine.windows.folders import mount_of
from netaudit.machine.windows.native import Native
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import Mount


class Disks(Native):
    """A Windows with some folders on its own disks, and a present folder."""

    def __init__(self, names: Callable[[str], str | int], folders: frozenset[str] = frozenset()) -> None:
        super().__init__(WindowsCalls(names=names).load)
        self._folders = folders
        self.touched: list[str] = []

    def absolute(self, folder: str) -> str:
        return f"X:\\present\\{folder}"

    def is_folder(self, folder: str) -> bool:
        self.touched.append(folder)
        return folder in self._folders


def drives(path: str) -> str | int:
    """X: is mapped, Y: remembered, Z: broken, C: a local disk."""
    return {"X": "\\\\vault\\media" + path[2:], "Y": 1201, "Z": 1208, "C": 2250}.get(path[0].upper(), 2250)


def ways(disks: Native, *captures: str) -> Ways:
    ask = told(*captures)
    return Ways(disks, Asked(ask), ask)


VAULT = Mount("X:", "smb", "\\\\vault\\media", host="vault", share="media")


@pytest.mark.parametrize("folder", ["X:\\day 1\\card 2", "x:/day 1", "\\\\?\\X:\\day 1", "day 1"])
def test_a_folder_on_a_mapped_drive_lies_on_the_share_behind_it(folder: str) -> None:
    assert VAULT == mount_of(ways(Disks(drives)), folder)


def test_a_share_tells_by_itself_where_it_lies() -> None:
    expected = VAULT._replace(folder="\\\\vault\\media")

    assert expected == mount_of(ways(Disks(drives)), "//vault/media/day 1")


def test_a_folder_on_a_share_is_never_touched() -> None:
    disks = Disks(drives)
    mount_of(ways(disks), "X:\\day 1")
    mount_of(ways(disks), "\\\\vault\\media")

    assert [] == disks.touched


def test_a_folder_on_a_local_disk_is_on_no_share() -> None:
    assert mount_of(ways(Disks(drives, frozenset({"C:\\Media"}))), "C:\\Media") is None


@pytest.mark.parametrize("code", [50, 1200, 1203, 1222, 2250])
def test_every_error_of_a_path_on_no_mapped_drive_means_a_local_disk(code: int) -> None:
    """winerror.h: ERROR_NOT_SUPPORTED, ERROR_BAD_DEVICE, ERROR_NO_NET_OR_BAD_PATH, ERROR_NO_NETWORK,
    ERROR_NOT_CONNECTED."""
    assert mount_of(ways(Disks(lambda path: code, frozenset({"C:\\Media"}))), "C:\\Media") is None


def test_a_folder_that_is_not_there_is_wrong_input_and_elevation_may_be_why() -> None:
    with pytest.raises(InputError, match="not seen in an elevated one"):
        mount_of(ways(Disks(drives)), "Q:\\media")


def test_a_drive_that_is_remembered_but_not_connected_says_so() -> None:
    """Windows error 1201 is ERROR_CONNECTION_UNAVAIL."""
    with pytest.raises(MachineError, match="remembered but not connected"):
        mount_of(ways(Disks(drives)), "Y:\\media")


def test_any_other_error_of_the_drive_is_no_local_disk() -> None:
    with pytest.raises(MachineError, match="Windows error 1208"):
        mount_of(ways(Disks(drives)), "Z:\\media")


def test_the_linux_within_this_windows_is_no_share() -> None:
    assert mount_of(ways(Disks(drives)), "\\\\wsl.localhost\\Example\\home") is None


@pytest.mark.parametrize("folder", ["\\\\vault", "\\\\vault\\", "\\\\"])
def test_a_host_without_a_share_is_wrong_input(folder: str) -> None:
    with pytest.raises(InputError, match="no share"):
        mount_of(ways(Disks(drives)), folder)


def test_a_drive_that_stands_for_no_share_cannot_be_asked_about() -> None:
    with pytest.raises(MachineError, match="is no share"):
        mount_of(ways(Disks(lambda path: "\\\\vault")), "X:\\media")


class Barred(Disks):
    """A Windows whose network provider cannot be called."""

    def universal_name(self, path: str) -> tuple[int, str]:
        raise MachineError("mpr.dll cannot be loaded")


def test_the_smb_client_tells_the_mapping_where_the_call_is_barred() -> None:
    assert VAULT == mount_of(ways(Barred(drives), "mappings"), "X:\\day 1")
