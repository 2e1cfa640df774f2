"""Matching: whether an item of stock is the goods that a bill asks for, however it is spelt."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from itertools import product

from netaudit.model.goods import Goods
from netaudit.model.plan import Category, StockItem
from netaudit.standards.sold import held_m

SAME_LENGTH_M = 1e-3
"""Difference up to which two lengths are the same goods [m]."""
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
_PLURAL_IN_ES = ("xes", "ches", "shes")


@lru_cache(CACHED)
def folded(name: str) -> str:
    """A name without case, hyphens, commas, plurals and synonyms: `Patch-Cords` is `cord`."""
    words = (_singular(word) for word in _BETWEEN_WORDS.split(name.casefold()) if word)
    text = f" {' '.join(words)} "
    for spelling, usual in SPELLINGS:
        text = text.replace(f" {spelling} ", f" {usual} ")
    return text.strip()


def names(goods: Goods) -> Mapping[str, int]:
    """Every folded name of goods to how much it says of them: `cord`, `cord 6A`, `fibre cord lc - lc`."""
    return _names(goods.what, goods.detail, goods.category, goods.ends)


@lru_cache(CACHED)
def _names(what: str, detail: str | None, category: Category | None, ends: str | None) -> Mapping[str, int]:
    parts = [part for part in (detail, category, ends) if part is not None]
    found: dict[str, int] = {}
    for chosen in product((False, True), repeat=len(parts)):
        said = [part for part, is_said in zip(parts, chosen, strict=True) if is_said]
        found[folded(" ".join((what, *said)))] = len(said)
    return found


def is_kind(item: StockItem, goods: Goods) -> bool:
    """Whether category, screen and gauge of an item are those of goods, as far as it gives them.

    Goods without a gauge take any, and what cannot have a screen has none.
    """
    return (
        item.category in (None, goods.category)
        and item.screened in (None, bool(goods.screened))
        and (goods.gauge_awg is None or item.cord_awg in (None, goods.gauge_awg))
    )


def is_length(item: StockItem, goods: Goods) -> bool:
    """Whether an item has the length of goods; one that gives no length has any."""
    if item.length_m is None or goods.length_m is None:
        return item.length_m is None
    return abs(length_in_m(item.length_m, goods) - goods.length_m) <= SAME_LENGTH_M


def length_in_m(printed_m: float, goods: Goods) -> float:
    """Length of an item [m] by the one it is sold by [m], which on boxes may be rounded."""
    return held_m(printed_m) if goods.what == "box" else printed_m


def facts_said(item: StockItem, goods: Goods) -> int:
    """How many facts an item gives that make a difference to goods, beside its name."""
    pairs = (
        (item.category, goods.category),
        (item.screened, goods.screened),
        (item.cord_awg, goods.gauge_awg),
        (item.length_m, goods.length_m),
    )
    return sum(given is not None and wanted is not None for given, wanted in pairs)


def _singular(word: str) -> str:
    return word[:-2] if word.endswith(_PLURAL_IN_ES) else word.removesuffix("s")
