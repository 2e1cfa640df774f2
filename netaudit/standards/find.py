"""From a word, however it is spelt, to the topic that it asks about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache

from netaudit.errors import InputError, Problem
from netaudit.model.limits import IndexLine, Topic
from netaudit.model.vocabulary import COPPER_CATEGORIES, FIBRE_GRADES, TWINAX_KINDS
from netaudit.standards.phys import phys
from netaudit.standards.views import VIEWS

RULES = Topic("subject", ("rules",), "rules")
"""Asks for the rules and the limits that they judge by."""
GOODPUT = Topic("subject", ("goodput",), "goodput")
"""Asks for what is left of each rate for data."""
BUSES = Topic("subject", ("buses",), "buses")
"""Asks for what hangs between a computer and the network."""
BUS_WORDS: Mapping[str, tuple[str, ...]] = {
    "thunderbolt": ("thunderbolt", "tb", *(f"{name}{one}" for name in ("thunderbolt", "tb") for one in range(1, 6))),
    "usb": ("usb", "usb3", "usb4", "usb-c", *(f"usb{one}g" for one in (5, 10, 20, 40))),
    "pcie": ("pcie", "pciexpress", "pci", *(f"pcie{one}" for one in range(1, 7))),
}
CABLE_WORDS: Mapping[str, tuple[str, ...]] = {
    "twinax": ("twinax", "dac", "direct attach", "passive twinax"),
    "active-twinax": ("active twinax",),
    "active-optical": ("active optical", "aoc"),
}
CLASSES: Mapping[str, str] = {"D": "5e", "E": "6", "EA": "6A", "F": "7", "FA": "7A", "I": "8.1", "II": "8.2"}
"""Classes of channels in ISO/IEC 11801-1 to the category of their parts."""
MOST_WORDS = 4
"""Words that one topic is spelt with, at most."""
LIST_ALL = "`netaudit limits` lists all that can be asked"


def find(words: Sequence[str]) -> tuple[Topic, ...]:
    """The topics that some words ask for; neighbouring words that belong together are taken together.

    Raises InputError for words that ask for nothing, naming what comes near.
    """
    found: list[Topic] = []
    problems: list[Problem] = []
    place = 0
    while place < len(words):
        topic, used = _longest(words[place:])
        if topic is None:
            problems.append(_unknown(words[place]))
        elif topic not in found:
            found.append(topic)
        place += used
    if problems:
        raise InputError(problems)
    return tuple(found)


def _longest(words: Sequence[str]) -> tuple[Topic | None, int]:
    """The topic of as many of the first words as make one, and how many they are."""
    for used in range(min(len(words), MOST_WORDS), 0, -1):
        topic = topics().get(folded("".join(words[:used])))
        if topic is not None:
            return topic, used
    return None, 1


def folded(word: str) -> str:
    """A word without case, spaces, hyphens and the like."""
    return "".join(char for char in word.casefold() if char not in " -_/\t")


def _unknown(word: str) -> Problem:
    from difflib import get_close_matches  # noqa: PLC0415 - only wrong input pays for it

    near = get_close_matches(folded(word), topics(), n=6)
    like = list(dict.fromkeys(topics()[one].word for one in near))[:3]
    hint = f"did you mean {' or '.join(map(repr, like))}? " if like else ""
    return Problem("limits", f"{word!r} asks for nothing here: {hint}{LIST_ALL}")


@cache
def topics() -> Mapping[str, Topic]:
    """Every topic by each of its spellings, folded."""
    found: dict[str, Topic] = {}
    for topic, spellings in _spellings():
        for spelling in spellings:
            found.setdefault(folded(spelling), topic)
    return found


def _spellings() -> Iterator[tuple[Topic, Iterable[str]]]:
    yield RULES, ("rules", "rule")
    yield GOODPUT, ("goodput", "throughput", "speed", "mtu", "jumbo", "jumbo frames", "packets")
    yield BUSES, ("buses", "bus", "dock", "docks", "adapter", "adapters", "dongle", "hub")
    for name in phys():
        yield Topic("phy", (name,), name), (name,)
    for rate_bit_per_s in sorted({phy.rate_bit_per_s for phy in phys().values()}):
        yield Topic("rate", (str(rate_bit_per_s),), rate_word(rate_bit_per_s)), _rate_spellings(rate_bit_per_s)
    for category in COPPER_CATEGORIES:
        classes = [f"class {name}" for name, of in CLASSES.items() if of == category]
        topic = Topic("category", (category,), f"cat{category}")
        yield topic, (f"cat{category}", f"category{category}", category, *classes)
    yield Topic("category", ("8.1", "8.2"), "cat8"), ("cat8", "category8", "8")
    for grade in FIBRE_GRADES:
        yield Topic("grade", (grade,), grade), (grade,)
    for kind in TWINAX_KINDS:
        yield Topic("cable", (kind,), kind), (kind, *CABLE_WORDS[kind])
    for kind, spellings in BUS_WORDS.items():
        yield Topic("bus", (kind,), kind), spellings
    for subject, others in subjects().items():
        yield Topic("subject", (subject,), subject), (subject, f"{subject}s", subject.removesuffix("s"))
        for other in others:
            yield Topic("subject", (other,), other), (other, f"{other}s", other.removesuffix("s"))


@cache
def subjects() -> Mapping[str, tuple[str, ...]]:
    """Each subject as the index names it, with its other names."""
    found: dict[str, dict[str, None]] = {}
    for view in VIEWS:
        first, *others = view.subjects
        found.setdefault(first, {}).update(dict.fromkeys(others))
    return {first: tuple(others) for first, others in found.items()}


def rate_word(rate_bit_per_s: int) -> str:
    """How a rate is asked for: 10G, 2.5G, 100M."""
    giga = rate_bit_per_s / 1e9
    return f"{giga:g}G" if giga >= 1 else f"{rate_bit_per_s / 1e6:g}M"


def _rate_spellings(rate_bit_per_s: int) -> Iterator[str]:
    mega, giga = rate_bit_per_s / 1e6, rate_bit_per_s / 1e9
    for end in ("", "b", "bit", "bps", "b/s", "bit/s", "be", "bits", "ig", "ige"):
        yield f"{mega:.10g}m{end}"
        if giga >= 1:
            yield f"{giga:g}g{end}"


def index() -> tuple[IndexLine, ...]:
    """All that can be asked, a line each."""
    rates = sorted({phy.rate_bit_per_s for phy in phys().values()})
    groups = (
        IndexLine(tuple(phys()), "a physical layer: over what it runs, how far, with what"),
        IndexLine(tuple(map(rate_word, rates)), "a rate: everything that runs it"),
        IndexLine(tuple(f"cat{one}" for one in COPPER_CATEGORIES), "a category of twisted pair: every rate it carries"),
        IndexLine(FIBRE_GRADES, "a grade of fibre: every layer over it, and what it loses"),
        IndexLine(TWINAX_KINDS, "a made-up cable: how long it may be"),
        IndexLine(tuple(BUS_WORDS), "a host bus: what an adapter gets, over how long a cable"),
        IndexLine(GOODPUT.names, "what each rate leaves for data"),
    )
    return (*groups, *_subject_lines(), IndexLine(RULES.names, "every rule, with the sources of its limits"))


def _subject_lines() -> Iterator[IndexLine]:
    for subject in subjects():
        if topics()[folded(subject)].kind != "subject":
            continue
        titles = [view.title.partition(":")[0] for view in VIEWS if view.subjects[0] == subject]
        yield IndexLine((subject,), "; ".join(title[0].lower() + title[1:] for title in titles))
