"""Words for Ethernet media: `autoselect (10Gbase-T <full-duplex,flow-control>)`, and the rate that each stands for.

Spelling: Apple, xnu, bsd/net/if_media.h; case is mixed there: 10Gbase-T, 2500Base-T, 10GBase-KR.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from netaudit.model.machine_state import Duplex

_WORD = r"(<unknown [a-z]+>|[^\s<()]+)(?: <([^>]*)>)?"
_MEDIA = re.compile(rf"{_WORD}(?: \({_WORD} ?\))?")
_RATE = re.compile(r"([0-9]{1,4})([GM]?)(?=-|[Bb]ase)|PCIExpress-([0-9]{1,4})(G)")
_BIT_PER_S = {"": 10**6, "M": 10**6, "G": 10**9}


class Media(NamedTuple):
    """What an interface is set to, and what it came to."""

    selected: str
    active: str
    """The same word where it was set by hand."""
    options: frozenset[str]

    @property
    def rate_bit_per_s(self) -> int | None:
        """The agreed rate [bit/s]; None where the medium names none."""
        return media_rate_bit_per_s(self.active)

    @property
    def duplex(self) -> Duplex | None:
        """Full or half duplex, where it says so."""
        if "full-duplex" in self.options:
            return "full"
        return "half" if "half-duplex" in self.options else None

    @property
    def forced_bit_per_s(self) -> int | None:
        """The one rate that it offers where it was set by hand [bit/s]."""
        return media_rate_bit_per_s(self.selected)


def parse_media(text: str) -> Media | None:
    """A line of media; options are parted by commas in ifconfig and by spaces in networksetup."""
    found = _MEDIA.match(text)
    if found is None:
        return None
    selected, own, active, reached = found.groups()
    options = (reached if active else own) or ""
    return Media(selected, active or selected, frozenset(re.split(r"[,\s]+", options.strip())) - {""})


def media_rate_bit_per_s(word: str) -> int | None:
    """The rate of a medium [bit/s]; None for autoselect, none and what is not known."""
    found = _RATE.match(word)
    if found is None:
        return None
    digits, factor = (found[1], found[2]) if found[1] else (found[3], found[4])
    return int(digits) * _BIT_PER_S[factor] or None
