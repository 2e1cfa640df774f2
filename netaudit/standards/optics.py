"""Optics: which connector and how many fibres a module needs, and which module belongs at the other end."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal, NamedTuple, cast

from netaudit.citation import Citation
from netaudit.standards.reading import table


class Optic(NamedTuple):
    """What a module for fibre needs."""

    phy: str
    """Physical layer, such as 10GBASE-SR."""
    connector: Literal["lc", "mpo"]
    fibres: int
    """Fibres in use, both ways together."""
    partner: str | None
    """Physical layer of the other half of a bidirectional pair; None if both ends are alike."""
    also: str | None
    """Another physical layer that it links with, as 1000BASE-LX10 does with 1000BASE-LX: from memory."""
    source: Citation

    def hears(self, phy: str) -> bool:
        """Whether it links with a module of a physical layer at the other end."""
        return phy in (self.opposite, self.also)

    @property
    def opposite(self) -> str:
        """Physical layer that belongs at the other end."""
        return self.partner or self.phy


@cache
def optics() -> Mapping[str, Optic]:
    """What each module for fibre needs, by its physical layer."""
    return {
        row.text("phy"): Optic(
            phy=row.text("phy"),
            connector=cast('Literal["lc", "mpo"]', row.text("connector")),
            fibres=row.whole("fibres"),
            partner=row.optional_text("partner"),
            also=row.optional_text("also"),
            source=row.citation(),
        )
        for row in table("optics.csv")
    }
