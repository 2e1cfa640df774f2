"""Whose a connection is: users by their numbers, from this machine's own list of them.

Directories of users elsewhere are not asked: they may be late, or be reached over the very network in question.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

PASSWD = Path("/etc/passwd")
_MOST_CHARS = 4_000_000


def owner(uid: int) -> str:
    """The name of a user, or its number in words where this machine has no name for it."""
    return _users().get(uid, f"uid {uid}")


def parse_users(text: str) -> Mapping[int, str]:
    """Names of users by their numbers, the first that has a number; passwd(5)."""
    users: dict[int, str] = {}
    for line in text.splitlines():
        name, *fields = line.split(":")
        if name and len(fields) == 6 and fields[1].isascii() and fields[1].isdecimal() and len(fields[1]) < 11:
            users.setdefault(int(fields[1]), name)
    return users


@cache
def _users() -> Mapping[int, str]:
    try:
        with PASSWD.open(encoding="utf-8", errors="replace") as file:
            return parse_users(file.read(_MOST_CHARS))
    except OSError:
        return {}
