"""Rates as the settings of systems and switches show them: `10 Gbps`, `10GBASE-T`, `10000/10000 (Mbps)`."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from netaudit.plan.scalars.text import quoted

LONGEST = 64
"""Characters of a text that may be a rate."""
_NUMBER = r"([0-9]+(?:\.[0-9]+)?)\s*"
_DUPLEX = re.compile(r"(?<=\S)[\s,;/<(]*(full|half)(?:[\s-]?duplex)?[>)]*\Z", re.IGNORECASE)
_BITS = re.compile(rf"{_NUMBER}([kmgt])(?:b|bps|b/s|bits?|bits?/s|bits?/sec|be|ig|ige)?", re.IGNORECASE)
_IN_BYTES = re.compile(r"B(?![eE]|[iI][tT])")
_LAYER = re.compile(rf"{_NUMBER}(g?)[\s-]?base[\s-]?[a-z0-9+-]*", re.IGNORECASE)
_BOTH_UNITS = re.compile(r"([0-9.]+ [kMGT]?b/s) \([0-9.]+ [kMGT]?B/s\)")
"""As our own sheets write a rate: units.both_rates_text."""
_BOTH_WAYS = re.compile(rf"{_NUMBER}/\s*{_NUMBER}\(?\s*([^()\s]+)\s*\)?")


def as_rate(text: str) -> str:
    """A rate as a plan writes it, such as `10 Gb/s`; any other text as it is.

    A layer of Ethernet has its rate in its name, in Mb/s unless it says G: IEEE 802.3 clause 1.2.3. Raises ValueError
    where a link runs one way at a time, or at two rates.
    """
    if len(text) > LONGEST:
        return text
    words = _without_duplex(text)
    for form, read in _FORMS.items():
        found = form.fullmatch(words)
        if found is not None:
            return read(found)
    return words


def _without_duplex(text: str) -> str:
    """A text without the words at its end for a link that runs both ways at once."""
    found = _DUPLEX.search(text)
    if found is None:
        return text
    if found[1].casefold() == "half":
        raise ValueError(f"{quoted(text)} runs one way at a time: write the rate alone, and this into the note")
    return text[: found.start()]


def _bits(found: re.Match[str]) -> str:
    """Bits; what may be bytes stays as it is."""
    number, prefix = found.groups()
    if _IN_BYTES.search(found[0]):
        return found[0]
    return f"{number} {prefix.lower() if prefix in 'kK' else prefix.upper()}b/s"


def _layer(found: re.Match[str]) -> str:
    return f"{found[1]} {'Gb/s' if found[2] else 'Mb/s'}"


def _both_ways(found: re.Match[str]) -> str:
    one, other, unit = found.groups()
    if float(one) != float(other):
        raise ValueError(f"{quoted(found[0])} is two rates: write the lower one, and this into the note")
    return as_rate(f"{one} {unit}")


_FORMS: Mapping[re.Pattern[str], Callable[[re.Match[str]], str]] = {
    _BITS: _bits,
    _BOTH_UNITS: lambda found: found[1],
    _LAYER: _layer,
    _BOTH_WAYS: _both_ways,
}
