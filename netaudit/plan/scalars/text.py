"""Names and free text: what may stand in them, and how hostile text is shown."""

from __future__ import annotations

import re
import unicodedata

LONGEST_NAME = 64
"""Characters in a name."""
LONGEST_SHOWN = 60
"""Characters of a value that a message quotes."""

_CONTROLS = "\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff"
_NOT_IN_NAMES = re.compile(f"[{_CONTROLS}]")
_JOINERS = "\u200c\u200d"
"""Characters without a shape of their own that words of some scripts, and some pictures, are written with."""
_NOT_IN_TEXT = re.compile(f"(?![\n\t])[{_CONTROLS}]")


def printable(text: str) -> str:
    """The text with everything that does not print, line ends included, written as an escape."""
    if text.isprintable():
        return text
    return "".join(each if each.isprintable() else each.encode("unicode_escape").decode() for each in text)


def path_part(text: str) -> str:
    """A key as a path of keys shows it: escaped, and cut where no right key is so long."""
    return printable(text if len(text) <= LONGEST_NAME else text[: LONGEST_NAME - 1] + "…")


def quoted(text: str) -> str:
    """The text as a message quotes it: escaped, and cut where it is long."""
    shown = text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 1] + "…"
    return f"'{printable(shown)}'"


def name(text: str) -> str:
    """A name as it is written.

    Raises ValueError for an empty or long one, for characters that do not print or have no shape, for blanks at an
    end, and for ` > `, which joins the two ends of a path.
    """
    if _plainly_a_name(text):
        return text
    if not text:
        raise ValueError("a name is missing here: write 1 to 64 characters")
    if text.isspace():
        raise ValueError(f"{quoted(text)} is nothing but blanks: write 1 to 64 characters")
    if len(text) > LONGEST_NAME:
        raise ValueError(f"{quoted(text)} is {len(text)} characters long: a name has at most {LONGEST_NAME}")
    if odd := _not_in_name(text):
        raise ValueError(f"{quoted(text)} holds the character {_code(odd)}, which no name may: leave it out")
    if text != text.strip():
        raise ValueError(ends_in_blank(text))
    if " > " in text:
        raise ValueError(f"{quoted(text)} holds ' > ', which joins the ends of a path: write {_without(text, ' > ')}")
    return text


def device_name(text: str) -> str:
    """A name that may stand before the slash of `device/port`; raises ValueError as `name` does, and for a slash."""
    if "/" in name(text):
        raise ValueError(f"{quoted(text)} holds '/', which parts device from port: write {_without(text, '/')}")
    return text


def free_text(text: str) -> str:
    """Words for people, over several lines if need be; raises ValueError for characters that do not print."""
    if not text:
        raise ValueError("nothing is written here: write the text, or leave the key out")
    if odd := _NOT_IN_TEXT.search(text):
        raise ValueError(f"{quoted(text)} holds the character {_code(odd[0])}: leave it out")
    return text


def _plainly_a_name(text: str) -> bool:
    """Whether a name is good at one glance, as nearly all are."""
    return (
        0 < len(text) <= LONGEST_NAME
        and text.isprintable()
        and text[0] != " " != text[-1]
        and " > " not in text
    )  # fmt: skip


def ends_in_blank(text: str) -> str:
    """What to say of a text that would be right without the blanks at its ends."""
    where = "begins" if text[:1].isspace() else "ends"
    return f"{quoted(text)} {where} with a blank: write {quoted(text.strip())}"


def _not_in_name(text: str) -> str | None:
    """The first character that no name may hold; None where all may stand there."""
    if odd := _NOT_IN_NAMES.search(text):
        return odd[0]
    unseen = (place for place, each in enumerate(text) if unicodedata.category(each) == "Cf")
    return next((text[place] for place in unseen if not _joins(text, place)), None)


def _joins(text: str, place: int) -> bool:
    """Whether a joiner stands between two letters, marks of letters, or pictures."""
    if text[place] not in _JOINERS or not 0 < place < len(text) - 1:
        return False
    beside = (unicodedata.category(text[place - 1]), unicodedata.category(text[place + 1]))
    return all(kind.startswith(("L", "M")) or kind in {"So", "Sk"} for kind in beside)


def _code(character: str) -> str:
    return f"U+{ord(character):04X}"


def _without(text: str, forbidden: str) -> str:
    return quoted(text.replace(forbidden, " - " if forbidden.startswith(" ") else "-"))
