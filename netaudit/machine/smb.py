"""Asking an SMB server what it is and which of its ports it offers. Nothing of its files is touched."""

from __future__ import annotations

from netaudit.machine.clock import Deadline
from netaudit.model.machine_state import Endpoint
from netaudit.model.observation import Offer, SmbFacts
from netaudit.model.vocabulary import Address

CONTROL_SHARE = "IPC$"
FIRST_WITH_PORTS = "3.0"
"""Older versions know of one connection only: MS-SMB2 section 3.3.5.15.11."""


def negotiate(address: Address, port: int, timeout_s: float) -> SmbFacts:
    """What a server says of itself to whoever asks: version, whether it demands signing, its identifier.

    Nobody signs in. Raises AnswerError where it does not answer as SMB 2 or 3, SilenceError where not in time.
    """
    from netaudit.machine import smb_session  # noqa: PLC0415 - loads a library that only this question needs

    with smb_session.conversation(Endpoint(address, port), Deadline(timeout_s), signed=False) as talk:
        return smb_session.facts(talk)


def offers(  # noqa: PLR0913 - the server, who signs in, and what for
    address: Address,
    port: int,
    timeout_s: float,
    user: str | None = None,
    password: str | None = None,
    *,
    share: str | None = None,
) -> tuple[SmbFacts, tuple[Offer, ...] | None]:
    """What a server says after signing in, and the ports it offers; None where it does not tell.

    Without a user a guest tries. `encryption_required` is known where the server demands it of the whole session, or
    where `share` is named: a share may demand it for itself.
    Raises PrivilegeError where the server wants somebody it knows, AnswerError as `negotiate` does.
    """
    from netaudit.machine import smb_session  # noqa: PLC0415 - as above

    end = Endpoint(address, port)
    with smb_session.conversation(end, Deadline(timeout_s), signed=user is not None) as talk:
        known = smb_session.facts(talk)
        session = smb_session.signed_in(talk, user, password or "")
        control = smb_session.share(session, end, CONTROL_SHARE, user)
        asked = known.dialect is not None and known.dialect >= FIRST_WITH_PORTS
        found = smb_session.port_list(session, control) if asked else None
        encrypted = smb_session.encryption(session, end, share, user)
    return known._replace(encryption_required=encrypted, signed_in=user is not None), found
