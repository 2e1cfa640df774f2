"""`traceroute -n -q 1`: the routers on the way.

Format from memory: a line per hop, its number, then an address and a time, or a star.
"""

from __future__ import annotations

import re

from netaudit.machine.parse.literals import address_of
from netaudit.model.vocabulary import Address

_HOP = re.compile(r"\s*\d{1,3}\s+(\S+)\s")


def parse_traceroute(text: str, target: Address) -> tuple[Address, ...]:
    """Routers that answered, the nearest first, without the target itself."""
    hops = (address_of(found[1]) for found in map(_HOP.match, text.splitlines()) if found)
    return tuple(dict.fromkeys(hop for hop in hops if hop is not None and hop != target))
