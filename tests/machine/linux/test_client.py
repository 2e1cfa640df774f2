"""What the kernel's file clients say, from captures whose formats tests/machine/parse/linux names."""

import shutil
from collections.abc import Mapping
from ipaddress import ip_address
from pathlib import Path

import pytest

from netaudit.machine.linux.client import Roots, client_facts
from netaudit.model.machine_state import Channel, ClientFacts, Mount

CAPTURES = Path(__file__).parents[2] / "captures" / "linux"
FAST, HERE = ip_address("192.0.2.50"), ip_address("198.51.100.21")


def smb_mount(*options: str) -> Mount:
    return Mount("/mnt/media", "cifs", "//vault/media", "vault", "media", FAST, None, 445, None, options)


def nfs_mount(*options: str) -> Mount:
    return Mount("/mnt/nfs", "nfs4", "192.0.2.50:/data", "192.0.2.50", "/data", FAST, None, 2049, None, options)


@pytest.fixture
def roots(tmp_path: Path) -> Roots:
    """A kernel that has neither client yet."""
    for folder in ("proc/fs/cifs", "proc/fs/nfsfs", "proc/self", "sys/kernel/sunrpc/xprt-switches"):
        (tmp_path / folder).mkdir(parents=True)
    return Roots(tmp_path / "proc", tmp_path / "sys")


def with_smb(roots: Roots, capture: str) -> Roots:
    shutil.copy(CAPTURES / capture, roots.proc / "fs" / "cifs" / "DebugData")
    return roots


def with_nfs(roots: Roots, *transports: Mapping[str, str]) -> Roots:
    shutil.copy(CAPTURES / "mountstats.txt", roots.proc / "self" / "mountstats")
    shutil.copy(CAPTURES / "nfsfs-servers.txt", roots.proc / "fs" / "nfsfs" / "servers")
    for number, texts in enumerate(transports):
        folder = roots.sys / "kernel" / "sunrpc" / "xprt-switches" / "switch-0" / f"xprt-{number}-tcp"
        folder.mkdir(parents=True)
        for name, text in texts.items():
            (folder / name).write_text(text)
    return roots


def transport(source: str, source_port: int, state: str = "CONNECTED", remote: str = "192.0.2.50") -> dict[str, str]:
    return {
        "dstaddr": f"{remote}\n\0",
        "srcaddr": f"{source}\n\0" if source else "",
        "xprt_info": f"src_port={source_port}\ndst_port=2049\n\0",
        "xprt_state": f"state= {state} \n\0",
    }


def test_a_kernel_without_such_a_client_says_nothing(roots: Roots) -> None:
    assert ClientFacts() == client_facts(smb_mount(), "vault", [FAST], roots)
    assert ClientFacts() == client_facts(None, "vault", [FAST], roots)
    assert ClientFacts() == client_facts(nfs_mount(), "vault", [FAST], roots)


def test_smb_channels_come_with_what_protects_them(roots: Roots) -> None:
    share = "//vault/media"
    expected = ClientFacts(
        (
            Channel(share, None, None, FAST, 10**10),
            Channel(share, None),
            Channel(share, None, active=False),
        ),
        "3.1.1", signing=True, encryption=False,
    )  # fmt: skip

    assert expected == client_facts(smb_mount(), "vault", [], with_smb(roots, "cifs-6.txt"))


def test_a_server_is_known_by_its_address_or_by_its_name(roots: Roots) -> None:
    with_smb(roots, "cifs-later.txt")
    by_address = client_facts(None, "store", [FAST], roots)
    by_name = client_facts(None, "VAULT.boathouse.example", [], roots)
    other = client_facts(None, "store", [ip_address("192.0.2.60")], roots)

    assert [HERE, ip_address("fd55::11"), None] == [each.local for each in by_address.channels]
    assert by_address.dialect == by_name.dialect == "3.1.1"
    assert ClientFacts() == other


@pytest.mark.parametrize(
    ("options", "expected"),
    [
        (("vers=3.1.1", "sec=ntlmsspi", "seal"), ClientFacts((), "3.1.1", signing=True, encryption=True)),
        (("vers=3.0", "sec=ntlmssp"), ClientFacts((), "3.0", signing=None, encryption=None)),
        ((), ClientFacts()),
    ],
)
def test_where_the_table_is_missing_the_options_tell_what_they_can(
    roots: Roots, options: tuple[str, ...], expected: ClientFacts
) -> None:
    """An option that is not set leaves open what was agreed: the server may ask for it."""
    assert expected == client_facts(smb_mount(*options), "vault", [FAST], roots)


def test_an_nfs_mount_has_its_own_transports_to_its_server(roots: Roots) -> None:
    with_nfs(
        roots,
        transport("198.51.100.21", 855),
        transport("198.51.100.99", 900),
        transport("198.51.100.21", 855, remote="192.0.2.60"),
        transport("", 0, "BOUND"),
    )
    expected = ClientFacts((Channel("192.0.2.50:/data", None, HERE, FAST),), "NFS 4.2", signing=False, encryption=False)

    assert expected == client_facts(nfs_mount("vers=4.2", "sec=sys"), "192.0.2.50", [FAST], roots)


def test_a_transport_that_rests_is_not_active(roots: Roots) -> None:
    with_nfs(roots, transport("198.51.100.21", 901, "BOUND"))
    expected = (Channel("vault", None, HERE, FAST, active=False),)

    assert expected == client_facts(None, "vault", [FAST], roots).channels


@pytest.mark.parametrize(
    ("options", "signing", "encryption"),
    [
        (("sec=krb5i",), True, False),
        (("sec=krb5p",), True, True),
        (("sec=sys", "xprtsec=tls"), False, True),
        ((), None, None),
    ],
)
def test_what_protects_an_nfs_mount_stands_in_its_options(
    roots: Roots, options: tuple[str, ...], signing: bool | None, encryption: bool | None
) -> None:
    """sec= and xprtsec= as nfs(5) defines them."""
    facts = client_facts(nfs_mount(*options), "vault", [], roots)

    assert (signing, encryption) == (facts.signing, facts.encryption)


def test_a_share_in_user_space_has_no_client_in_the_kernel(roots: Roots) -> None:
    mount = smb_mount()._replace(kind="fuse.smbnetfs")

    assert ClientFacts() == client_facts(mount, "vault", [FAST], with_smb(roots, "cifs-6.txt"))
