"""`mount` and `nfsstat -m`. Formats: Apple's mount.c, SMBClient and nfsstat; captures are not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from mac_captures import capture

from netaudit.machine.parse.macos.mounts import Instance, instance_of, network_mounts, parse_mounts, parse_nfsstat
from netaudit.model.machine_state import Mount


def mounted(folder: str) -> Mount:
    return next(mount for mount in parse_mounts(capture("mount.txt")) if mount.folder == folder)


def parse_line(line: str) -> Mount:
    (mount,) = parse_mounts(line)
    return mount


@pytest.mark.parametrize(
    ("folder", "kind", "host", "port", "share"),
    [
        ("/Volumes/Projects", "smbfs", "10.44.20.10", 445, "Projects"),
        ("/Volumes/Public", "smbfs", "vault.local", 1445, "Public"),
        ("/Volumes/Backup", "smbfs", "fe80::10%en7", 445, "Backup"),
        ("/Volumes/media", "nfs", "vault", 2049, "/export/media"),
        ("/Volumes/Data", "afpfs", "vault._afpovertcp._tcp.local", 548, "Data"),
        ("/Volumes/rushes", "macfuse", "vault.local", 22, "/srv/rushes"),
    ],
)
def test_a_share_names_host_port_and_path(folder: str, kind: str, host: str, port: int, share: str) -> None:
    mount = mounted(folder)

    assert (kind, host, port, share) == (mount.kind, mount.host, mount.port, mount.share)


def test_names_may_hold_brackets_and_the_word_on_and_shares_are_percent_encoded() -> None:
    """Nothing is escaped on the folder's side, %20 stands on the other."""
    mount = mounted("/Volumes/Cards (A) on set")

    assert ("Cards (A) on set", "The Vault._smb._tcp.local") == (mount.share, mount.host)
    assert ("nodev", "nosuid", "mounted by edit") == mount.options


def test_a_service_instance_in_the_place_of_the_host_is_known_for_what_it_is() -> None:
    """Finder mounts by the name that a server announces, which is no host's name."""
    assert Instance("The Vault", "_smb._tcp", "local") == instance_of("The Vault._smb._tcp.local")
    assert instance_of("vault.local") is None
    assert instance_of("10.44.20.10") is None
    assert instance_of("") is None


def test_a_second_mount_of_one_share_lies_in_a_folder_of_its_own() -> None:
    assert mounted("/Volumes/Projects").source == mounted("/Volumes/Projects-1").source


def test_local_disks_have_no_host_and_are_no_shares() -> None:
    shares = [mount.folder for mount in network_mounts(parse_mounts(capture("mount.txt")))]

    assert mounted("/Volumes/Card Reader (1)").host is None
    assert 8 == len(shares)
    assert not {"/", "/dev", "/System/Volumes/Data/home", "/Volumes/Card Reader (1)"} & set(shares)


def test_a_file_system_in_user_space_that_names_no_host_may_still_be_a_share() -> None:
    mount = parse_line("vault@macfuse0 on /Volumes/vault (macfuse, nodev, mounted by edit)")

    assert mount.host is None
    assert [mount] == list(network_mounts((mount,)))


@pytest.mark.parametrize(
    ("line", "host", "port"),
    [
        ("http://vault.local/dav on /Volumes/dav (webdav, nodev)", "vault.local", 80),
        ("https://vault.local:8443/dav on /Volumes/dav (webdav, nodev)", "vault.local", 8443),
        ("fe80::10%en7:/export on /Volumes/x (nfs, nodev)", "fe80::10%en7", 2049),
        ("10.44.20.10:/a:/b on /Volumes/x (nfs)", "10.44.20.10", 2049),
        ("///share on /Volumes/x (smbfs)", None, 445),
    ],
)
def test_other_forms_of_a_source_are_read(line: str, host: str | None, port: int) -> None:
    mount = parse_line(line)

    assert (host, port) == (mount.host, mount.port)


@pytest.mark.parametrize("line", ["", "mount: unknown", "a on b (smbfs)", "//x/y on /Volumes/y (smbfs, nodev", " (x)"])
def test_a_line_that_is_no_mount_is_left_out(line: str) -> None:
    assert () == parse_mounts(line)


def test_the_current_parameters_of_an_nfs_mount_are_taken_not_those_it_was_asked_for_with() -> None:
    nfs = parse_nfsstat(capture("nfsstat-m.txt"))["/Volumes/media"]

    assert (ip_address("10.44.20.10"),) == nfs.addresses
    assert ("3", "65536", "sys") == tuple(nfs.parameters[name] for name in ("vers", "rsize", "sec"))


def test_no_nfs_mount_is_an_empty_answer() -> None:
    assert {} == parse_nfsstat("")


@pytest.mark.parametrize(("source", "port"), [("http://vault/dav", 80), ("https://vault/dav", 443)])
def test_a_web_folder_has_the_registered_port_of_its_scheme(source: str, port: int) -> None:
    """IANA, Service Name and Transport Protocol Port Number Registry."""
    assert port == parse_line(f"{source} on /Volumes/dav (webdav, nodev)").port


def test_of_an_nfs_mount_only_the_current_parameters_count() -> None:
    text = (
        "     NFS parameters: vers=2\n/mnt/a from vault:/a\n     NFS parameters: vers=3\n"
        "  -- Original mount options:\n     NFS parameters: vers=4\n  -- Current mount parameters:\n"
        "     NFS parameters: vers=4.0\n/mnt/b from vault:/b\n     NFS parameters: vers=3\n"
    )

    assert {"/mnt/a": {"vers": "4.0"}, "/mnt/b": {}} == {
        folder: dict(mount.parameters) for folder, mount in parse_nfsstat(text).items()
    }
