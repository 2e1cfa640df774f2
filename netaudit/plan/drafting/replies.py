"""Replies: from what somebody typed, or wrote in a file of answers, to a value or to all that is wrong with it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from typing import Any, NamedTuple, TypeAlias

from netaudit.listing import NAMES_AT_MOST, first_few
from netaudit.plan.check import kind_of
from netaudit.plan.reading.raw import Raw
from netaudit.plan.scalars.text import printable

Given: TypeAlias = Mapping[str, Any]
"""The questions answered so far to their values."""
Parse: TypeAlias = Callable[[str, Given], Any]
"""A text to its value; raises ValueError."""
Reader: TypeAlias = Callable[[Raw, Given], Any]
"""A whole reply to its value; raises ReplyError."""

UNKNOWN = "unknown"
_WORDS = {
    **dict.fromkeys(("yes", "y", "true", "on"), True),
    **dict.fromkeys(("no", "n", "false", "off"), False),
}


class Misfit(NamedTuple):
    """One thing wrong in a reply."""

    nth: int | None
    """Place among several answers, counted from 0; None where the whole reply is meant."""
    message: str
    clashes_with: Collection[str] = ()
    """The questions whose answers it contradicts; none where it is wrong by itself."""


class ReplyError(ValueError):
    """A reply that cannot be taken: everything wrong in it."""

    def __init__(self, misfits: Sequence[Misfit]) -> None:
        self.misfits = tuple(misfits)
        super().__init__("\n".join(misfit.message for misfit in misfits))


class ClashError(ValueError):
    """An answer that is right by itself, but contradicts an earlier one."""

    def __init__(self, message: str, *questions: str) -> None:
        self.questions = questions
        super().__init__(message)


def plain(parse: Callable[[str], Any]) -> Parse:
    """A reading that does not depend on earlier answers."""
    return lambda text, _: parse(text)


def or_unknown(parse: Callable[[str], Any]) -> Callable[[str], Any]:
    """A reading that also takes the word `unknown`, which gives None."""

    def read(text: str) -> Any:
        if text.casefold() == UNKNOWN:
            return None
        try:
            return parse(text)
        except ValueError as error:
            raise ValueError(f"{error}, or write {UNKNOWN}") from None

    return read


def yes_or_no(text: str) -> bool:
    """The words yes and no, and what files have for them; raises ValueError."""
    if text.casefold() not in _WORDS:
        raise ValueError(f"'{printable(text[:60])}' is neither yes nor no: write one of them")
    return _WORDS[text.casefold()]


def one(parse: Parse) -> Reader:
    """A single answer."""

    def read(raw: Raw, given: Given) -> Any:
        if not isinstance(raw, str):
            raise ReplyError([Misfit(None, f"one answer is wanted here, not {kind_of(raw)}")])
        (value,) = parsed([raw.strip()], parse, given, places=[None])
        return value

    return read


def each(parse: Parse, question: str, things: Callable[[Given], Sequence[str]]) -> Reader:
    """One answer for all of the things that an earlier question named, or one for each, as a tuple in their order."""

    def read(raw: Raw, given: Given) -> tuple[Any, ...]:
        values = parsed(parts(raw), parse, given)
        names = things(given)
        if len(values) not in {1, len(names)}:
            wanted = f"give one for all, or one for each of {shown(names)}"
            message = f"{len(values)} answers stand here for {len(names)}: {wanted}"
            raise ReplyError([Misfit(None, message, (question,))])
        return values * len(names) if len(values) == 1 else values

    return read


def parts(raw: Raw) -> list[Raw]:
    """The answers of a reply that may hold several: the items of a list, or what commas part; raises ReplyError."""
    if isinstance(raw, str):
        return [part.strip() for part in raw.split(",")]
    if isinstance(raw, Sequence) and raw:
        return list(raw)
    kind = "an empty list" if isinstance(raw, Sequence) else kind_of(raw)
    raise ReplyError([Misfit(None, f"a text, or a list of texts, is wanted here, not {kind}")])


def shown(names: Sequence[str]) -> str:
    """The first few names, the others counted."""
    return first_few([printable(name) for name in names], NAMES_AT_MOST)


def parsed(
    items: Sequence[Raw], parse: Parse, given: Given, places: Iterable[int | None] | None = None
) -> tuple[Any, ...]:
    """The values of several answers; raises ReplyError with every misfit, at its place among them."""
    values, misfits = [], []
    for nth, item in zip(places or range(len(items)), items, strict=True):
        if not isinstance(item, str):
            misfits.append(Misfit(nth, f"a text is wanted here, not {kind_of(item)}"))
            continue
        try:
            values.append(parse(item, given))
        except ClashError as error:
            misfits.append(Misfit(nth, str(error), error.questions))
        except ValueError as error:
            misfits.append(Misfit(nth, str(error)))
    if misfits:
        raise ReplyError(misfits)
    return tuple(values)
