"""Insertion loss of twisted pair: its lines by category, what a channel is made of, and the length equations."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal, NamedTuple, cast

from netaudit.citation import Citation
from netaudit.standards.reading import table

Part = Literal["channel", "link"]
"""channel: from device to device, 100 m · link: what is built in, 90 m (30 m in all for category 8)."""


class CableLoss(NamedTuple):
    """What solid cable of one category may lose, as a line over frequency.

    At f MHz it is root x sqrt f + linear x f + inverse / sqrt f.
    """

    regime: str
    category: str
    channel_class: str | None
    """The class of channel that ISO/IEC builds of it; None under TIA."""
    from_mhz: float
    to_mhz: float
    """Frequencies between which the line holds [MHz]."""
    root_db_per_100_m: float
    linear_db_per_100_m: float
    inverse_db_per_100_m: float
    """Weights of the three terms [dB/100 m, f in MHz]."""
    source: Citation


class ChannelLoss(NamedTuple):
    """What a channel or a permanent link is made of, as far as loss goes."""

    part: Part
    regime: str
    category: str
    cable_share: float
    """Loss of its cable and cords against that of 100 m of solid cable [ratio]."""
    connections: int
    connector_root_db: float
    """Loss of one connection at 1 MHz [dB], growing with sqrt f."""
    deviation_db: float
    """Allowance for deviation at 1 MHz [dB], growing with f to the power of 1.5; mostly 0."""
    source: Citation


class LengthEquation(NamedTuple):
    """How much solid cable a layout of one class allows: constant - deducted - loss of cords and of other cable."""

    category: str
    channel_class: str
    layout: str
    constant_m: float
    deducted_m: float
    source: Citation


@cache
def cable_losses() -> Mapping[tuple[str, str], CableLoss]:
    """Lines of cable by regime and category."""
    return {
        (row.text("regime"), row.text("category")): CableLoss(
            regime=row.text("regime"),
            category=row.text("category"),
            channel_class=row.optional_text("channel_class"),
            from_mhz=row.number("from_mhz"),
            to_mhz=row.number("to_mhz"),
            root_db_per_100_m=row.number("root_db_per_100_m"),
            linear_db_per_100_m=row.number("linear_db_per_100_m"),
            inverse_db_per_100_m=row.number("inverse_db_per_100_m"),
            source=row.citation(),
        )
        for row in table("cable_loss.csv")
    }


@cache
def channel_losses() -> Mapping[tuple[Part, str, str], ChannelLoss]:
    """What channels and permanent links are made of, by part, regime and category."""
    return {
        (cast("Part", row.text("part")), row.text("regime"), row.text("category")): ChannelLoss(
            part=cast("Part", row.text("part")),
            regime=row.text("regime"),
            category=row.text("category"),
            cable_share=row.number("cable_share"),
            connections=row.whole("connections"),
            connector_root_db=row.number("connector_root_db"),
            deviation_db=row.number("deviation_db"),
            source=row.citation(),
        )
        for row in table("channel_loss.csv")
    }


@cache
def length_equations() -> Mapping[tuple[str, str], LengthEquation]:
    """Length equations by category and layout."""
    return {
        (row.text("category"), row.text("layout")): LengthEquation(
            category=row.text("category"),
            channel_class=row.text("channel_class"),
            layout=row.text("layout"),
            constant_m=row.number("constant_m"),
            deducted_m=row.number("deducted_m"),
            source=row.citation(),
        )
        for row in table("length_equations.csv")
    }
