"""The system's resolver, asked in a child process: it may hang for half a minute, and a thread cannot be killed."""

from __future__ import annotations

import json
import socket
from collections.abc import Iterator, Sequence

UNKNOWN = frozenset(getattr(socket, name) for name in ("EAI_NONAME", "EAI_NODATA") if hasattr(socket, name))
"""What a resolver says of a name that does not exist, or has no address."""


def main(words: Sequence[str]) -> None:
    """Print what the resolver says of one name, a JSON value a line; the last one is a text when it failed."""
    for line in answers(words[0]):
        print(json.dumps(line), flush=True)


def answers(host: str) -> Iterator[list[str] | str]:
    """Each address in the order of the system, beside the interface of a link-local one; a text where it failed."""
    try:
        rows = socket.getaddrinfo(host, None, type=socket.SOCK_STREAM)
    except UnicodeError:
        return
    except socket.gaierror as error:
        if error.errno not in UNKNOWN:
            yield error.strerror or "no reason given"
        return
    for _, _, _, _, end in rows:
        scope = end[3] if len(end) == 4 else 0
        yield [str(end[0]), _interface(scope) if scope else ""]


def _interface(number: int) -> str:
    try:
        return socket.if_indextoname(number)
    except OSError:
        return str(number)
