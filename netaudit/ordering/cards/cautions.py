"""What to set with care on a machine, or to decide first, a sentence each.

Where a sentence does not follow from the plan it is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from netaudit.listing import listed
from netaudit.model.plan import Device, Station
from netaudit.model.ports import LEAST_MTU
from netaudit.ordering.cards.roads import Roads
from netaudit.ordering.cards.settings import CardPort, places

HEADER_OCTETS = 14
"""Two addresses and a type before the packet [octets]: IEEE 802.3 clause 3.1.1."""


def to_mind(device: Device, ports: Sequence[CardPort], roads: Roads, cut_off: Sequence[str]) -> Iterator[str]:
    """What to mind on a machine; `cut_off` are the seats that edit from it and have no road to it."""
    yield from _large_packets(device, ports, roads)
    yield from _undecided_packets(ports)
    yield from _tags(ports)
    if cut_off:
        yield f"No road leads here from {listed(cut_off)} in this plan; `netaudit check` says why."


def _large_packets(device: Device, ports: Sequence[CardPort], roads: Roads) -> Iterator[str]:
    """Where all ends change the size of packets together or not at all."""
    alike: dict[tuple[int, bool], list[CardPort]] = {}
    for port in ports:
        mtu = port.setting.mtu
        if mtu is not None and mtu > LEAST_MTU and not port.radio:
            alike.setdefault((mtu, roads.direct(port)), []).append(port)
    for (mtu, direct), group in alike.items():
        others = "at the far end" if direct else "at the far end and at all switches between"
        yield f"Packets of {mtu} octets at {places(group)}: set the same {others}, or nowhere."
    if isinstance(device, Station) and device.system == "windows":
        for mtu in dict.fromkeys(mtu for mtu, _ in alike):
            yield f"Drivers of Windows may write {mtu + HEADER_OCTETS} for {mtu}: they count the header of a frame too."


def _undecided_packets(ports: Sequence[CardPort]) -> Iterator[str]:
    """Where a network plans a size of packets that the port does not."""
    alike: dict[tuple[int, str | None], list[CardPort]] = {}
    for port in ports:
        if port.setting.open_mtu is not None:
            alike.setdefault((port.setting.open_mtu, port.setting.network), []).append(port)
    for (mtu, name), group in alike.items():
        yield f"The plan asks for packets of {mtu} octets in {name}, not at {places(group)}: decide, for all its ends."


def _tags(ports: Sequence[CardPort]) -> Iterator[str]:
    """Where packets need a tag."""
    for port in ports:
        network = port.network
        if network is not None and port.setting.tagged:
            own = "its VLAN, which the plan does not number" if network.vlan is None else f"VLAN {network.vlan}"
            yield f"Set what is for {network.name} at {port.setting.port} in {own}: it travels tagged there."
