"""The bus behind an adapter, in trees built as sysfs is: Documentation/ABI/testing/sysfs-bus-pci and sysfs-bus-usb."""

import random
import struct
from collections.abc import Mapping
from pathlib import Path

import pytest

from netaudit.machine.linux.buses import PcieLink, bus, parse_link, parse_usb_bit_per_s
from netaudit.model.machine_state import AdapterBus, Interface
from netaudit.plan.scalars.ports import bus as bus_of_plan

EN5 = Interface("en5", 7, mac="02:00:00:00:00:01")
BRIDGE, SLOT = "pci0000:00/0000:00:1c.0", "0000:03:00.0"
GEN3_X4 = {
    "current_link_speed": "8.0 GT/s PCIe",
    "current_link_width": "4",
    "max_link_speed": "8.0 GT/s PCIe",
    "max_link_width": "4",
}


class Sys:
    """A tree like /sys under a folder of the test's own."""

    def __init__(self, root: Path) -> None:
        self.root = root
        (root / "devices").mkdir()

    def device(self, path: str, attributes: Mapping[str, str | bytes]) -> Path:
        folder = self.root / "devices" / path
        folder.mkdir(parents=True, exist_ok=True)
        for name, value in attributes.items():
            (folder / name).write_bytes(value if isinstance(value, bytes) else f"{value}\n".encode())
        return folder

    def interface(
        self, device: Path | None, name: str = "en5", number: int = 7, mac: str = "02:00:00:00:00:01"
    ) -> None:
        folder = self.root / "class" / "net" / name
        folder.mkdir(parents=True)
        (folder / "ifindex").write_text(f"{number}\n")
        (folder / "address").write_text(f"{mac}\n")
        if device is not None:
            (folder / "device").symlink_to(device)

    def thunderbolt(self, name: str, attributes: Mapping[str, str]) -> None:
        folder = self.root / "bus" / "thunderbolt" / "devices" / name
        folder.mkdir(parents=True)
        for key, value in attributes.items():
            (folder / key).write_text(f"{value}\n")


@pytest.fixture
def sys(tmp_path: Path) -> Sys:
    return Sys(tmp_path)


def link(generation_giga: str, lanes: int, **more: str) -> Mapping[str, str]:
    return {"current_link_speed": f"{generation_giga} GT/s PCIe", "current_link_width": str(lanes), **more}


@pytest.mark.parametrize(
    ("written", "generation", "giga_per_s"),
    [("2.5", 1, 10), ("5", 2, 20), ("5.0", 2, 20), ("8", 3, 32), ("8.0", 3, 32), ("16", 4, 64), ("16.0", 4, 64),
     ("32", 5, 128), ("32.0", 5, 128), ("64", 6, 256), ("64.0", 6, 256)],
)  # fmt: skip
def test_each_generation_is_known_in_the_words_of_younger_and_older_kernels(
    written: str, generation: int, giga_per_s: float
) -> None:
    """PCI Express Base Specification: 2.5, 5, 8, 16, 32 and 64 GT/s a lane, here on four."""
    found = parse_link(f"{written} GT/s PCIe", "4")

    assert PcieLink(generation, 4) == found
    assert giga_per_s == PcieLink(generation, 4).giga_per_s


def test_a_usb_stick_that_fell_back_to_480m(sys: Sys) -> None:
    sys.device("pci0000:00/0000:00:14.0", GEN3_X4)
    stick = sys.device("pci0000:00/0000:00:14.0/usb2/2-1", {"idVendor": "f055", "speed": "480"})
    sys.interface(sys.device(f"{stick.relative_to(sys.root / 'devices')}/2-1:1.0", {}))

    assert AdapterBus("usb 480M", None, None) == bus(EN5, sys.root)


@pytest.mark.parametrize(
    ("speed", "text"),
    [("5000", "usb 5G"), ("10000", "usb 10G"), ("20000", "usb 20G"), ("12", "usb 12M"), ("1.5", "usb 1.5M")],
)
def test_usb_speeds_are_told_in_the_words_of_the_plan(sys: Sys, speed: str, text: str) -> None:
    sys.interface(sys.device("pci0000:00/0000:00:14.0/usb2/2-1", {"idVendor": "f055", "speed": speed}))

    assert text == bus(EN5, sys.root).text


def test_a_narrower_hub_decides(sys: Sys) -> None:
    sys.device("usb1/1-1", {"idVendor": "f055", "speed": "480"})
    sys.interface(sys.device("usb1/1-1/1-1.2", {"idVendor": "f055", "speed": "5000"}))

    assert "usb 480M" == bus(EN5, sys.root).text


def test_a_usb_device_may_tell_the_best_it_could(sys: Sys) -> None:
    """Its binary object store lists 5 Gb/s whatever it runs at."""
    super_speed = struct.pack("<BBBBHBBH", 10, 0x10, 0x03, 0, 0b1110, 1, 10, 2047)
    store = struct.pack("<BBHB", 5, 0x0F, 15, 1) + super_speed
    sys.interface(sys.device("usb1/1-1", {"idVendor": "f055", "speed": "480", "bos_descriptors": store}))

    assert AdapterBus("usb 480M", None, "usb 5G") == bus(EN5, sys.root)


def test_a_card_for_four_lanes_in_a_slot_of_one(sys: Sys) -> None:
    sys.device(BRIDGE, link("8.0", 1))
    sys.interface(sys.device(f"{BRIDGE}/{SLOT}", {**GEN3_X4, "current_link_width": "1"}))

    assert AdapterBus("pcie 3 x1", None, "pcie 3 x4") == bus(EN5, sys.root)


def test_a_narrower_bridge_above_decides(sys: Sys) -> None:
    """A riser with a switch: four lanes to the card, two of the second generation to the processor."""
    sys.device(BRIDGE, link("5.0", 2))
    sys.device(f"{BRIDGE}/0000:02:00.0", link("5.0", 2))
    sys.interface(sys.device(f"{BRIDGE}/0000:02:00.0/{SLOT}", GEN3_X4))

    assert AdapterBus("pcie 2 x2", None, "pcie 3 x4") == bus(EN5, sys.root)


DOCK = {"authorized": "1", "generation": "3", "rx_speed": "20.0 Gb/s", "rx_lanes": "2", "device_name": "Boathouse dock"}
TUNNEL = link("2.5", 4)
"""What the bridges of a tunnel tell, whatever they carry."""


def test_a_card_in_a_thunderbolt_box_hangs_on_thunderbolt(sys: Sys) -> None:
    sys.thunderbolt("domain0", {})
    sys.thunderbolt("0-0", {"generation": "4", "authorized": "1"})
    sys.thunderbolt("0-1", DOCK)
    sys.device("pci0000:00/0000:00:07.0", TUNNEL)
    sys.device("pci0000:00/0000:00:07.0/0000:05:00.0", {**TUNNEL, "removable": "removable"})
    sys.interface(
        sys.device("pci0000:00/0000:00:07.0/0000:05:00.0/0000:06:00.0", {**GEN3_X4, "removable": "removable"})
    )

    assert AdapterBus("thunderbolt 3", None, "pcie 3 x4") == bus(EN5, sys.root)


def test_a_narrow_adapter_in_a_dock_is_its_own_limit(sys: Sys) -> None:
    sys.thunderbolt("0-1", DOCK)
    sys.device("pci0000:00/0000:00:07.0", TUNNEL)
    sys.interface(sys.device("pci0000:00/0000:00:07.0/0000:06:00.0", {**link("5.0", 1), "removable": "removable"}))

    assert "pcie 2 x1" == bus(EN5, sys.root).text


@pytest.mark.parametrize(
    ("attributes", "text"),
    [
        ({"generation": "1"}, "thunderbolt 1"),
        ({"generation": "4", "rx_speed": "20.0 Gb/s"}, "thunderbolt 4"),
        ({"generation": "4", "rx_speed": "40.0 Gb/s"}, "thunderbolt 5"),
        ({"generation": "9"}, "pcie 3 x4"),
        ({"authorized": "0", "generation": "3"}, "pcie 3 x4"),
    ],
    ids=["first", "usb4", "usb4 second version", "unheard of", "not let in"],
)
def test_a_generation_of_thunderbolt(sys: Sys, attributes: Mapping[str, str], text: str) -> None:
    sys.thunderbolt("1-302", {"authorized": "1", **attributes})
    sys.interface(sys.device(f"{BRIDGE}/{SLOT}", {**GEN3_X4, "removable": "removable"}))

    assert text == bus(EN5, sys.root).text


def test_where_a_tunnel_may_be_on_the_way_only_the_adapters_own_link_counts(sys: Sys) -> None:
    """A kernel before 5.14 does not say what is outside."""
    sys.thunderbolt("0-1", DOCK)
    sys.device(BRIDGE, TUNNEL)
    sys.interface(sys.device(f"{BRIDGE}/{SLOT}", GEN3_X4))

    assert "pcie 3 x4" == bus(EN5, sys.root).text


def test_two_docks_of_different_kinds_leave_the_kind_open(sys: Sys) -> None:
    sys.thunderbolt("0-1", DOCK)
    sys.thunderbolt("1-1", {**DOCK, "generation": "2"})
    sys.device(BRIDGE, TUNNEL)
    sys.interface(sys.device(f"{BRIDGE}/{SLOT}", {**GEN3_X4, "removable": "removable"}))

    assert "pcie 3 x4" == bus(EN5, sys.root).text


def test_an_interface_without_a_device_has_no_bus(sys: Sys) -> None:
    sys.interface(None)

    assert bus(EN5, sys.root) is None


def test_a_device_that_is_no_link_has_no_bus(sys: Sys) -> None:
    """An adapter within the chipset, and one of a virtual machine."""
    attributes = {
        "current_link_speed": "Unknown",
        "current_link_width": "0",
        "max_link_speed": "Unknown",
        "max_link_width": "255",
    }
    sys.interface(sys.device("pci0000:00/0000:00:1f.6", attributes))

    assert bus(EN5, sys.root) is None


@pytest.mark.parametrize(
    "interface",
    [
        EN5._replace(name="en6"),
        EN5._replace(number=8),
        EN5._replace(mac="02:00:00:00:00:09"),
        EN5._replace(number=None),
    ],
    ids=["not there", "another number", "another address", "no number"],
)
def test_an_interface_of_another_namespace_is_not_believed(sys: Sys, interface: Interface) -> None:
    sys.interface(sys.device(f"{BRIDGE}/{SLOT}", GEN3_X4))

    assert bus(interface, sys.root) is None


def test_a_link_that_leads_in_a_ring_is_none(sys: Sys) -> None:
    sys.interface(None)
    (sys.root / "class" / "net" / "en5" / "device").symlink_to("device")

    assert bus(EN5, sys.root) is None


def test_a_device_outside_the_tree_is_none(sys: Sys, tmp_path_factory: pytest.TempPathFactory) -> None:
    elsewhere = tmp_path_factory.mktemp("elsewhere")
    (elsewhere / "current_link_speed").write_text("8.0 GT/s PCIe\n")
    (elsewhere / "current_link_width").write_text("4\n")
    sys.interface(elsewhere)

    assert bus(EN5, sys.root) is None


def test_every_text_is_a_bus_of_the_plan(sys: Sys) -> None:
    for text in ("usb 480M", "usb 5G", "usb 1.5M", str(PcieLink(3, 1)), "thunderbolt 5"):
        assert text.split()[0] == bus_of_plan(text).kind


@pytest.mark.parametrize(
    ("speed", "lanes", "expected"),
    [
        ("8.0 GT/s PCIe", "4", PcieLink(3, 4)),
        ("8 GT/s", "4", PcieLink(3, 4)),
        ("2.5 GT/s PCIe", "1", PcieLink(1, 1)),
        ("5.0 GT/s PCIe", "16", PcieLink(2, 16)),
        ("16.0 GT/s PCIe", "8", PcieLink(4, 8)),
        ("64.0 GT/s PCIe", "2", PcieLink(6, 2)),
        ("Unknown", "4", None),
        ("Unknown speed", "4", None),
        ("8.0 GT/s PCIe", "0", None),
        ("8.0 GT/s PCIe", "63", None),
        ("8.0 GT/s PCIe", "255", None),
        ("8.0 GT/s PCIe", "four", None),
        (None, "4", None),
        ("8.0 GT/s PCIe", None, None),
    ],
)
def test_a_link_as_sysfs_writes_it(speed: str | None, lanes: str | None, expected: PcieLink | None) -> None:
    assert expected == parse_link(speed, lanes)


@pytest.mark.parametrize("speed", [None, "", "unknown", "0", ".", "1..5", "-480", "4e3", "nan", "480\n480", "٤٨٠"])
def test_a_usb_speed_that_is_none(speed: str | None) -> None:
    assert parse_usb_bit_per_s(speed) is None


def test_rubbish_is_no_bus_or_one_of_the_plan(sys: Sys) -> None:
    dice = random.Random(480)  # noqa: S311 - the same trees on every run
    good = ("8.0 GT/s PCIe", "4", "480", "unknown", "20.0 Gb/s", "")
    folder = sys.device(f"{BRIDGE}/{SLOT}", GEN3_X4)
    sys.interface(folder)
    for _ in range(300):
        for name in (*GEN3_X4, "idVendor", "speed", "removable", "bos_descriptors"):
            text = dice.choice(good) * dice.randint(0, 2)
            (folder / name).write_bytes(dice.choice((text.encode(), dice.randbytes(8))))
        found = bus(EN5, sys.root)
        assert found is None or bus_of_plan(found.text)
