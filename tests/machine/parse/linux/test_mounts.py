"""Mounts: the lines as published in proc_pid_mountinfo(5) and printed by the kernel's cifs_show_options and
nfs_show_mount_options; not taken from a machine."""

from ipaddress import ip_address
from pathlib import Path

import psutil
import pytest
from spoiled import spoiled

from netaudit.machine.parse.linux.mounts import MountRow, Share, holding, mount_rows, share_of

CAPTURE = (Path(__file__).parents[3] / "captures" / "linux" / "mountinfo.txt").read_text()
ROWS = mount_rows(CAPTURE)


def held(path: str) -> MountRow:
    row = holding(ROWS, path)
    assert row is not None
    return row


def row_of(kind: str, source: str, options: str = "rw") -> MountRow:
    (row,) = mount_rows(f"36 22 0:52 / /mnt/m rw - {kind} {source} {options}")
    return row


def test_a_line_is_read_field_by_field() -> None:
    expected = MountRow(
        number=46,
        parent=30,
        device=(8, 17),
        folder="/mnt/usb disk",
        kind="fuseblk",
        source="/dev/sdb1",
        options=("rw", "rw"),
    )

    assert expected == held("/mnt/usb disk/card")


@pytest.mark.parametrize(
    ("path", "number"),
    [
        ("/", 22),
        ("/home/edit", 22),
        ("/mnt/media", 36),
        ("/mnt/media/day 1/take.mov", 36),
        ("/mnt/mediator", 30),
        ("/mnt/old/x", 48),
        ("/mnt/media/inner/x", 36),
    ],
)
def test_the_deepest_visible_mount_holds_a_path(path: str, number: int) -> None:
    """The later mount of one folder covers the earlier one; a mount beneath a covered folder is out of sight."""
    assert number == held(path).number


def test_of_two_mounts_side_by_side_on_a_folder_the_later_one_holds_it() -> None:
    rows = mount_rows("1 0 0:1 / / rw - ext4 a rw\n2 1 0:2 / /m rw - nfs a:/a rw\n3 1 0:3 / /m rw - nfs b:/b rw")
    found = holding(rows, "/m/x")

    assert found == rows[2]


def test_a_table_that_does_not_show_the_root_still_holds_what_it_shows() -> None:
    rows = mount_rows("36 35 0:52 / /mnt/media rw - cifs //vault/media rw")

    assert [rows[0], None] == [holding(rows, "/mnt/media/x"), holding(rows, "/home")]


@pytest.mark.parametrize(
    ("path", "host", "share", "remote", "port"),
    [
        ("/mnt/media/x", "vault", "media/Season 1", "192.0.2.50", 445),
        ("/mnt/nfs", "192.0.2.50", "/data", "192.0.2.50", 2049),
        ("/mnt/nfs6", "fd55::50", "/data", "fd55::50", 20490),
        ("/mnt/takes/a", "vault.boathouse.example", "/srv/takes", None, 22),
        ("/mnt/smb/vault/media/x", "vault", "media", None, 445),
        ("/mnt/smb/workgroup/vault/media", "vault", "media", None, 445),
        ("/mnt/smb", None, None, None, 445),
        ("/mnt/named/x", "10.44.20.10", "media", None, 445),
        ("/run/user/1000/gvfs/smb-share:server=vault.local,share=my%20media/x", "vault.local", "my media", None, 445),
        ("/run/user/1000/gvfs/sftp:host=vault,port=2222,user=edit/srv", "vault", None, None, 2222),
        ("/run/user/1000/gvfs", None, None, None, None),
        ("/mnt/web/a", "files.boathouse.example", "dav", None, 8443),
        ("/mnt/shared/a", None, None, None, None),
    ],
)  # fmt: skip
def test_the_source_the_options_and_the_path_name_the_storage(
    path: str, host: str | None, share: str | None, remote: str | None, port: int | None
) -> None:
    expected = Share(host, share, None if remote is None else ip_address(remote), port)

    assert expected == share_of(held(path), path)


@pytest.mark.parametrize(
    ("kind", "source", "host"),
    [
        ("cifs", "//fd55::50/media", "fd55::50"),
        ("cifs", "\\134\\134vault\\134media", "vault"),
        ("cifs", "", None),
        ("nfs4", "fd55::50:/data", "fd55::50"),
        ("nfs4", "nonsense", None),
        ("fuse.sshfs", "edit@[fd55::50]:/srv", "fd55::50"),
        ("fuse.sshfs", "vault:", "vault"),
        ("fuse.sshfs", "vault:/srv/a@b", "vault"),
        ("fuse.sshfs", "edit@boathouse@vault:/srv", "vault"),
        ("fuse.sshfs", "nonsense", None),
        ("fuse.rclone", "vault:media", None),
        ("fuse.example", "//vault/media", "vault"),
        ("smb3", "vault/media", "vault"),
        ("davfs", "http://[nonsense/", None),
    ],
)
def test_a_host_is_found_in_every_spelling_and_never_guessed(kind: str, source: str, host: str | None) -> None:
    assert host == share_of(row_of(kind, source), "/mnt/m").host


@pytest.mark.parametrize(
    ("source", "port"),
    [
        ("http://vault/dav", 80),
        ("https://vault/dav", 443),
        ("ftp://vault/", 21),
        ("sftp://vault/", 22),
        ("smb://vault/media", 445),
        ("gopher://vault/", None),
    ],
)
def test_a_service_has_its_registered_port(source: str, port: int | None) -> None:
    """IANA, Service Name and Transport Protocol Port Number Registry."""
    assert port == share_of(row_of("davfs", source), "/mnt/m").port


@pytest.mark.parametrize("port", [1, 65_535])
def test_a_port_is_a_number_of_16_bits(port: int) -> None:
    assert port == share_of(row_of("cifs", "//vault/media", f"rw,port={port}"), "/mnt/m").port


@pytest.mark.parametrize("kind", ["fuse.smbnetfs", "fuse"])
def test_a_neighbourhood_of_shares_names_them_by_its_folders(kind: str) -> None:
    row = row_of(kind, "smbnetfs" if kind == "fuse" else "none")

    assert [Share("vault", "media", None, 445), Share("vault", None, None, 445)] == [
        share_of(row, f"/mnt/m/{path}") for path in ("vault/media/x", "vault")
    ]


@pytest.mark.parametrize("line", ["36 22 0:52 / /mnt/m rw - nfs", "36 22 0:52 / /mnt/m - nfs vault:/a rw",
                                  "36 22 0:52 / /mnt/m rw nfs vault:/a rw", "36 22 0:99999999999 / /m rw - nfs a:/b rw"])  # fmt: skip
def test_a_line_that_ends_too_early_or_counts_too_far_is_left_out(line: str) -> None:
    assert () == mount_rows(line)


def test_a_line_may_end_with_its_source_and_count_in_ten_digits() -> None:
    (row,) = mount_rows("4294967295 22 0:52 / /mnt/m rw - nfs vault:/a")

    assert (4_294_967_295, "vault:/a", ("rw",)) == (row.number, row.source, row.options)


@pytest.mark.parametrize("port", ["0", "65536", "-1", "x", "٤٤٥", "99999999999999999999"])
def test_a_port_that_is_none_leaves_the_usual_one(port: str) -> None:
    assert 445 == share_of(row_of("cifs", "//vault/media", f"rw,port={port}"), "/mnt/m").port


@pytest.mark.parametrize(
    ("kind", "hangs"),
    [("cifs", True), ("nfs4", True), ("fuse.sshfs", True), ("autofs", True), ("9p", True),
     ("ext4", False), ("tmpfs", False), ("fuseblk", False), ("fuse.lxcfs", False), ("overlay", False)],
)  # fmt: skip
def test_what_other_machines_answer_may_hang(kind: str, hangs: bool) -> None:
    assert hangs == row_of(kind, "none").may_hang


def test_this_machine_has_the_mounts_that_psutil_lists() -> None:
    """psutil reads /proc/self/mounts, another table of the kernel."""
    rows = mount_rows(Path("/proc/self/mountinfo").read_text()) if Path("/proc/self/mountinfo").exists() else ()
    expected = {(each.mountpoint, each.fstype) for each in psutil.disk_partitions(all=True)} if rows else set()

    assert expected == {(row.folder, row.kind) for row in rows}


def test_a_spoiled_table_never_raises_and_never_makes_a_port_that_is_none() -> None:
    paths = ("/", "/mnt/media/x", "/mnt/smb/a/b", "/run/user/1000/gvfs/smb-share:server=a", "/mnt/web")
    ports = {
        share_of(row, path).port
        for text in spoiled(CAPTURE)
        for rows in [mount_rows(text)]
        for path in paths
        if (row := holding(rows, path)) is not None
    }

    assert all(port is None or 0 < port < 65_536 for port in ports)
