"""How single facts of a probe are spelt: media, rates, and texts that come from elsewhere."""

from __future__ import annotations

from netaudit.model.machine_state import Interface, Medium
from netaudit.units import both_rates_text

MEDIA: dict[Medium, str] = {
    "wired": "wired",
    "radio": "Wi-Fi",
    "tunnel": "tunnel",
    "virtual": "virtual",
    "unknown": "not known",
}
"""What an interface sends through, in a word or two."""

_WORDS = frozenset({"the", "this", "a", "an", "each", "every", "reading", "writing", "of", "packets", "no", "what"})
"""Words that messages begin with, and that are nobody's name here."""


def clean(text: str) -> str:
    """A text on one line, in which whatever a terminal would obey instead of showing is written out."""
    return text if text.isprintable() else "".join(map(_shown, text))


def begun(text: str) -> str:
    """A text as a sentence begins: a capital, unless it begins with the name of something of this room."""
    first, _, _ = text.partition(" ")
    return f"{text[0].upper()}{text[1:]}" if first in _WORDS else text


def _shown(char: str) -> str:
    return char if char.isprintable() else char.encode("unicode_escape").decode()


def link_rate_text(interface: Interface | None) -> str:
    """The agreed rate of an interface, told from one that a driver makes up."""
    if interface is None or interface.rate_bit_per_s is None:
        return "a rate that this system does not tell"
    rate = both_rates_text(interface.rate_bit_per_s)
    return f"a made-up {rate}" if interface.made_up_rate else rate


def yes_no(value: bool | None, yes: str = "yes", no: str = "no") -> str:  # noqa: FBT001 - the value is what is told
    """A fact that may be unknown."""
    return "not known" if value is None else yes if value else no
