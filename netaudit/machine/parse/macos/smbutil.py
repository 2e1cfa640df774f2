"""`smbutil statshares`: the dialect of a mounted share, and whether it is signed and encrypted.

Format: Apple, SMBClient, smbutil/stat.c. The text form lists what is TRUE only; the JSON form lists all.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from netaudit.machine.parse.macos.words import json_of, list_of, mapping_of, text_of

_KEY = re.compile(r"[A-Z0-9_]+")
_RULE = re.compile(r"[-=]{10,}")
_DIALECT = re.compile(r"SMB_([0-9.]+)")


class ShareFacts(NamedTuple):
    """What the file client says of one mounted share."""

    share: str
    dialect: str | None = None
    """`SMB 3.1.1`."""
    signing: bool | None = None
    """Whether the session is signed, not only able to be."""
    encryption: bool | None = None


def parse_statshares(text: str) -> tuple[ShareFacts, ...]:
    """Shares of the text form. What is not TRUE there is not listed: it is false where a whole block was read."""
    return tuple(_facts(name, values) for name, values in _blocks(text))


def parse_statshares_json(text: str) -> tuple[ShareFacts, ...]:
    """Shares of the JSON form; raises AnswerError where it is none."""
    answer = json_of(text, "smbutil statshares")
    rows = [mapping_of(row) for row in (list_of(answer) or [answer])]
    return tuple(_facts(name, _texts(row)) for row in rows if (name := text_of(row.get("share_name"))))


def _blocks(text: str) -> Iterator[tuple[str, Mapping[str, str]]]:
    """Share names with their values; a value that is listed twice keeps its last line."""
    name, values = "", dict[str, str]()
    for line in text.splitlines():
        value = _value(line)
        if value and name:
            values[value[0]] = value[1]
        elif _RULE.match(line) or (line.strip() and not value):
            if name and values:
                yield name, values
            heading = _RULE.match(line) or line.startswith("SHARE ")
            name, values = "" if heading else line.strip(), {}
    if name and values:
        yield name, values


def _value(line: str) -> tuple[str, str] | None:
    """An indented line, parted into key and value."""
    words = line.split(maxsplit=1)
    indented = line[:1].isspace() and len(words) == 2 and _KEY.fullmatch(words[0])
    return (words[0], words[1].rstrip()) if indented else None


def _texts(row: Mapping[str, object]) -> Mapping[str, str]:
    """The values as the text form writes them; false is written out."""
    return {key: str(value).upper() if isinstance(value, bool) else value for key, value in row.items()
            if isinstance(value, bool | str)}  # fmt: skip


def _facts(name: str, values: Mapping[str, str]) -> ShareFacts:
    dialect = _DIALECT.fullmatch(values.get("SMB_VERSION", ""))
    return ShareFacts(
        share=name,
        dialect=f"SMB {_plain(dialect[1])}" if dialect else None,
        signing=_in_force(values, "SMB_CURR_SIGN_ALGORITHM", "SIGNING_ON"),
        encryption=_in_force(values, "SMB_CURR_ENCRYPT_ALGORITHM", "ENCRYPTION_REQUIRED"),
    )


def _in_force(values: Mapping[str, str], algorithm: str, flag: str) -> bool | None:
    """The flag decides where it is TRUE, then the algorithm in use, which newer releases name."""
    if values.get(flag, "").upper() == "TRUE":
        return True
    return values[algorithm].upper() != "OFF" if algorithm in values else _truth(values, flag)


def _truth(values: Mapping[str, str], flag: str) -> bool | None:
    """A flag that is not listed is false, as long as the block says which dialect it is about."""
    if flag in values:
        return values[flag].upper() == "TRUE"
    return False if "SMB_VERSION" in values else None


def _plain(version: str) -> str:
    """2.002 is the dialect that the protocol calls 2.0.2 (MS-SMB2 section 2.2.3)."""
    return "2.0.2" if version == "2.002" else version
