"""What the SMB client of Windows reports: multichannel, sessions, mapped drives.

MSFT_SmbMultichannelConnection, MSFT_SmbConnection and MSFT_SmbMapping.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import NamedTuple, TypeVar

from netaudit.machine.parse.literals import address_of, without_zone
from netaudit.machine.parse.windows.facts import rate_of
from netaudit.machine.parse.windows.json_shape import Row, flag, text, whole
from netaudit.model.machine_state import Channel, ClientFacts
from netaudit.model.vocabulary import Address

Value = TypeVar("Value")


class Party(NamedTuple):
    """A storage as this machine may call it."""

    names: frozenset[str]
    """Its names and addresses as text, in lower case."""
    addresses: frozenset[Address]
    share: str | None = None

    def is_called(self, name: str | None) -> bool:
        """Whether a server of that name is meant: whole, or its first label where one of the two is short."""
        if name is None:
            return False
        folded = name.casefold()
        return folded in self.names or any(_short(folded, other) for other in self.names)


def party(host: str, mounted_host: str | None, share: str | None, remotes: Collection[Address]) -> Party:
    """The storage by every name and address that is known of it."""
    names = {name.casefold() for name in (host, mounted_host) if name}
    plain = frozenset(without_zone(remote) for remote in remotes)
    return Party(frozenset(names | {str(remote) for remote in plain}), plain, share)


def _short(one: str, other: str) -> bool:
    """Whether one name is the first label of the other: `vault` and `vault.boathouse.example`."""
    short, long = sorted((one, other), key=len)
    return address_of(long) is None and "." not in short and long.partition(".")[0] == short


def client(
    multichannel: Iterable[Row], sessions: Iterable[Row], storage: Party, interfaces: Mapping[int, str]
) -> ClientFacts:
    """What the client says of its session with a storage; interfaces by their number.

    The server's name in a session is as the user typed it, so the addresses of the channels decide as well.
    """
    own = [row for row in multichannel if _meant(row, storage)]
    servers = {server.casefold() for row in own if (server := text(row, "ServerName")) is not None}
    rows = [row for row in sessions if _session_meant(row, storage, servers)]
    return ClientFacts(
        channels=tuple(_channels(own, interfaces)),
        dialect=_agreed(text(row, "Dialect") for row in rows),
        signing=_agreed(flag(row, "Signed") for row in rows),
        encryption=_agreed(flag(row, "Encrypted") for row in rows),
    )


def _meant(row: Row, storage: Party) -> bool:
    address = address_of(text(row, "ServerIpAddress"))
    return (address is not None and without_zone(address) in storage.addresses) or storage.is_called(
        text(row, "ServerName")
    )


def _session_meant(row: Row, storage: Party, servers: Collection[str]) -> bool:
    server, share = text(row, "ServerName"), text(row, "ShareName")
    if storage.share is not None and share is not None and share.casefold() != storage.share.casefold():
        return False
    return storage.is_called(server) or (server or "").casefold() in servers


def _channels(rows: Iterable[Row], interfaces: Mapping[int, str]) -> Iterator[Channel]:
    for row in rows:
        number = whole(row, "ClientInterfaceIndex")
        known = interfaces.get(number) if number is not None else None
        yield Channel(
            share=f"\\\\{text(row, 'ServerName') or ''}",
            interface=known or text(row, "ClientInterfaceFriendlyName"),
            local=address_of(text(row, "ClientIpAddress")),
            remote=address_of(text(row, "ServerIpAddress")),
            rate_bit_per_s=rate_of(whole(row, "ClientLinkSpeed")),
            active=_active(row),
        )


def _active(row: Row) -> bool:
    """Whether a pair of interfaces carries data: chosen, not failed, and with a connection where they are counted."""
    chosen = flag(row, "Selected") is not False and flag(row, "Failed") is not True
    return chosen and whole(row, "CurrentChannels") != 0


def _agreed(values: Iterable[Value | None]) -> Value | None:
    """The value in which all rows agree; None where they do not, or none tells."""
    told = set(values)
    return told.pop() if len(told) == 1 else None


def mapped(rows: Iterable[Row], drive: str) -> str | None:
    """What a drive letter stands for, by Get-SmbMapping: the share's UNC path; None where it is no mapped drive."""
    for row in rows:
        if (text(row, "LocalPath") or "").casefold() == drive.casefold():
            return text(row, "RemotePath")
    return None
