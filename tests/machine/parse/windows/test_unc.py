"""Nothing of Windows runs here: the forms are those of Microsoft's documentation of UNC names, of `\\\\?\\` paths, of
IPv6 literals in UNC names and of the WebDAV redirector; that of drives over SSH is from memory."""

from __future__ import annotations

import pytest

from netaudit.machine.parse.windows.unc import Share, drive_of, is_inside, is_remote, plain, share_of


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        ("//vault/media/day 1", "\\\\vault\\media\\day 1"),
        ("\\\\?\\UNC\\vault\\media", "\\\\vault\\media"),
        ("\\\\?\\X:\\media", "X:\\media"),
        ("X:/media", "X:\\media"),
    ],
)
def test_a_path_is_the_same_whichever_way_it_is_written(path: str, expected: str) -> None:
    assert expected == plain(path)


@pytest.mark.parametrize(
    ("path", "expected"), [("x:\\media", "X:"), ("X:media", None), ("\\\\vault\\x", None), ("", None)]
)
def test_a_drive_is_a_letter_with_its_root(path: str, expected: str | None) -> None:
    assert expected == drive_of(path)


def test_a_path_that_begins_with_a_host_is_remote() -> None:
    assert is_remote("\\\\vault\\media")
    assert not is_remote("X:\\media")


@pytest.mark.parametrize("path", ["\\\\wsl$\\Example\\home", "\\\\WSL.localhost\\Example", "\\\\.\\PhysicalDrive0"])
def test_the_linux_and_the_devices_of_this_machine_are_no_other_machine(path: str) -> None:
    assert is_inside(path)


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        ("\\\\vault\\media\\day 1", Share("\\\\vault\\media", "smb", "vault", "media")),
        ("\\\\10.44.20.10\\media$", Share("\\\\10.44.20.10\\media$", "smb", "10.44.20.10", "media$")),
        (
            "\\\\fd00-44-20--10.ipv6-literal.net\\media",
            Share("\\\\fd00-44-20--10.ipv6-literal.net\\media", "smb", "fd00:44:20::10", "media"),
        ),
        ("\\\\fe80--10s7.ipv6-literal.net\\m", Share("\\\\fe80--10s7.ipv6-literal.net\\m", "smb", "fe80::10%7", "m")),
        ("\\\\x-y.ipv6-literal.net\\m", Share("\\\\x-y.ipv6-literal.net\\m", "smb", "x-y.ipv6-literal.net", "m")),
        (
            "\\\\sshfs\\edit@vault!2222\\media",
            Share("\\\\sshfs\\edit@vault!2222", "sshfs", "vault", "edit@vault!2222", 22_22),
        ),
        ("\\\\sshfs.r\\vault", Share("\\\\sshfs.r\\vault", "sshfs", "vault", "vault", 22)),
        ("\\\\sshfs\\!", Share("\\\\sshfs\\!", "sshfs", None, "!")),
        (
            "\\\\vault@SSL@8443\\DavWWWRoot\\m",
            Share("\\\\vault@SSL@8443\\DavWWWRoot", "webdav", "vault", "DavWWWRoot", 8443),
        ),
        ("\\\\vault@SSL\\m", Share("\\\\vault@SSL\\m", "webdav", "vault", "m", 443)),
        ("\\\\vault\\DavWWWRoot", Share("\\\\vault\\DavWWWRoot", "webdav", "vault", "DavWWWRoot", 80)),
        ("\\\\tsclient\\C", Share("\\\\tsclient\\C", "remote desktop", None, "C")),
        ("\\\\vault", None),
        ("\\\\vault\\", None),
        ("\\\\\\media", None),
    ],
)
def test_a_share_names_its_host_and_what_kind_of_road_leads_there(path: str, expected: Share | None) -> None:
    assert expected == share_of(path)
