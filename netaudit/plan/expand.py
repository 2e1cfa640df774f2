"""Ports of a device, each under its own name: ranges expanded, clashes refused."""

from __future__ import annotations

from collections.abc import Sized
from typing import Any

from netaudit.model.plan import Port
from netaudit.plan.reading.problems import Problems
from netaudit.plan.reading.raw import Spot
from netaudit.plan.scalars.ranges import port_range
from netaudit.plan.scalars.text import quoted
from netaudit.plan.shapes.devices import DeviceShape

MOST_PORTS = 250_000
"""Ports of one plan, ranges expanded."""


class Expander:
    """Expands the ports of one plan, and keeps count."""

    def __init__(self, problems: Problems) -> None:
        self._problems = problems
        self._count = 0

    def ports(self, device: DeviceShape, spot: Spot) -> dict[str, Port] | None:
        """Port name to port, in file order; the ports of a range share one value.

        None where names clash, with each other or with a bond, the problems noted. Raises StoppedError past
        the most ports of a plan.
        """
        filled: Any = device
        ports: dict[str, Port] = {}
        clear = True
        for (key, port), (_, index, value) in zip(filled.ports.items(), spot.below("ports").entries(), strict=True):
            numbers = port_range(key) or (key,)
            self._count_in(numbers, index, value)
            names = tuple(map(str, numbers))
            taken = next((name for name in names if name in ports), None)
            if taken is None:
                ports.update(dict.fromkeys(names, port))
            else:
                self._problems.add(index, value.path, f"port {quoted(taken)} is named before already: name it once")
                clear = False
        return ports if self._bonds_apart(spot, ports) and clear else None

    def _count_in(self, ports: Sized, index: int, value: Spot) -> None:
        self._count += len(ports)
        if self._count > MOST_PORTS:
            self._problems.stop(index, f"the plan has more than {MOST_PORTS} ports from here on: divide it", value.path)

    def _bonds_apart(self, spot: Spot, ports: dict[str, Port]) -> bool:
        clear = True
        for bond, index, value in spot.below("bonds").entries():
            if bond in ports:
                message = f"{quoted(bond)} is the name of a port already: give the bond another"
                self._problems.add(index, value.path, message)
                clear = False
        return clear
