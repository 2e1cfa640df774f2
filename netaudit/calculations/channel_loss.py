"""Insertion loss of twisted pair over frequency, and the lengths that it leaves."""

from __future__ import annotations

from math import sqrt

from netaudit.standards.channel_loss import CableLoss, ChannelLoss, LengthEquation


def cable_loss_db_per_100_m(cable: CableLoss, frequency_mhz: float) -> float:
    """Loss of solid cable at 20 °C [dB/100 m] at a frequency [MHz]; outside the line's own range an extrapolation."""
    root = sqrt(frequency_mhz)
    return (
        cable.root_db_per_100_m * root + cable.linear_db_per_100_m * frequency_mhz + cable.inverse_db_per_100_m / root
    )


def connection_loss_db(channel: ChannelLoss, frequency_mhz: float) -> float:
    """Loss of one connection [dB] at a frequency [MHz]."""
    return channel.connector_root_db * sqrt(frequency_mhz)


def insertion_loss_db(cable: CableLoss, channel: ChannelLoss, frequency_mhz: float) -> float:
    """The most that a channel or permanent link of full length may lose [dB] at a frequency [MHz].

    Parameters: the line of its cable and what it is made of, both of one regime and category.
    """
    return scaled_loss_db(
        cable,
        channel,
        frequency_mhz,
        solid_equivalent_m=100 * channel.cable_share,
        connections=channel.connections,
    ) + channel.deviation_db * frequency_mhz * sqrt(frequency_mhz)


def scaled_loss_db(
    cable: CableLoss, channel: ChannelLoss, frequency_mhz: float, *, solid_equivalent_m: float, connections: int
) -> float:
    """Loss of a channel of its own length [dB] at a frequency [MHz], without any allowance for deviation.

    Parameters: the line of its cable; whose connections it has; the length of solid cable that loses as much as its
    cable and cords [m]; its connections.
    """
    cable_db = solid_equivalent_m / 100 * cable_loss_db_per_100_m(cable, frequency_mhz)
    return cable_db + connections * connection_loss_db(channel, frequency_mhz)


def allowed_fixed_m(
    equation: LengthEquation, *, cords_m: float, cord_factor: float, other_m: float = 0.0, other_factor: float = 1.0
) -> float:
    """Solid cable that a length equation allows [m].

    Parameters: all cords together [m] and their loss against solid cable [ratio]; cable behind a consolidation point
    [m] and its loss against solid cable [ratio].
    """
    return equation.constant_m - equation.deducted_m - cords_m * cord_factor - other_m * other_factor
