"""Rules about addresses: can every port be told from every other one, and do packets of one size fit everywhere."""

from __future__ import annotations

from typing import Any

from netaudit.rules.addresses.gateways import TWO_GATEWAYS
from netaudit.rules.addresses.hosts import ADDRESS_CLASH, ADDRESS_RESERVED
from netaudit.rules.addresses.leases import ADDRESS_IN_LEASES, STORAGE_ON_LEASE
from netaudit.rules.addresses.packets import MTU_DIFFERS, MTU_MIXED
from netaudit.rules.addresses.storage_ports import (
    EQUAL_PORTS_ONE_NETWORK,
    TWO_NETWORKS_ONE_WIRE,
    TWO_PORTS_ONE_NETWORK,
)
from netaudit.rules.addresses.subnets import ADDRESS_OUTSIDE_SUBNET, GATEWAY_OUTSIDE_SUBNET, SUBNETS_OVERLAP
from netaudit.rules.facts import Facts
from netaudit.rules.rule import Rule

RULES: tuple[Rule[Any, Facts], ...] = (
    TWO_PORTS_ONE_NETWORK,
    EQUAL_PORTS_ONE_NETWORK,
    TWO_NETWORKS_ONE_WIRE,
    ADDRESS_CLASH,
    ADDRESS_RESERVED,
    ADDRESS_OUTSIDE_SUBNET,
    GATEWAY_OUTSIDE_SUBNET,
    SUBNETS_OVERLAP,
    ADDRESS_IN_LEASES,
    STORAGE_ON_LEASE,
    TWO_GATEWAYS,
    MTU_MIXED,
    MTU_DIFFERS,
)
"""The rules of this family, in the order in which a report tells them."""
