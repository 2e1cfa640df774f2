"""Matching: whether an item of stock is the goods that a bill asks for, however it is spelt."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from itertools import product
from typing import Literal

from netaudit.model.goods import Goods
from netaudit.model.plan import Category, StockItem
from netaudit.standards.sold import held_m

Fact = Literal["detail", "category", "screened", "gauge", "ends", "length"]
"""What tells goods of one kind apart."""
SAME_LENGTH_M = 1e-3
"""Difference up to which two lengths are the same goods [m]."""
OPEN_ENDS = frozenset({"fibre cord", "twinax", "active twinax", "active optical cable", "usb cable"})
"""Kinds of cable that come with different ends: without any, these are not known yet."""
SPELLINGS: tuple[tuple[str, str], ...] = (
    ("fiber", "fibre"),
    ("patch cord", "cord"),
    ("patch cable", "cord"),
    ("patch lead", "cord"),
    ("lead", "cord"),
    ("reel", "box"),
    ("drum", "box"),
    ("box of cable", "box"),
    ("direct attach cable", "twinax"),
    ("direct attach", "twinax"),
    ("dac", "twinax"),
    ("twinax cable", "twinax"),
    ("aoc", "active optical cable"),
    ("transceiver", "module"),
)
"""Other words for what the bill says, after folding, to be replaced in this order."""
CACHED = 4096
_BETWEEN_WORDS = re.compile(r"[\s,_/‐‑–-]+")
_BETWEEN_ENDS = re.compile(r"\s[‐‑–-]\s")
_PLURAL_IN_ES = ("xes", "ches", "shes")


@lru_cache(CACHED)
def folded(name: str) -> str:
    """A name without case, hyphens, commas, plurals and synonyms: `Patch-Cords` is `cord`."""
    words = (_singular(word) for word in _BETWEEN_WORDS.split(name.casefold()) if word)
    text = f" {' '.join(words)} "
    for spelling, usual in SPELLINGS:
        text = text.replace(f" {spelling} ", f" {usual} ")
    return text.strip()


def names(goods: Goods) -> Mapping[str, frozenset[Fact]]:
    """Every folded name of goods to what it says of them: `cord`, `cord 6A`, `fibre cord lc - lc`."""
    return _names(goods.what, goods.detail, goods.category, goods.ends)


@lru_cache(CACHED)
def _names(what: str, detail: str | None, category: Category | None, ends: str | None) -> Mapping[str, frozenset[Fact]]:
    told: tuple[tuple[Fact, str | None], ...] = (("detail", detail), ("category", category), ("ends", ends))
    parts = [(fact, part) for fact, part in told if part is not None]
    found: dict[str, frozenset[Fact]] = {}
    for chosen in product((False, True), repeat=len(parts)):
        said = [part for part, is_said in zip(parts, chosen, strict=True) if is_said]
        found[folded(" ".join((what, *(text for _, text in said))))] = frozenset(fact for fact, _ in said)
    return found


def is_kind(item: StockItem, goods: Goods) -> bool:
    """Whether category, screen, gauge and ends of an item are those of goods, as far as it gives them.

    Goods without a gauge take any, and what cannot have a screen has none. Goods without ends take any, unless theirs
    are still to be known.
    """
    return (
        item.category in (None, goods.category)
        and item.screened in (None, bool(goods.screened))
        and (goods.gauge_awg is None or item.cord_awg in (None, goods.gauge_awg))
        and (item.ends is None or _has_ends(goods, item.ends))
    )


def _has_ends(goods: Goods, ends: str) -> bool:
    """Whether goods have these two ends, whichever way round."""
    if goods.ends is None:
        return goods.what not in OPEN_ENDS
    return _folded_ends(ends) == _folded_ends(goods.ends)


@lru_cache(CACHED)
def _folded_ends(text: str) -> str:
    return " ".join(sorted(map(folded, _BETWEEN_ENDS.split(text))))


def is_length(item: StockItem, goods: Goods) -> bool:
    """Whether an item has the length of goods; one that gives no length has any."""
    if item.length_m is None or goods.length_m is None:
        return item.length_m is None
    return abs(length_in_m(item.length_m, goods) - goods.length_m) <= SAME_LENGTH_M


def length_steps(length_m: float | None) -> tuple[int | None, ...]:
    """Where to look for lengths that are the same: the step of a length and its neighbours; None for none."""
    if length_m is None:
        return (None,)
    step = length_step(length_m)
    return step - 1, step, step + 1


def length_step(length_m: float) -> int:
    """The step of a length on a scale on which lengths that are the same are neighbours at most."""
    return round(length_m / (2 * SAME_LENGTH_M))


def length_in_m(printed_m: float, goods: Goods) -> float:
    """Length of an item [m] by the one it is sold by [m], which on boxes may be rounded."""
    return held_m(printed_m) if goods.what == "box" else printed_m


def facts_said(item: StockItem, goods: Goods) -> frozenset[Fact]:
    """What an item says of goods, beside its name."""
    return frozenset(fact for fact, given, wanted in _facts(item, goods) if given is not None and wanted is not None)


def facts_beyond(item: StockItem, goods: Goods) -> int:
    """How much an item says that goods leave open: a gauge where any will do."""
    return sum(given is not None and wanted is None for _, given, wanted in _facts(item, goods))


def _facts(item: StockItem, goods: Goods) -> Iterator[tuple[Fact, object, object]]:
    """What tells goods of one kind apart, as an item and the goods have it; None where they say nothing."""
    yield "category", item.category, goods.category
    yield "screened", item.screened, goods.screened
    yield "gauge", item.cord_awg, goods.gauge_awg
    yield "ends", item.ends, goods.ends
    yield "length", item.length_m, goods.length_m


def _singular(word: str) -> str:
    return word[:-2] if word.endswith(_PLURAL_IN_ES) else word.removesuffix("s")
