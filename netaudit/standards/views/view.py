"""One table as it is shown to people: its title, its columns, and the words that it answers to."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple

from netaudit.model.limits import TopicKind

Family = Literal["copper", "fibre", "twinax"]
"""What a channel is made of."""


class View(NamedTuple):
    """One table as it is shown, or a part of its columns."""

    title: str
    file: str
    columns: tuple[str, ...]
    subjects: tuple[str, ...]
    """Words that show it whole; the first one names it in the index."""
    by: Mapping[TopicKind, str] = {}
    """The column in which a topic of each kind is looked for."""
    whole_for: tuple[Family, ...] = ()
    """Families whose topics show it whole, since it holds for all of them."""
    source: str = "source"
    """The column that names the source of a row; a row without one is left out."""
    notes: tuple[str, ...] = ()
