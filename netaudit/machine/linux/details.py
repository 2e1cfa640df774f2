"""What takes longer to find out about an interface: its bus, the rates of both ends, the rate of a radio."""

from __future__ import annotations

from netaudit.machine.linux.buses import bus
from netaudit.machine.linux.ethtool import link_settings
from netaudit.machine.linux.link_modes import rates_bit_per_s
from netaudit.machine.linux.radio import rate_bit_per_s
from netaudit.model.machine_state import Interface


def detailed(interface: Interface) -> Interface:
    """The same interface with all that its driver and its bus say of it."""
    settings = link_settings(interface.name)
    radio = rate_bit_per_s(interface.number) if interface.medium == "radio" and interface.number is not None else None
    return interface._replace(
        supported=_rates(settings.supported),
        offered=_rates(settings.offered),
        partner=_rates(settings.partner),
        rate_bit_per_s=radio or interface.rate_bit_per_s,
        bus=bus(interface),
    )


def _rates(modes: int | None) -> tuple[int, ...] | None:
    """Rates of a set of link modes, the highest first [bit/s]; None where the set names none."""
    return None if modes is None else rates_bit_per_s(modes) or None
