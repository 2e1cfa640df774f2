"""What the file client of Windows says of its session with a storage."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from netaudit.errors import MachineError, PrivilegeError
from netaudit.machine.parse.windows.json_shape import Row
from netaudit.machine.parse.windows.script import answered
from netaudit.machine.parse.windows.smb import client, party
from netaudit.machine.windows import queries
from netaudit.machine.windows.links import by_number
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import ClientFacts, Mount
from netaudit.model.vocabulary import Address


def client_facts(ways: Ways, mount: Mount | None, host: str, remotes: Collection[Address]) -> ClientFacts:
    """Channels, dialect, signing and encryption of the SMB session.

    Without elevation Windows may tell a part of it; PrivilegeError where it tells nothing.
    """
    if mount is not None and mount.kind != "smb":
        return ClientFacts()
    answers = ways.ask(queries.MULTICHANNEL, queries.SMB_SESSIONS)
    refused: list[MachineError] = []
    multichannel = _rows(answers, "multichannel", refused)
    sessions = _rows(answers, "smbSessions", refused)
    named = party(host, mount.host if mount else None, mount.share if mount else None, remotes)
    names = {number: each.name for number, each in by_number(ways).items()}
    facts = client(multichannel, sessions, named, names)
    if refused and facts == ClientFacts():
        raise next((error for error in refused if isinstance(error, PrivilegeError)), refused[0])
    return facts


def _rows(answers: Mapping[str, object], name: str, refused: list[MachineError]) -> tuple[Row, ...]:
    try:
        return answered(answers, name)
    except MachineError as error:
        refused.append(error)
        return ()
