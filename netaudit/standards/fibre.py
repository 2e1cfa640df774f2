"""Fibre: how far each physical layer reaches over each grade, and what fibre and its joints lose."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from functools import cache
from typing import NamedTuple

from netaudit.citation import Citation
from netaudit.standards.reading import table


class FibreReach(NamedTuple):
    """How far a physical layer reaches over one grade of fibre, and what the fibre may lose on the way."""

    phy: str
    grade: str
    window_nm: int
    """Wavelength at which the loss of the fibre counts [nm]."""
    reach_m: float
    """Promised up to here [m]."""
    possible_m: float
    """Works up to here on a link engineered for it [m]; beyond is too long."""
    loss_db: float | None
    """Promised with a loss up to this [dB]; None where no budget is published."""
    possible_loss_db: float | None
    """Works with a loss up to this [dB]; beyond is too much."""
    source: Citation
    """Where the reach comes from."""
    loss_source: Citation | None
    """Where the loss comes from."""


class FibreAttenuation(NamedTuple):
    """What a grade of fibre may lose by its length at one wavelength."""

    grade: str
    window_nm: int
    """Wavelength [nm]."""
    worst_db_per_km: float
    """The most that cabled fibre of this grade may lose [dB/km]."""
    source: Citation
    typical_db_per_km: float | None
    """What decent fibre loses [dB/km]; None for multimode, whose joints matter more than the difference."""
    typical_source: Citation | None
    other_db_per_km: float | None
    """The most by another document [dB/km]; None where all that were seen agree."""
    other_source: Citation | None


class JointLoss(NamedTuple):
    """What a joint of two fibres loses."""

    joint: str
    """pair: two mated connectors · splice."""
    worst_db: float
    """The most that the standards allow [dB]."""
    source: Citation
    typical_db: float
    """What a decent one loses [dB]."""
    typical_source: Citation


class CoreJoint(NamedTuple):
    """What light loses from a wider core into a narrower one."""

    wider_um: float
    """Core of the one fibre [µm]."""
    narrower_um: float
    """Core of the other [µm]."""
    loss_db: float
    """Loss to plan for, in that direction [dB]."""
    source: Citation


@cache
def fibre_reach() -> Mapping[tuple[str, str], FibreReach]:
    """Reach by physical layer and grade of fibre; no row where the grade is not specified for it."""
    return {
        (row.text("phy"), row.text("grade")): FibreReach(
            phy=row.text("phy"),
            grade=row.text("grade"),
            window_nm=row.whole("window_nm"),
            reach_m=row.number("reach_m"),
            possible_m=row.number("possible_m"),
            loss_db=row.optional_number("loss_db"),
            possible_loss_db=row.optional_number("possible_loss_db"),
            source=row.citation(),
            loss_source=row.optional_citation("loss_source"),
        )
        for row in table("fibre_reach.csv")
    }


@cache
def fibre_attenuation() -> Mapping[tuple[str, int], FibreAttenuation]:
    """Loss by length, by grade of fibre and wavelength [nm]."""
    return {
        (row.text("grade"), row.whole("window_nm")): FibreAttenuation(
            grade=row.text("grade"),
            window_nm=row.whole("window_nm"),
            worst_db_per_km=row.number("worst_db_per_km"),
            source=row.citation(),
            typical_db_per_km=row.optional_number("typical_db_per_km"),
            typical_source=row.optional_citation("typical_source"),
            other_db_per_km=row.optional_number("other_db_per_km"),
            other_source=row.optional_citation("other_source"),
        )
        for row in table("fibre_attenuation.csv")
    }


@cache
def joints() -> Mapping[str, JointLoss]:
    """Loss of a `pair` of mated connectors and of a `splice`."""
    return {
        row.text("joint"): JointLoss(
            joint=row.text("joint"),
            worst_db=row.number("worst_db"),
            source=row.citation(),
            typical_db=row.number("typical_db"),
            typical_source=row.citation("typical_source"),
        )
        for row in table("joints.csv")
    }


@cache
def core_um() -> Mapping[str, float]:
    """Diameter of the core by grade of fibre [µm]."""
    return {row.text("grade"): row.number("core_um") for row in table("fibre_cores.csv")}


@cache
def core_joints() -> tuple[CoreJoint, ...]:
    """Joints of unequal cores, each of which costs more than a link can spare."""
    return tuple(
        CoreJoint(
            wider_um=row.number("wider_um"),
            narrower_um=row.number("narrower_um"),
            loss_db=row.number("loss_db"),
            source=row.citation(),
        )
        for row in table("core_joints.csv")
    )


def unequal_cores(grades: Collection[str]) -> CoreJoint | None:
    """The joint between the widest and the narrowest core of some grades; None if all are equally wide.

    KeyError for a grade that is none of fibre.
    """
    cores = sorted({core_um()[grade] for grade in grades})
    return next(
        (joint for joint in core_joints() if [joint.narrower_um, joint.wider_um] == [*cores[:1], *cores[-1:]]), None
    )
