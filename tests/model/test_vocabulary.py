"""The words of the plan format."""

from __future__ import annotations

from typing import get_args

from netaudit.model import vocabulary as words


def test_every_category_is_of_exactly_one_kind() -> None:
    kinds = [*words.COPPER_CATEGORIES, *words.FIBRE_GRADES, *words.TWINAX_KINDS, *words.HOST_CABLE_KINDS, "unknown"]

    assert sorted(get_args(words.Category)) == sorted(kinds)
    assert len(kinds) == len(set(kinds))


def test_copper_is_listed_from_the_least_to_the_best() -> None:
    assert ("3", "5", "5e", "6", "6A", "7", "7A", "8.1", "8.2") == words.COPPER_CATEGORIES


def test_passive_roles_are_roles() -> None:
    assert words.PASSIVE_ROLES < set(get_args(words.Role))
