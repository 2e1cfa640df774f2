"""Remarks: what the comments of a drafted plan say, choice by choice, in plain words."""

from __future__ import annotations

from collections.abc import Iterator

from netaudit.model.plan import Cable, Plan, Station, Storage, Switch
from netaudit.plan.writing.yaml_text import Comments

HEAD = (
    "A first plan, drafted from a few answers. Change what is not so, then judge it: netaudit check, and this file.\n"
    "What nobody asked about is left out and counts as unknown: racks, copies, what each seat plays."
)
OF_PLAN = {
    "headroom": "Share of what a link really carries that is kept free, so that a copy does not make playback stutter.",
    "regime": "Whose cabling rules count: iso, or tia as in North America.",
    "ambient": "The air along the cables: warmth, as under a roof, shortens how far they reach.",
}
STORAGE_NETWORK = (
    "For storage traffic alone. It has no gateway: with one, the wire would offer itself as a way to the internet.\n"
    "The addresses are typed in by hand: .10 is the storage, the seats begin at .11. Mount the storage by address.\n"
    "No mtu is written: packets of 1500 octets pass everywhere. Larger ones gain about 5 %, and break transfers "
    "wherever one device on the way does not pass them."
)
OTHER_CABLE = "Another cable, another subnet: with two in one subnet a machine answers on whichever it likes."
OFFICE = (
    "Wi-Fi, the internet and everything else; its addresses are handed out. Its router knows what belongs here: "
    "gateway, and leases, the first and last address handed out."
)
OFFICE_UNKNOWN = (
    "Its subnet is not known yet: read the address and mask of any machine on the Wi-Fi, and write it, "
    "such as subnet: 192.168.1.0/24. It must not overlap the storage's."
)
SEATS = (
    "Seats. The port wire goes to the storage and nowhere else.\n"
    "When you know what each wire port sits on, write it beside the rates: bus: thunderbolt 3, usb 10G or pcie 3 x4. "
    "A bus that is not written is taken to keep up."
)
AIR = "The port air is Wi-Fi: the internet goes there, since only the storage's own subnet is on the wire."
NO_AIR = (
    "No seat has a way to the internet here. If one needs it, give it a second port in a network of its own; "
    "never a gateway on the wire."
)
SYSTEM_UNKNOWN = "Write the system where it is missing: macos, windows or linux. It decides which port traffic takes."
OUTLETS = "Outlets and the panel: their ports only join two cables. Write a category on them where one is printed."
SWITCH = (
    "A port of 10 Gb/s for each seat and some to spare; buy at least that. While it is not owned, netaudit cables "
    "lists what to look for in it; when you have one, write its own ports here, and owned: true.\n"
    "Only seats and storage are plugged in here: with the office's router on it, both networks would be one."
)
STORAGE = "Where files are served. For its own updates give it a port in the office's network, with serves: false."
DISKS_UNKNOWN = (
    "Its disks are not known yet and taken to keep up. When they are, in figures of one drive:\n"
    "pools: {main: {drives: 8, size: 20 TB, read: 240 MB/s, layout: single-parity}}"
)
DISKS_INCOMPLETE = (
    "Its disks are taken to keep up until the pool has all of drives, layout, and read, the rate of one drive."
)
CABLES = {
    "C": "cord at a seat",
    "W": "in the wall",
    "P": "cord at the panel",
    "D": "copper with its plugs made on",
    "S": "cord at the storage",
}
"""First letter of a cable's name to what it is."""
WALL = (
    "The category in a wall is what its jacket claims; the length is the distance that was given. Measure if in doubt."
)
JACKET = "Read the jacket of this cable and write what it says, such as category: 6A."
LENGTH = "Measure this cable and write its length, such as length: 30 m."
TWINAX = "Only for short ways, as inside a rack. Farther apart use a fibre, and a module in the cage at each end."
CORD = (
    "One cord all the way, bought with its plugs on. Its length is the distance that was given: "
    "add what it takes to go down the wall and up to the desk."
)


def remarks(plan: Plan) -> Comments:
    """What to say above the parts of a drafted plan, for its writer."""
    letters = {name[0] for name in plan.cables}
    legend = " · ".join(f"{letter}: {kind}" for letter, kind in CABLES.items() if letter in letters)
    said: dict[tuple[str, ...], list[str]] = {(): [HEAD], ("cables",): [legend]}
    said |= {(key,): [text] for key, text in OF_PLAN.items()}
    for key, text in (*_of_networks(plan), *_of_devices(plan), *_of_cables(plan)):
        said.setdefault(key, []).append(text)
    return {key: "\n".join(texts) for key, texts in said.items()}


_Remark = tuple[tuple[str, ...], str]


def _of_networks(plan: Plan) -> Iterator[_Remark]:
    of_storage = [network.name for network in plan.networks.values() if network.purpose == "storage"]
    for nth, name in enumerate(of_storage):
        yield ("networks", name), OTHER_CABLE if nth else STORAGE_NETWORK
    for network in plan.networks.values():
        if network.purpose != "storage":
            yield ("networks", network.name), OFFICE
            if not network.subnets:
                yield ("networks", network.name), OFFICE_UNKNOWN


def _of_devices(plan: Plan) -> Iterator[_Remark]:
    stations = [device for device in plan.devices.values() if isinstance(device, Station)]
    first = ("devices", stations[0].name)
    yield first, SEATS
    yield first, AIR if "air" in stations[0].ports else NO_AIR
    if any(station.system is None for station in stations):
        yield first, SYSTEM_UNKNOWN
    for outlet in [device for device in plan.devices.values() if device.role == "outlet"][:1]:
        yield ("devices", outlet.name), OUTLETS
    for device in plan.devices.values():
        if isinstance(device, Switch):
            yield ("devices", device.name), SWITCH
        elif isinstance(device, Storage):
            yield ("devices", device.name), STORAGE
            yield from ((("devices", device.name), text) for text in _of_disks(device))


def _of_disks(storage: Storage) -> Iterator[str]:
    if not storage.pools:
        yield DISKS_UNKNOWN
    elif any(None in (pool.drives, pool.layout, pool.read_bit_per_s) for pool in storage.pools.values()):
        yield DISKS_INCOMPLETE


def _of_cables(plan: Plan) -> Iterator[_Remark]:
    """Remarks on single cables; what is true of a whole kind stands above the first of it."""
    told: set[str] = set()
    for cable in plan.cables.values():
        kind = _kind(cable, plan)
        if kind and kind not in told:
            told.add(kind)
            yield ("cables", cable.name), kind
        if cable.category == "unknown":
            yield ("cables", cable.name), JACKET
        if cable.length_m is None:
            yield ("cables", cable.name), LENGTH


def _kind(cable: Cable, plan: Plan) -> str:
    """What is to be said of all cables like this one."""
    if cable.installed:
        return WALL
    if cable.category == "twinax":
        return TWINAX
    passive = any(plan.devices[end.device].passive for end in cable.ends)
    return "" if passive or plan.devices[cable.from_port.device].role != "station" else CORD
