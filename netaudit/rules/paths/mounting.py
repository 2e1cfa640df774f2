"""The address at which a seat mounts a storage over a path."""

from __future__ import annotations

from netaudit.model.path import Path
from netaudit.model.plan import Plan, Storage
from netaudit.model.vocabulary import Address
from netaudit.network.forwarding import bond_of


def mount_address(path: Path, plan: Plan) -> Address | None:
    """The address of the storage at the end of a path that is not routed; None where the plan gives none there.

    That of a cluster which moves between its nodes comes before that of a port or of the bond that it is in; one
    outside the network's subnets counts for nothing.
    """
    storage = plan.devices[path.storage]
    network = plan.networks.get(path.network or "")
    if path.to_port is None or not isinstance(storage, Storage):
        return None
    bond = storage.bonds.get(bond_of(storage).get(path.to_port.port, ""))
    moving = storage.virtual.get(path.network or "")
    own = (*storage.ports[path.to_port.port].addresses, *(bond.addresses if bond is not None else ()))
    subnets = () if network is None else network.subnets
    fitting = (each for each in own if not subnets or any(each in subnet for subnet in subnets))
    return moving if moving is not None else next(fitting, None)
