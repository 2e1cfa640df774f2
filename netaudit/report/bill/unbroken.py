"""Numbers kept on one line with their units, for what is printed."""

from __future__ import annotations

import re

NO_BREAK = "\N{NO-BREAK SPACE}"
_UNIT = re.compile(r"(?<=[0-9]) (?=(?:mm|m|km|ft|AWG|[kMG]?[bB]/s)(?!\w))")


def unbroken(text: str) -> str:
    """A text in which no line ends between a number and its unit."""
    return _UNIT.sub(NO_BREAK, text)
