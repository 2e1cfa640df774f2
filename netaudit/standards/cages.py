"""Cages: the form of a module, and the cages that it goes into."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal, NamedTuple, cast

from netaudit.citation import Citation
from netaudit.standards.phys import phys
from netaudit.standards.reading import table

Form = Literal["sfp", "sfp+", "sfp28", "sfp56", "qsfp+", "qsfp28", "cfp"]
Fits = Literal["yes", "usually", "adapter", "no"]
WIDE_LANES = 4
"""Lanes of a wide cage, each of which a breakout can give a tail of its own: SFF-8436 (QSFP+), SFF-8665 (QSFP28)."""


class ModuleForm(NamedTuple):
    """The form that modules of a physical layer are made in."""

    form: Form
    source: Citation


class Cage(NamedTuple):
    """Whether modules of one form work in a cage."""

    cage: str
    """The connector of the port, such as sfp+."""
    form: Form
    fits: Fits
    """usually: where the port can be set to the module's rate · adapter: only in an adapter made for that."""
    source: Citation

    @property
    def works(self) -> bool:
        """Whether the module goes in as it is, and can work there."""
        return self.fits in ("yes", "usually")


@cache
def cages() -> Mapping[tuple[str, str], Cage]:
    """What goes where, by cage and form."""
    return {
        (row.text("cage"), row.text("form")): Cage(
            cage=row.text("cage"),
            form=cast("Form", row.text("form")),
            fits=cast("Fits", row.text("fits")),
            source=row.citation(),
        )
        for row in table("cages.csv")
    }


def form_of(phy: str) -> ModuleForm:
    """The form of a module by its physical layer: that of its rate, unless it has one of its own."""
    own = _forms().get(phy)
    return _forms()[phys()[phy].rate_bit_per_s] if own is None else own


@cache
def _forms() -> Mapping[str | int, ModuleForm]:
    """Form by physical layer, and by rate [bit/s] where its row names none."""
    return {
        row.optional_text("phy") or row.whole("rate_bit_per_s"): ModuleForm(
            form=cast("Form", row.text("form")), source=row.citation()
        )
        for row in table("module_forms.csv")
    }
