"""What a port is written with: rates, buses, references `device/port`."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from netaudit.model.place import PortRef
from netaudit.model.plan import Bus, Rates
from netaudit.plan.scalars.quantities import CACHED, rate_bit_per_s
from netaudit.plan.scalars.spelling import port_rate
from netaudit.plan.scalars.text import device_name, name, quoted

LEAST_UP_TO_BIT_PER_S = 100_000_000
"""The lowest rate that `up to` includes [bit/s]."""

_UP_TO = re.compile(r"up to +(.+)", re.DOTALL)
_PCIE = re.compile(r"pcie ([1-7]) x(1|2|4|8|16)")
_THUNDERBOLT = re.compile(r"thunderbolt ([1-5])")


@cache
def base_t_bit_per_s() -> tuple[int, ...]:
    """Rates of Ethernet over twisted pairs from 100M on, the lowest first (the table of physical layers) [bit/s]."""
    from netaudit.standards.phys import phys  # noqa: PLC0415 - only a plan with `up to` pays for the table

    twisted = {phy.rate_bit_per_s for phy in phys().values() if phy.medium == "copper"}
    return tuple(sorted(rate for rate in twisted if rate >= LEAST_UP_TO_BIT_PER_S))


@lru_cache(CACHED)
def rates(text: str) -> Rates:
    """One rate, or every BASE-T rate from 100M `up to` one; raises ValueError."""
    found = _UP_TO.fullmatch(text)
    if found is None:
        return Rates((rate_bit_per_s(text),))
    highest = rate_bit_per_s(found[1])
    known = base_t_bit_per_s()
    if highest not in known:
        *most, last = map(port_rate, known)
        raise ValueError(
            f"{quoted(text)}: {quoted(found[1])} is not a rate over twisted pairs: "
            f"write up to {', '.join(most)} or {last}, or list the rates"
        )
    return Rates(tuple(rate for rate in reversed(known) if rate <= highest), up_to=True)


def joined_rates(each: tuple[Rates, ...]) -> Rates:
    """The rates of a list, each once, the highest first; raises ValueError for `up to` inside a list."""
    if len(each) == 1:
        return each[0]
    if any(one.up_to for one in each):
        raise ValueError("'up to' stands alone: write 'up to 10G' without a list, or list every rate")
    return Rates(tuple(sorted({rate for one in each for rate in one.bit_per_s}, reverse=True)))


@lru_cache(CACHED)
def bus(text: str) -> Bus:
    """A host bus: `pcie 3 x4`, `thunderbolt 3`, `usb 10G`, each with ` via NAME` when several share it; ValueError."""
    road, shared, via_text = text.partition(" via ")
    via = name(via_text) if shared else None
    if found := _PCIE.fullmatch(road):
        return Bus(kind="pcie", generation=int(found[1]), lanes=int(found[2]), via=via)
    if found := _THUNDERBOLT.fullmatch(road):
        return Bus(kind="thunderbolt", generation=int(found[1]), via=via)
    if road.startswith("usb "):
        return Bus(kind="usb", rate_bit_per_s=rate_bit_per_s(road.removeprefix("usb ")), via=via)
    raise ValueError(
        f"{quoted(text)} is not a bus: write pcie 3 x4 (generation 1 to 7, lanes 1 2 4 8 16), "
        "thunderbolt 3 (1 to 5) or usb 10G, and ' via NAME' where several ports share a dock"
    )


def port_reference(text: str) -> PortRef:
    """A port by its two names, `device/port`; raises ValueError."""
    device, slash, port = text.partition("/")
    if not slash or not device or not port:
        raise ValueError(f"{quoted(text)} is not a port: write device/port, as core/9")
    return PortRef(device_name(device), name(port))


def storage_reference(text: str) -> str:
    """A storage, or `storage/port`, as it is written; raises ValueError."""
    storage, slash, port = text.partition("/")
    device_name(storage)
    if slash:
        name(port)
    return text


def pool_reference(text: str) -> tuple[str, str]:
    """A storage and its pool, `storage/pool`; raises ValueError."""
    storage, slash, pool = text.partition("/")
    if not slash or not storage or not pool:
        raise ValueError(f"{quoted(text)} is not a pool: write storage/pool, as vault/main")
    return device_name(storage), name(pool)
