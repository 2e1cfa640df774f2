"""Mounted shares of a Mac, from captures that are written from published formats and not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from mac_captures import capture
from mac_desk import VAULT, WIRE, said, sit_down

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.macos import folders, shares
from netaudit.model.machine_state import Channel, ClientFacts, Mount

G = 10**9
JSON_REFUSED = said("usage: smbutil multichannel [-f JSON]\n", code=64)
CARDS = "/Volumes/Cards (A) on set"


@pytest.fixture(autouse=True)
def _volumes(monkeypatch: pytest.MonkeyPatch) -> None:
    """The folder that shares are mounted in is there, and is no link."""
    monkeypatch.setattr(folders, "_link", lambda step, folder: None)


def test_a_folder_names_its_share_with_the_ends_of_the_connection(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    mount = shares.mount_of("/Volumes/Projects/day 4")

    assert mount is not None
    assert ("smbfs", "10.44.20.10", "Projects", 445, VAULT, WIRE) == (
        mount.kind, mount.host, mount.share, mount.port, mount.remote, mount.local,
    )  # fmt: skip


def test_a_folder_on_a_local_disk_has_no_share(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)

    assert shares.mount_of("/Volumes/Card Reader (1)/DCIM") is None


def test_the_host_behind_a_service_instance_is_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """Finder mounts by the server's announcement; dns-sd never ends unless it is told a time."""
    desk = sit_down(monkeypatch)
    mount = shares.mount_of(CARDS)

    assert mount is not None
    assert "vault.local" == mount.host
    assert "dns-sd -t 1 -L The Vault _smb._tcp local" in desk.asked


def test_an_instance_that_nobody_resolves_is_not_taken_for_a_host(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"dns-sd": AnswerError("late"), "smbutil": AnswerError("late")})
    mount = shares.mount_of(CARDS)

    assert mount is not None
    assert (None, None) == (mount.host, mount.remote)


def test_an_nfs_mount_names_the_address_it_runs_to(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    mount = shares.mount_of("/Volumes/media")

    assert mount is not None
    assert ("vault", VAULT, 2049) == (mount.host, mount.remote, mount.port)


def test_the_client_names_its_channels_and_says_whether_they_are_signed(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    facts = shares.client(shares.mount_of("/Volumes/Projects"), "10.44.20.10", [VAULT])
    active, standing_by = facts.channels

    assert Channel("/Volumes/Projects", "en7", WIRE, VAULT, 10 * G, True, 1_075_000_000, 1_986_000) == active
    assert ("en0", False) == (standing_by.interface, standing_by.active)
    assert ("SMB 3.1.1", True, False) == (facts.dialect, facts.signing, facts.encryption)


def test_releases_without_json_are_read_in_text(monkeypatch: pytest.MonkeyPatch) -> None:
    """Here the main connection stands by on Wi-Fi, and two others carry the data."""
    sit_down(
        monkeypatch,
        {
            "smbutil multichannel -m /Volumes/Projects -f JSON": JSON_REFUSED,
            "smbutil multichannel -m /Volumes/Projects": said(capture("smbutil-multichannel-13.txt")),
            "smbutil statshares -m /Volumes/Projects -f JSON": JSON_REFUSED,
            "smbutil statshares -m /Volumes/Projects": said(capture("smbutil-statshares-12.txt")),
        },
    )
    mount = shares.mount_of("/Volumes/Projects")
    facts = shares.client(mount, "10.44.20.10", [VAULT])

    assert mount is not None
    assert WIRE == mount.local
    assert [("en0", False), ("en7", True), ("en7", True)] == [(each.interface, each.active) for each in facts.channels]
    assert "SMB 2.0.2" == facts.dialect


def test_releases_before_several_channels_have_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """Until 11.2 smbutil does not know the word, and ends with 65."""
    unknown = said(errors="smbutil: unknown command multichannel\n", code=65)
    sit_down(monkeypatch, {f"smbutil multichannel -m /Volumes/Projects{json}": unknown for json in ("", " -f JSON")})
    facts = shares.client(shares.mount_of("/Volumes/Projects"), "10.44.20.10", [VAULT])

    assert ((), "SMB 3.1.1") == (facts.channels, facts.dialect)


def test_the_client_is_asked_mount_by_mount(monkeypatch: pytest.MonkeyPatch) -> None:
    """As root, smbutil becomes the owner of the first mount and fails on those of others."""
    desk = sit_down(monkeypatch)
    shares.client(None, "10.44.20.10", [VAULT])
    asked = [line for line in desk.asked if line.startswith("smbutil")]

    assert asked
    assert all(" -m /Volumes/" in line and " -a" not in line for line in asked)


def test_without_a_folder_the_shares_of_the_host_are_found_by_its_name_or_its_connection(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    sit_down(monkeypatch)
    by_name = shares.client(None, "VAULT", [])
    by_address = shares.client(None, "nas", [VAULT])

    assert ClientFacts(dialect="NFS 3", signing=False, encryption=False) == by_name
    assert [("/Volumes/Projects", "en7"), ("/Volumes/Projects", "en0")] == [
        (channel.share, channel.interface) for channel in by_address.channels
    ]


def test_shares_of_another_host_say_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)

    assert ClientFacts() == shares.client(None, "attic", [ip_address("10.44.20.99")])


@pytest.mark.parametrize(
    ("flavour", "expected"),
    [("sys", (False, False)), ("krb5", (False, False)), ("krb5i", (True, False)), ("krb5p", (True, True))],
)
def test_the_flavour_of_nfs_tells_signing_and_encryption(
    monkeypatch: pytest.MonkeyPatch, flavour: str, expected: tuple[bool, bool]
) -> None:
    """RFC 7530 section 3.2.1: krb5 authenticates, krb5i adds integrity, krb5p privacy."""
    said_so = said(capture("nfsstat-m.txt").replace("sec=sys", f"sec={flavour}"))
    sit_down(monkeypatch, {"nfsstat -m /Volumes/media": said_so})
    facts = shares.client(shares.mount_of("/Volumes/media"), "vault", [])

    assert expected == (facts.signing, facts.encryption)


def test_an_nfs_mount_that_nfsstat_does_not_list_is_unknown(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"nfsstat -m /Volumes/media": said("nfsstat: no mounts\n")})
    mount = shares.mount_of("/Volumes/media")

    assert mount is not None
    assert mount.remote is None
    assert ClientFacts() == shares.client(mount, "vault", [])


def test_other_kinds_of_share_have_no_client_that_reports(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)

    assert ClientFacts() == shares.client(Mount("/Volumes/rushes", "macfuse", "x"), "vault", [VAULT])


def test_a_client_that_is_late_is_an_answer_that_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"smbutil multichannel -m /Volumes/Projects -f JSON": AnswerError("late"), "smbutil": None})

    with pytest.raises(MachineError):
        shares.client(Mount("/Volumes/Projects", "smbfs", "//vault/Projects"), "vault", [VAULT])


def test_channels_are_told_though_the_client_keeps_quiet_about_the_share(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"smbutil statshares -m /Volumes/Projects -f JSON": None})
    facts = shares.client(shares.mount_of("/Volumes/Projects"), "10.44.20.10", [VAULT])

    assert (2, None, None) == (len(facts.channels), facts.dialect, facts.signing)


def test_without_anything_mounted_nothing_is_reported(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"mount": said("/dev/disk3s1s1 on / (apfs, sealed, local, read-only, journaled)\n")})

    assert ClientFacts() == shares.client(None, "vault.local", [VAULT])
