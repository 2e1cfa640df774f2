"""`dns-sd -L`: the host behind a service that announces itself.

Format: Apple, mDNSResponder, Clients/dns-sd.c. It never ends by itself and must be told a time.
"""

from __future__ import annotations

import re

_REACHED = re.compile(r" can be reached at (\S+):(\d{1,5}) \(interface \d+\)")


def parse_resolved(text: str) -> str | None:
    """The host's name without its last dot; None where nobody answered."""
    found = _REACHED.search(text)
    return found[1].rstrip(".") or None if found else None
