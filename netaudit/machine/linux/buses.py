"""The bus that an adapter hangs on, as it was negotiated, in the words of the plan: `usb 5G`, `pcie 3 x1`.

Read from sysfs, which may be that of another network namespace: an interface is only believed there where number and
hardware address are the same. Attributes: Documentation/ABI/testing/sysfs-bus-pci, sysfs-bus-usb, sysfs-bus-thunderbolt
and sysfs-devices-removable of the kernel.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import islice
from pathlib import Path
from typing import NamedTuple

from netaudit.machine.linux.usb_capabilities import best_bit_per_s
from netaudit.model.machine_state import AdapterBus, Interface

SYS = Path("/sys")
_MOST_BYTES = 4_096
_GENERATIONS = {
    "2.5": 1,
    "5": 2,
    "5.0": 2,
    "8": 3,
    "8.0": 3,
    "16": 4,
    "16.0": 4,
    "32": 5,
    "32.0": 5,
    "64": 6,
    "64.0": 6,
}
"""Transfers on a lane [GT/s], as younger and older kernels write them, to the generation of PCI Express."""
_GIGA_PER_LANE = {1: 2.5, 2: 5.0, 3: 8.0, 4: 16.0, 5: 32.0, 6: 64.0}
_LANES = {str(lanes): lanes for lanes in (1, 2, 4, 8, 16)}
_SPEED = re.compile(r"([0-9.]{1,5}) GT/s")
_USB_SPEED = re.compile(r"[0-9]{1,6}(\.[0-9]{1,3})?")
_ROUTED = re.compile(r"[0-9]{1,4}-[1-9a-f][0-9a-f]{0,15}")
"""A Thunderbolt device that is plugged in: its domain, and its road there, which is 0 for this machine's own."""
_MOST_DEVICES = 200
_TUNNEL_FROM_GIGA = 32.0
"""Thunderbolt tunnels PCI Express 3 with four lanes or better [GT/s]: only a narrower link decides before it."""


class PcieLink(NamedTuple):
    """A link of PCI Express."""

    generation: int
    lanes: int

    @property
    def giga_per_s(self) -> float:
        """Transfers on all lanes [GT/s]."""
        return _GIGA_PER_LANE[self.generation] * self.lanes

    def __str__(self) -> str:
        return f"pcie {self.generation} x{self.lanes}"


def bus(interface: Interface, sys_root: Path = SYS) -> AdapterBus | None:
    """The bus of an interface; None for one without a device, and where sysfs does not tell."""
    chain = _chain(interface, sys_root)
    return _usb(chain) or _pcie(chain, sys_root)


def parse_link(speed: str | None, lanes: str | None) -> PcieLink | None:
    """A link as sysfs writes it: `8.0 GT/s PCIe` and `4`; None for what is no link, or powered down."""
    found = _SPEED.match(speed or "")
    generation = _GENERATIONS.get(found[1]) if found else None
    width = _LANES.get(lanes or "")
    return None if generation is None or width is None else PcieLink(generation, width)


def parse_usb_bit_per_s(speed: str | None) -> int | None:
    """The signalling rate of a USB device [bit/s]: sysfs writes Mb/s, `1.5` for the slowest; None for `unknown`."""
    if speed is None or _USB_SPEED.fullmatch(speed) is None:
        return None
    return round(float(speed) * 1e6) or None


def _chain(interface: Interface, sys_root: Path) -> tuple[Path, ...]:
    """The folders of the devices from the adapter up to the processor; none for what is not this very interface."""
    folder = sys_root / "class" / "net" / interface.name
    if _read(folder / "ifindex") != str(interface.number):
        return ()
    if interface.mac is not None and _read(folder / "address") != interface.mac:
        return ()
    try:
        device = (folder / "device").resolve(strict=True)
        devices = (sys_root / "devices").resolve(strict=True)
    except (OSError, RuntimeError):
        return ()
    return tuple(each for each in (device, *device.parents) if each.is_relative_to(devices))


def _usb(chain: Sequence[Path]) -> AdapterBus | None:
    """The narrowest USB on the way up: the device itself, or a hub."""
    devices = [folder for folder in chain if _read(folder / "idVendor") is not None]
    rates = [rate for folder in devices if (rate := parse_usb_bit_per_s(_read(folder / "speed"))) is not None]
    if not rates:
        return None
    best = best_bit_per_s(_read_bytes(devices[0] / "bos_descriptors") or b"")
    return AdapterBus(_usb_text(min(rates)), None, None if best is None else _usb_text(best))


def _usb_text(rate_bit_per_s: int) -> str:
    giga = rate_bit_per_s >= 10**9
    return f"usb {rate_bit_per_s / (10**9 if giga else 10**6):g}{'G' if giga else 'M'}"


def _pcie(chain: Sequence[Path], sys_root: Path) -> AdapterBus | None:
    """The narrowest PCI Express link on the way up.

    Bridges of a Thunderbolt tunnel tell the slowest link there is, whatever they carry: where one may be on the way,
    only the adapter's own link counts, and the tunnel itself.
    """
    own = next((folder for folder in chain if _link(folder, "current") is not None), None)
    if own is None:
        return None
    links = [link for folder in chain if (link := _link(folder, "current")) is not None]
    best = _link(own, "max")
    outside = _read(own / "removable") == "removable"
    generations = _thunderbolt_generations(sys_root)
    text = str(links[0])
    if not outside and not generations:
        text = str(min(links, key=lambda link: link.giga_per_s))
    elif outside and links[0].giga_per_s >= _TUNNEL_FROM_GIGA and len(generations) == 1:
        text = f"thunderbolt {min(generations)}"
    return AdapterBus(text, None, None if best is None else str(best))


def _link(folder: Path, which: str) -> PcieLink | None:
    return parse_link(_read(folder / f"{which}_link_speed"), _read(folder / f"{which}_link_width"))


def _thunderbolt_generations(sys_root: Path) -> frozenset[int]:
    """The generations that the Thunderbolt devices plugged in run at; USB4 runs as Thunderbolt 4, its second as 5."""
    try:
        folders = list(islice((sys_root / "bus" / "thunderbolt" / "devices").iterdir(), _MOST_DEVICES))
    except OSError:
        return frozenset()
    plugged = [each for each in folders if _ROUTED.fullmatch(each.name) and _read(each / "authorized") in ("1", "2")]
    return frozenset(found for each in plugged if (found := _thunderbolt_generation(each)) is not None)


def _thunderbolt_generation(folder: Path) -> int | None:
    generation = _read(folder / "generation")
    if generation == "4" and _read(folder / "rx_speed") == "40.0 Gb/s":
        return 5
    return int(generation) if generation in ("1", "2", "3", "4") else None


def _read(path: Path) -> str | None:
    """What an attribute says; None where there is none, or where it cannot be read."""
    data = _read_bytes(path)
    return None if data is None else data.decode("utf-8", "replace").strip()


def _read_bytes(path: Path) -> bytes | None:
    try:
        with path.open("rb") as file:
            return file.read(_MOST_BYTES)
    except OSError:
        return None
