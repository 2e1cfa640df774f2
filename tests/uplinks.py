"""A room with two switches: seats on the one in the attic, the storage on the one in the bay."""

from __future__ import annotations

from typing import Any

from wiring import cable, jack, many, seat, switch, vault, wired

from netaudit.model.plan import Plan, Port

ATTIC_TO_CORE = cable("U1", "attic/8", "core/8")


def port(rate: float) -> Port:
    """A jack that runs one rate [Gb/s]; every one up to it where it is 10."""
    return jack() if rate == 10 else jack(rate)


def room(*uplink: Any, own: float = 10, up: float = 10, far: float = 10, seats: int = 1, **fields: Any) -> Plan:
    """Seats on a switch in the attic, that on one in the bay, and the storage there; ports of these rates [Gb/s]."""
    attic = switch("attic", {**many(7, jack()), "8": port(up), "9": port(up)})
    core = switch("core", {**many(7, jack()), "8": port(up), "9": port(up)})
    cuts = [seat(f"cut-{n}", {"wire": port(own)}, **fields) for n in range(1, seats + 1)]
    cords = [cable(f"C{n}", f"cut-{n}/wire", f"attic/{n}") for n in range(1, seats + 1)]
    box = vault("vault", {"fast": port(far)})
    return wired(attic, core, *cuts, box, *cords, *(uplink or (ATTIC_TO_CORE,)), cable("D1", "core/1", "vault/fast"))
