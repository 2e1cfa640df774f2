"""What the file clients of the kernel, SMB and NFS, say of their own connections with a storage."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from pathlib import Path
from typing import NamedTuple

from netaudit.machine.parse.linux.cifs import CifsServer, cifs_servers
from netaudit.machine.parse.linux.mounts import NFS_KINDS, SMB_KINDS
from netaudit.machine.parse.linux.nfs import Transport, mount_transports, nfs_servers, transport
from netaudit.machine.small_files import names_in, text_of
from netaudit.model.machine_state import Channel, ClientFacts, Mount
from netaudit.model.vocabulary import Address

TRANSPORTS_AT_MOST = 256
TRANSPORT_TEXTS = ("dstaddr", "srcaddr", "xprt_info", "xprt_state")


class Roots(NamedTuple):
    """Where the kernel shows its files."""

    proc: Path = Path("/proc")
    sys: Path = Path("/sys")


def client_facts(
    mount: Mount | None, host: str, remotes: Collection[Address], roots: Roots | None = None
) -> ClientFacts:
    """What the client that holds a mount says of it, else what any client says of that host.

    Empty where the kernel has no such client. It never names an interface: where packets go is the routes' to tell.
    """
    where = roots or Roots()
    share = mount.source if mount is not None else host
    known = {*remotes, *([mount.remote] if mount is not None and mount.remote is not None else [])}
    if mount is not None and mount.kind in NFS_KINDS:
        return _nfs(mount, share, known, where)
    if mount is not None and mount.kind not in SMB_KINDS:
        return ClientFacts()
    servers = cifs_servers(text_of(where.proc / "fs" / "cifs" / "DebugData"))
    found = [each for each in servers if _is_meant(each, host, known)]
    facts = _smb(found[0], share) if found else ClientFacts()
    if mount is not None:
        return _with_options(facts, mount)
    return facts if found else ClientFacts(tuple(_nfs_channels(share, known, frozenset(), where)))


def _is_meant(server: CifsServer, host: str, remotes: Collection[Address]) -> bool:
    named = server.host is not None and server.host.casefold() == host.casefold()
    return named or not set(server.addresses).isdisjoint(remotes)


def _smb(server: CifsServer, share: str) -> ClientFacts:
    speeds = dict(server.speeds)
    return ClientFacts(
        channels=tuple(
            Channel(share, None, each.local, each.remote, speeds.get(each.remote) if each.remote else None, each.good)
            for each in server.channels
        ),
        dialect=server.dialect,
        signing=server.signing,
        encryption=server.encryption,
    )


def _with_options(facts: ClientFacts, mount: Mount) -> ClientFacts:
    """What the options of an SMB mount tell beside it: `sec=…i` signs, `seal` encrypts, mount.cifs(8)."""
    options = dict(each.partition("=")[::2] for each in mount.options)
    security = options.get("sec", "")
    return facts._replace(
        dialect=facts.dialect or options.get("vers") or None,
        signing=True if facts.signing is None and security.endswith("i") else facts.signing,
        encryption=True if facts.encryption is None and "seal" in options else facts.encryption,
    )


def _nfs(mount: Mount, share: str, remotes: Collection[Address], roots: Roots) -> ClientFacts:
    """Channels and protection of an NFS mount: `sec=` and `xprtsec=` of nfs(5)."""
    options = dict(each.partition("=")[::2] for each in mount.options)
    ports = mount_transports(text_of(roots.proc / "self" / "mountstats"), mount.folder)
    own = frozenset(each.local_port for each in ports if each.local_port is not None)
    servers = nfs_servers(text_of(roots.proc / "fs" / "nfsfs" / "servers"))
    named = {each.address for each in servers if mount.host and each.host.casefold() == mount.host.casefold()}
    security, sealed = options.get("sec"), options.get("xprtsec", "none") in ("tls", "mtls")
    return ClientFacts(
        channels=tuple(_nfs_channels(share, remotes or named, own, roots)),
        dialect=f"NFS {options['vers']}" if options.get("vers") else None,
        signing=None if security is None else security in ("krb5i", "krb5p"),
        encryption=True if sealed else None if security is None else security == "krb5p",
    )


def _nfs_channels(
    share: str, remotes: Collection[Address], own_ports: Collection[int], roots: Roots
) -> Iterator[Channel]:
    """Transports to some addresses; of one mount alone where its own ports are known."""
    found = [each for each in _transports(roots.sys) if each.remote in remotes and each.local is not None]
    own = [each for each in found if each.local_port in own_ports]
    for each in own or found:
        yield Channel(share, None, each.local, each.remote, active=each.connected is not False)


def _transports(sys_root: Path) -> Iterator[Transport]:
    switches = sys_root / "kernel" / "sunrpc" / "xprt-switches"
    folders = [switches / switch / name for switch in names_in(switches) for name in names_in(switches / switch)]
    for folder in [each for each in folders if each.name.startswith("xprt-")][:TRANSPORTS_AT_MOST]:
        yield transport({name: text_of(folder / name) for name in TRANSPORT_TEXTS})
