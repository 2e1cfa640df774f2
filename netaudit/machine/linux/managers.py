"""What manages the network: the state that the two common managers keep under /run, readable by everybody.

Formats: the key file that NetworkManager keeps for each device (`[device]`, `managed=true`), and the state file that
systemd-networkd keeps for each link (`ADMIN_STATE=configured`). Neither is asked over a bus: a manager that hangs would
hang the question.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from pathlib import Path

RUN = Path("/run")
_MOST_FILES = 1_000
_MOST_CHARS = 65_536
_NOT_MANAGED = ("unmanaged", "linger")


def manager(run: Path = RUN) -> str | None:
    """`networkmanager` or `networkd`, whichever manages an interface; None where neither does."""
    if "true" in _values(run / "NetworkManager" / "devices", "managed"):
        return "networkmanager"
    states = _values(run / "systemd" / "netif" / "links", "ADMIN_STATE")
    return "networkd" if any(state not in _NOT_MANAGED for state in states) else None


def parse_value(text: str, key: str) -> str | None:
    """The value of `key=value` on a line of its own; None where there is none."""
    for line in text.splitlines():
        name, equals, value = line.partition("=")
        if equals and name.strip() == key:
            return value.strip()
    return None


def _values(folder: Path, key: str) -> Iterator[str]:
    """What the files of a folder say under a key, one file an interface."""
    try:
        files = sorted(islice(folder.iterdir(), _MOST_FILES))
    except OSError:
        return
    for path in files:
        try:
            with path.open(encoding="utf-8", errors="replace") as file:
                value = parse_value(file.read(_MOST_CHARS), key)
        except OSError:
            continue
        if value:
            yield value
