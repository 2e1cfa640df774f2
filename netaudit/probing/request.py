"""What somebody asks a probe for, and how long it may take at most."""

from __future__ import annotations

import os
import re
from typing import NamedTuple

from netaudit.model.services import NFS, SMB
from netaudit.model.vocabulary import Address

FILE_SERVICES = (SMB, NFS)
"""Services that are asked for where nobody names any."""
NAME_S = 5.0
"""Longest wait for a name to be resolved [s]."""
TALK_S = 9.0
"""Longest talk with the storage beside the interval and what is asked for specially [s]."""
TRANSFER_S = 5.0
"""Longest reading or writing of one file [s]."""
CLOSING_S = 4.0
"""Choosing a file to read, and ending a child that hangs in the kernel [s]."""
CLEARING_S = 8.0
"""Removing a file that was written to a share which hangs [s]."""
TRANSFER_BYTES = 1 << 30
"""The most that is read of one file, or written to one [byte]."""


class Request(NamedTuple):
    """What to find out."""

    target: str
    ports: tuple[int, ...] = ()
    """Service ports that were named; empty: the usual ones."""
    seconds: float = 2.0
    """The interval in which counters are watched [s]."""
    read: bool = False
    write: bool = False
    listen_s: float = 0.0
    """How long to wait for the switch's own announcement [s]; 0: not at all."""
    user: str | None = None
    password: str | None = None
    mtu: int | None = None
    """The planned largest packet [octets]."""
    fallback: tuple[Address, ...] = ()
    """Addresses that the plan gives a name which no resolver knows."""

    @property
    def is_folder(self) -> bool:
        """Whether the target is a folder rather than a host."""
        return looks_like_folder(self.target)

    @property
    def bound_s(self) -> float:
        """The longest that the whole probe may take [s]."""
        reading = (2 * TRANSFER_S + CLOSING_S) if self.read else 0
        writing = (TRANSFER_S + CLEARING_S) if self.write else 0
        return NAME_S + TALK_S + self.seconds + self.listen_s + reading + writing


def looks_like_folder(target: str) -> bool:
    """Whether a target is written as a folder: with a slash, a drive letter, a tilde, or a dot in front."""
    drive = re.match(r"^[A-Za-z]:($|[\\/])", target) is not None
    return drive or "/" in target or "\\" in target or target in (".", "..", "~") or os.sep in target
