"""A survey: what a machine tells of itself when a first plan is to be written from it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from netaudit.model.machine_state import Interface
from netaudit.model.vocabulary import Address, System


class Survey(NamedTuple):
    """A machine, and the storages it is in touch with."""

    host: str
    """The machine's own name."""
    system: System
    interfaces: Mapping[str, Interface]
    """Those that have a cable, a radio or an address; by name."""
    gateways: tuple[Address, ...] = ()
    """The routers it sends everything to that it knows no other way for."""
    storages: Mapping[str, tuple[Address, ...]] = {}
    """Name of a storage to its addresses."""
    manager: str | None = None
    service_order: tuple[str, ...] = ()
