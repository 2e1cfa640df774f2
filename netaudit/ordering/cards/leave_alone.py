"""What not to set on a machine, a sentence each.

Where a sentence does not follow from the plan it is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from netaudit.listing import listed
from netaudit.model.moving import Mount
from netaudit.model.plan import Device, Storage
from netaudit.ordering.cards.settings import CardPort, places


def to_leave(device: Device, ports: Sequence[CardPort], mounts: Sequence[Mount]) -> Iterator[str]:
    """What not to set on a machine, and what not to mount there."""
    yield from _routers(ports)
    yield from map(_names, mounts)
    yield from _shares(device, ports)
    yield from _bonds(device, ports)
    yield from _packets(ports)
    yield from _radios(ports, mounts)
    yield from _addresses(ports)


def _routers(ports: Sequence[CardPort]) -> Iterator[str]:
    """Where no router is typed in, and why."""
    reasons: dict[str, list[CardPort]] = {}
    for port in ports:
        if port.typed and port.setting.gateway is None:
            reasons.setdefault(_no_router(port), []).append(port)
    for reason, alike in reasons.items():
        yield f"Leave router and DNS empty at {places(alike)}: {reason}."


def _no_router(port: CardPort) -> str:
    network = port.network
    if port.way_out is not None:
        return f"the way out is by {port.way_out}, and a machine with two ways out may take either"
    if network is None:
        return "the plan names no router there"
    if network.gateway is not None:
        return f"the router of {network.name} has no address of this kind"
    return "the storage's network has no way out" if network.purpose == "storage" else f"{network.name} has no way out"


def _names(mount: Mount) -> str:
    """How not to mount a storage."""
    if mount.through is None:
        return f"Mount nothing of {mount.storage} yet: no road leads there in this plan; `netaudit check` says why."
    others = f" or by {listed(mount.never)}" if mount.never else ""
    if not mount.addresses:
        return f"Do not mount {mount.storage} by a name{others}: give it an address on the planned road, and use that."
    belong = "belongs" if len(mount.addresses) == 1 else "belong"
    return (
        f"Do not mount {mount.storage} by a name{others}: only {listed(mount.addresses)} {belong} to the planned road, "
        f"by {mount.through}."
    )


def _shares(device: Device, ports: Sequence[CardPort]) -> Iterator[str]:
    """Ports of a storage on which it serves no files."""
    idle = [port for port in ports if not port.serves]
    if isinstance(device, Storage) and idle:
        yield f"Do not share files at {places(idle)}: the plan keeps file traffic away from there."


def _bonds(device: Device, ports: Sequence[CardPort]) -> Iterator[str]:
    """What is bonded or bridged, and that nothing else is."""
    for members, bond in dict.fromkeys((port.members, port.setting.port.port) for port in ports if port.members):
        yield f"Set no address at {listed(members)}: they work as the bond {bond}."
    planned = "other ports than the plan does" if device.bonds or device.bridges else "ports"
    if len(device.ports) > 1:
        yield f"Do not bond or bridge {planned}: each has its own road, and two roads joined can stop the whole room."


def _packets(ports: Sequence[CardPort]) -> Iterator[str]:
    """Where the size of packets stays as it is."""
    alone = [port for port in ports if not port.radio and port.setting.mtu is None and port.setting.open_mtu is None]
    if alone:
        yield f"Leave the packet size as it is at {places(alone)}."


def _radios(ports: Sequence[CardPort], mounts: Sequence[Mount]) -> Iterator[str]:
    """Radios that may stay on, since what is mounted is mounted by another port and in another network."""
    roads = {mount.network for mount in mounts if mount.through is not None}
    by = {mount.through for mount in mounts}
    radios = [port for port in ports if port.radio]
    apart = all(port.network is not None and port.network.name not in roads for port in radios)
    if radios and roads and None not in roads and apart and by.isdisjoint(port.setting.port for port in radios):
        yield f"Do not turn Wi-Fi off at {places(radios)}: there is no need, storage traffic follows the address."


def _addresses(ports: Sequence[CardPort]) -> Iterator[str]:
    """Addresses that are not typed in: those that are handed out."""
    leased = [port for port in ports if port.setting.addresses and not port.typed]
    if leased:
        yield f"Type no address in at {places(leased)}: the network hands it out."
    for port in ports:
        network = port.network
        if network is not None and network.leases is not None and port.typed:
            first, last = network.leases
            yield f"Set no address from {first} to {last} at {port.place}: these are handed out to others."
