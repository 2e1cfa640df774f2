"""Mounted shares of a Mac: which one holds a folder, and what the file client says of its connections."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from netaudit.errors import AnswerError
from netaudit.machine.clock import Deadline
from netaudit.machine.macos.asking import beside, text
from netaudit.machine.macos.folders import share_of
from netaudit.machine.parse.literals import address_of
from netaudit.machine.parse.macos.host_answers import parse_resolved
from netaudit.machine.parse.macos.mounts import NfsMount, instance_of, network_mounts, parse_mounts, parse_nfsstat
from netaudit.machine.parse.macos.multichannel import SmbSession, parse_multichannel, parse_multichannel_json
from netaudit.machine.parse.macos.smbutil import ShareFacts, parse_statshares, parse_statshares_json
from netaudit.model.machine_state import Channel, ClientFacts, Mount
from netaudit.model.vocabulary import Address

MOUNT = "/sbin/mount"
SMBUTIL = "/usr/bin/smbutil"
NFSSTAT = "/usr/bin/nfsstat"
DNS_SD = "/usr/bin/dns-sd"
CLIENT_S = 2.0
"""Wait for the file client, which may itself wait for a dead server [s]."""
INSTANCE_S = 1
"""Time that a service instance has to name its host [s]."""


def mount_of(folder: str) -> Mount | None:
    """The share that holds a folder, with its living connection where the file client tells."""
    shares = tuple(network_mounts(parse_mounts(text(MOUNT))))
    share = share_of(folder, shares)
    return None if share is None else _connected(share)


def client(mount: Mount | None, host: str, remotes: Collection[Address]) -> ClientFacts:
    """What the file client says of a mount, or of the shares of a host.

    It is asked mount by mount: asked for all at once it fails where several users have mounted some.
    """
    if mount is not None:
        return _told(mount)
    deadline = Deadline(CLIENT_S)
    told: list[ClientFacts] = []
    for share in network_mounts(parse_mounts(text(MOUNT))):
        if not deadline.over and _is_of(share, host, remotes):
            facts = beside(lambda share=share: _told(share))  # type: ignore[misc]
            told += [] if facts is None else [facts]
    return _together(told)


def _is_of(share: Mount, host: str, remotes: Collection[Address]) -> bool:
    """Whether a share is of a host: it bears the same name, or its connection goes to one of the addresses."""
    if share.host is not None and (share.host.casefold() == host.casefold() or address_of(share.host) in remotes):
        return True
    return _connected(share).remote in remotes


def _together(told: Sequence[ClientFacts]) -> ClientFacts:
    """The channels of all shares, and what the first share that says it says of the session."""
    return ClientFacts(
        channels=tuple(channel for facts in told for channel in facts.channels),
        dialect=next((facts.dialect for facts in told if facts.dialect is not None), None),
        signing=next((facts.signing for facts in told if facts.signing is not None), None),
        encryption=next((facts.encryption for facts in told if facts.encryption is not None), None),
    )


def _told(share: Mount) -> ClientFacts:
    if share.kind == "nfs":
        nfs = parse_nfsstat(text(NFSSTAT, "-m", share.folder, timeout_s=CLIENT_S)).get(share.folder)
        return ClientFacts() if nfs is None else _nfs_facts(nfs)
    if share.kind != "smbfs":
        return ClientFacts()
    session, facts = _smb_session(share), beside(lambda: _share_facts(share))
    channels = () if session is None else tuple(_channels(session))
    if facts is None:
        return ClientFacts(channels)
    return ClientFacts(channels, facts.dialect, facts.signing, facts.encryption)


def _connected(share: Mount) -> Mount:
    """The share with the ends of its connection, and with a host where Finder mounted it by a service's name."""
    ends = beside(lambda: _ends(share))
    remote, local = ends or (None, None)
    host = share.host
    instance = instance_of(host or "")
    if instance is not None:
        words = ("-L", instance.name, instance.service, instance.domain)
        said = beside(lambda: text(DNS_SD, "-t", str(INSTANCE_S), *words, timeout_s=INSTANCE_S + CLIENT_S))
        host = None if said is None else parse_resolved(said)
    return share._replace(host=host, remote=remote, local=local)


def _ends(share: Mount) -> tuple[Address | None, Address | None]:
    """The storage's and this machine's address of a share's connection."""
    if share.kind == "nfs":
        nfs = parse_nfsstat(text(NFSSTAT, "-m", share.folder, timeout_s=CLIENT_S)).get(share.folder)
        return (nfs.addresses[0] if nfs is not None and len(nfs.addresses) == 1 else None), None
    session = _smb_session(share) if share.kind == "smbfs" else None
    if session is None or not session.channels:
        return None, None
    carrying = min(session.channels, key=lambda channel: (not channel.active, not channel.main))
    return carrying.remote, session.local(carrying)


def _smb_session(share: Mount) -> SmbSession | None:
    """The session of one mount, in JSON where the release knows that, else in text; none before macOS 11.3."""
    words = (SMBUTIL, "multichannel", "-m", share.folder)
    try:
        found = parse_multichannel_json(text(*words, "-f", "JSON", timeout_s=CLIENT_S))
    except AnswerError:
        found = parse_multichannel(text(*words, timeout_s=CLIENT_S))
    return next((session for session in found if session.mount == share.folder), found[0] if found else None)


def _share_facts(share: Mount) -> ShareFacts | None:
    words = (SMBUTIL, "statshares", "-m", share.folder)
    try:
        found = parse_statshares_json(text(*words, "-f", "JSON", timeout_s=CLIENT_S))
    except AnswerError:
        found = parse_statshares(text(*words, timeout_s=CLIENT_S))
    return found[0] if found else None


def _channels(session: SmbSession) -> Iterator[Channel]:
    for channel in session.channels:
        yield Channel(
            share=session.mount,
            interface=channel.interface,
            local=session.local(channel),
            remote=channel.remote,
            rate_bit_per_s=channel.rate_bit_per_s,
            active=channel.active,
            sent_bytes=channel.sent_bytes,
            received_bytes=channel.received_bytes,
        )


def _nfs_facts(nfs: NfsMount) -> ClientFacts:
    """The version, and what the security flavour does: krb5i signs, krb5p encrypts too (RFC 7530 section 3.2.1)."""
    version, flavour = nfs.parameters.get("vers"), nfs.parameters.get("sec")
    return ClientFacts(
        dialect=f"NFS {version}" if version else None,
        signing=None if flavour is None else flavour in ("krb5i", "krb5p"),
        encryption=None if flavour is None else flavour == "krb5p",
    )
