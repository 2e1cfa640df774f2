"""Spoilt plans: structure, words and bytes of good ones changed by a chance that a number decides."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Sequence
from copy import deepcopy
from itertools import chain
from typing import Any, NamedTuple

import yaml
from oddities import ODD_WORDS
from spoil_text import ON_BYTES, ON_TEXTS

Tree = Any
"""A document of texts, lists and mappings."""

QUANTITY = re.compile(r"\d+(\.\d+)? (m|W|TB|[MG]b/s|MB/s|°C|mm|dB|h)")


class Library(NamedTuple):
    """The good plans that spoilt ones are made of."""

    texts: tuple[str, ...]
    values: dict[str, list[Tree]]
    """Each key that occurs, to the values that stand under it somewhere."""
    beside: dict[str, list[tuple[str, Tree]]]
    """Each key that occurs, to the keys that stand beside it somewhere, with their values."""


def library(texts: Sequence[str]) -> Library:
    """The library of some plans."""
    trees = [yaml.load(text, yaml.CBaseLoader) for text in texts]  # noqa: S506 - it makes texts alone
    values: dict[str, list[Tree]] = {}
    beside: dict[str, list[tuple[str, Tree]]] = {}
    for holder, key in chain.from_iterable(map(_spots, trees)):
        values.setdefault(str(key), []).append(holder[key])
        if isinstance(holder, dict):
            beside.setdefault(key, []).extend(entry for entry in holder.items() if entry[0] != key)
    return Library(tuple(texts), values, beside)


def chance_of(seed: int, number: int) -> random.Random:
    """The chance that two numbers stand for."""
    return random.Random(f"{seed}/{number}")  # noqa: S311 - no secret


def spoilt(plans: Library, seed: int, number: int) -> bytes:
    """One spoilt plan, the same for the same numbers."""
    chance = chance_of(seed, number)
    text = chance.choice(plans.texts)
    kind = chance.random()
    if kind < 0.75:
        tree = yaml.load(text, yaml.CBaseLoader)  # noqa: S506 - as above
        for _ in range(chance.choice((1, 1, 2, 3, 5))):
            chance.choice(GENTLE if kind < 0.5 else ROUGH)(chance, tree, plans)
        text = yaml.dump(tree, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=10**6)
    if kind > 0.7:
        for _ in range(chance.choice((1, 1, 2, 5))):
            text = chance.choice(ON_TEXTS)(chance, text)
    data = text.encode("utf-8", "surrogatepass")
    if kind > 0.9:
        for _ in range(chance.choice((1, 2, 8))):
            data = chance.choice(ON_BYTES)(chance, data)
    return data


class _Dumper(yaml.CSafeDumper):
    """Writes every text as it is, with an anchor wherever one thing stands in two places."""


def _children(tree: Tree) -> list[tuple[Any, Tree]]:
    if isinstance(tree, dict):
        return list(tree.items())
    return list(enumerate(tree)) if isinstance(tree, list) else []


def _spots(tree: Tree) -> list[tuple[Tree, Any]]:
    """Every holder in a tree with each of its keys or places; each holder once, however often it is aliased."""
    spots, waiting, seen = [], [tree], set()
    while waiting:
        holder = waiting.pop()
        if id(holder) in seen:
            continue
        seen.add(id(holder))
        for key, value in _children(holder):
            spots.append((holder, key))
            if isinstance(value, (dict, list)):
                waiting.append(value)
    return spots


def _spot(chance: random.Random, tree: Tree) -> tuple[Tree, Any] | None:
    spots = _spots(tree)
    return chance.choice(spots) if spots else None


def _one_of(chance: random.Random, plans: Library, key: str) -> Tree:
    return deepcopy(chance.choice(plans.values[key]))


OnTree = Callable[[random.Random, Tree, Library], None]


def _exchange(chance: random.Random, tree: Tree, plans: Library) -> None:
    """Give a key a value that stands under the same key elsewhere."""
    if spot := _spot(chance, tree):
        holder, key = spot
        holder[key] = _one_of(chance, plans, str(key)) if str(key) in plans.values else holder[key]


def _exchange_within(chance: random.Random, tree: Tree, plans: Library) -> None:
    """Give a key a value that stands under the same key in this plan: a cable goes to another's port."""
    if spot := _spot(chance, tree):
        holder, key = spot
        own = [other[key] for other, its in _spots(tree) if its == key]
        holder[key] = deepcopy(chance.choice(own))


def _scale(chance: random.Random, tree: Tree, plans: Library) -> None:
    """Make a quantity larger or smaller."""
    spots = [(holder, key) for holder, key in _spots(tree) if QUANTITY.fullmatch(str(holder[key]))]
    if spots:
        holder, key = chance.choice(spots)
        number, unit = holder[key].split(" ", 1)
        holder[key] = f"{float(number) * chance.choice((0.01, 0.1, 0.5, 2, 3, 10, 1000)):g} {unit}"


def _swap(chance: random.Random, tree: Tree, plans: Library) -> None:
    """Let two values change places."""
    spots = _spots(tree)
    if len(spots) > 1:
        (one, here), (other, there) = chance.sample(spots, 2)
        if not _holds(one[here], other) and not _holds(other[there], one):
            one[here], other[there] = other[there], one[here]


def _holds(tree: Tree, wanted: Tree) -> bool:
    return tree is wanted or any(holder is wanted for holder, _ in _spots(tree))


def _drop(chance: random.Random, tree: Tree, plans: Library) -> None:
    if spot := _spot(chance, tree):
        holder, key = spot
        del holder[key]


def _put_odd(chance: random.Random, tree: Tree, plans: Library) -> None:
    if spot := _spot(chance, tree):
        holder, key = spot
        holder[key] = chance.choice(ODD_WORDS)


def _rename(chance: random.Random, tree: Tree, plans: Library) -> None:
    """Give a key another name: an odd one, or one that is a key elsewhere."""
    holders = [holder for holder, _ in _spots(tree) if isinstance(holder, dict)]
    if holders:
        holder = chance.choice(holders)
        key = chance.choice(list(holder))
        name = chance.choice([chance.choice(ODD_WORDS), chance.choice(list(plans.values))])
        entries = [(name if each == key else each, value) for each, value in holder.items()]
        holder.clear()
        holder.update(entries)


def _add_key(chance: random.Random, tree: Tree, plans: Library) -> None:
    """Give a mapping a key that stands elsewhere beside one of its own."""
    spots = [(holder, key) for holder, key in _spots(tree) if isinstance(holder, dict) and plans.beside.get(key)]
    if spots:
        holder, key = chance.choice(spots)
        name, value = chance.choice(plans.beside[key])
        holder[name] = deepcopy(value)


def _add_any_key(chance: random.Random, tree: Tree, plans: Library) -> None:
    holders = [holder for holder, _ in _spots(tree) if isinstance(holder, dict)]
    if holders:
        key = chance.choice(list(plans.values))
        chance.choice(holders)[key] = _one_of(chance, plans, key)


def _retype(chance: random.Random, tree: Tree, plans: Library) -> None:
    if spot := _spot(chance, tree):
        holder, key = spot
        value = holder[key]
        holder[key] = chance.choice(([value], [value, value], {"a": value}, {}, [], str(value), ""))


def _nest(chance: random.Random, tree: Tree, plans: Library) -> None:
    if spot := _spot(chance, tree):
        holder, key = spot
        for _ in range(chance.choice((2, 60, 70, 100))):
            holder[key] = [holder[key]] if chance.random() < 0.5 else {"a": holder[key]}


def _alias(chance: random.Random, tree: Tree, plans: Library) -> None:
    """Let one thing stand in several places, as anchors do."""
    spots = _spots(tree)
    if spots:
        holder, key = chance.choice(spots)
        shared = holder[key]
        for other, place in chance.sample(spots, min(len(spots), chance.choice((1, 3, 120)))):
            if not _holds(shared, other):
                other[place] = shared


def _multiply(chance: random.Random, tree: Tree, plans: Library) -> None:
    """Repeat an item of a section under many names."""
    sections = [tree[key] for key in ("devices", "cables", "networks", "racks") if isinstance(tree.get(key), dict)]
    filled = [section for section in sections if section]
    if filled:
        section = chance.choice(filled)
        value = chance.choice(list(section.values()))
        section.update({f"more {number}": value for number in range(chance.choice((1, 5, 40)))})


GENTLE: tuple[OnTree, ...] = (
    *[_exchange_within] * 6, *[_add_key] * 4, *[_scale] * 3, *[_exchange] * 3, *[_drop] * 2, _multiply,
)  # fmt: skip
"""Changes of structure that mostly leave a plan that can be read."""
ROUGH: tuple[OnTree, ...] = (*GENTLE, *[_swap, _put_odd, _rename, _add_any_key, _retype, _nest, _alias] * 2)
