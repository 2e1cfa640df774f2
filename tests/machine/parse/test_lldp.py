"""Announcements of switches, built by another library that follows IEEE 802.1AB: scapy.contrib.lldp."""

from __future__ import annotations

import random

import pytest
from scapy.config import conf
from scapy.contrib.lldp import (
    LLDPDUChassisID,
    LLDPDUEndOfLLDPDU,
    LLDPDUGenericOrganisationSpecific,
    LLDPDUManagementAddress,
    LLDPDUPortDescription,
    LLDPDUPortID,
    LLDPDUSystemDescription,
    LLDPDUSystemName,
    LLDPDUTimeToLive,
)
from scapy.layers.l2 import Ether
from scapy.packet import Packet, Raw

from netaudit.machine.parse.lldp import sender, switch_port
from netaudit.model.observation import SwitchPort

conf.contribs["LLDP"].strict_mode_disable()

NEAREST_BRIDGE = "01:80:c2:00:00:0e"
"""IEEE 802.1AB table 7-1."""
SWITCH_MAC = "02:00:5e:00:00:09"
CHASSIS = LLDPDUChassisID(subtype=4, id=SWITCH_MAC)
PORT = LLDPDUPortID(subtype=5, id=b"10g/7")
LIFE = LLDPDUTimeToLive(ttl=120)
NAME = LLDPDUSystemName(system_name=b"core")
DESCRIPTION = LLDPDUPortDescription(description=b"loft plate 1")
MANAGEMENT = LLDPDUManagementAddress(management_address_subtype=1, management_address=bytes((10, 44, 20, 2)))
VLAN_20 = LLDPDUGenericOrganisationSpecific(org_code=0x0080C2, subtype=1, data=b"\0\x14")
LARGEST_9018 = LLDPDUGenericOrganisationSpecific(org_code=0x00120F, subtype=4, data=(9018).to_bytes(2))
AUTONEGOTIATION = LLDPDUGenericOrganisationSpecific(org_code=0x00120F, subtype=1, data=b"\x03\xec\x00\x00\x36")
END = LLDPDUEndOfLLDPDU()


def frame(*values: Packet) -> bytes:
    """A whole Ethernet frame that carries some values."""
    return b"".join(bytes(part) for part in (Ether(src=SWITCH_MAC, dst=NEAREST_BRIDGE, type=0x88CC), *values))


FULL = frame(
    CHASSIS, PORT, LIFE, DESCRIPTION, NAME, LLDPDUSystemDescription(description=b"an example"), MANAGEMENT,
    AUTONEGOTIATION, VLAN_20, LARGEST_9018, END,
)  # fmt: skip


def test_a_full_announcement_is_read_whole() -> None:
    assert SwitchPort("en5", "core", "10g/7", "loft plate 1", 9018, 20) == switch_port(FULL, "en5")


def test_the_three_values_that_must_be_there_are_enough() -> None:
    """IEEE 802.1AB clause 8.2: chassis, port and time to live, in this order, begin every announcement."""
    expected = SwitchPort("en5", SWITCH_MAC, "10g/7", None, None, None)

    assert expected == switch_port(frame(CHASSIS, PORT, LIFE, END), "en5")
    assert expected == switch_port(frame(CHASSIS, PORT, LIFE), "en5")


@pytest.mark.parametrize(
    ("chassis", "others", "switch"),
    [
        (CHASSIS, (NAME, MANAGEMENT), "core"),
        (CHASSIS, (MANAGEMENT,), "10.44.20.2"),
        (LLDPDUChassisID(subtype=5, family=1, id="10.44.20.3"), (), "10.44.20.3"),
        (LLDPDUChassisID(subtype=5, family=2, id="fd44::3"), (), "fd44::3"),
        (LLDPDUChassisID(subtype=7, id=b"bay switch"), (), "bay switch"),
        (CHASSIS, (LLDPDUSystemName(system_name=b"\x00\x1b[2J"), MANAGEMENT), "[2J"),
        (CHASSIS, (LLDPDUSystemName(system_name=b"\x00\x07"), MANAGEMENT), "10.44.20.2"),
    ],
)
def test_a_switch_without_a_name_is_called_by_its_address(
    chassis: Packet, others: tuple[Packet, ...], switch: str
) -> None:
    announced = switch_port(frame(chassis, PORT, LIFE, *others), "en5")

    assert announced is not None
    assert switch == announced.switch


@pytest.mark.parametrize(
    ("port", "name"),
    [
        (LLDPDUPortID(subtype=3, id="02:00:5e:00:00:17"), "02:00:5e:00:00:17"),
        (LLDPDUPortID(subtype=4, family=1, id="10.44.20.9"), "10.44.20.9"),
        (LLDPDUPortID(subtype=7, id=b"7"), "7"),
        (LLDPDUPortID(subtype=1, id="Loft – links".encode()), "Loft – links"),
        (LLDPDUPortID(subtype=7, id=b"  7\n"), "7"),
        (LLDPDUPortID(subtype=7, id=b"\xff\xfe7"), "\ufffd\ufffd7"),
        (Raw(b"\x04\x04\x03\x02\x00\x5e"), None),
        (Raw(b"\x04\x03\x04\x01\x0a"), None),
    ],
)
def test_a_port_is_called_as_its_kind_of_identifier_says(port: Packet, name: str | None) -> None:
    announced = switch_port(frame(CHASSIS, port, LIFE), "en5")

    assert announced is not None
    assert name == announced.port


@pytest.mark.parametrize(
    "values",
    [
        (),
        (CHASSIS, PORT),
        (PORT, CHASSIS, LIFE),
        (CHASSIS, LIFE, PORT),
        (CHASSIS, PORT, END, LIFE),
        (CHASSIS, PORT, LLDPDUTimeToLive(ttl=0)),
        (CHASSIS, PORT, Raw(b"\x06\x01\x78")),
        (CHASSIS, PORT, Raw(b"\x06\x03\x00\x00\x78")),
        (CHASSIS, PORT, Raw(b"\x06\x02\x00")),
    ],
)
def test_what_does_not_hold_together_is_no_announcement(values: tuple[Packet, ...]) -> None:
    assert switch_port(frame(*values), "en5") is None


@pytest.mark.parametrize("octets", [frame(CHASSIS, PORT, LIFE, END, NAME), frame(CHASSIS, PORT, LIFE, NAME)[:-1]])
def test_what_stands_behind_the_end_or_is_cut_short_does_not_count(octets: bytes) -> None:
    announced = switch_port(octets, "en5")

    assert announced is not None
    assert SWITCH_MAC == announced.switch


def test_another_protocol_is_no_announcement() -> None:
    assert switch_port(FULL[:12] + b"\x08\x00" + FULL[14:], "en5") is None


@pytest.mark.parametrize(
    "value",
    [
        LLDPDUGenericOrganisationSpecific(org_code=0x0080C2, subtype=1, data=b"\0\0"),
        LLDPDUGenericOrganisationSpecific(org_code=0x0080C2, subtype=1, data=b"\x14"),
        LLDPDUGenericOrganisationSpecific(org_code=0x0080C2, subtype=2, data=b"\0\x14"),
        LLDPDUGenericOrganisationSpecific(org_code=0x00120F, subtype=1, data=b"\0\x14"),
    ],
)
def test_zero_and_what_is_too_short_and_what_means_something_else_are_not_known(value: Packet) -> None:
    """IEEE 802.1Q annex D: port VLAN 0 means that the port has none, or does not tell."""
    announced = switch_port(frame(CHASSIS, PORT, LIFE, value), "en5")

    assert announced is not None
    assert (None, None) == (announced.vlan, announced.mtu)


def test_the_first_of_two_equal_values_counts() -> None:
    announced = switch_port(frame(CHASSIS, PORT, LIFE, NAME, LLDPDUSystemName(system_name=b"liar")), "en5")

    assert announced is not None
    assert "core" == announced.switch


def test_a_frame_tells_who_sent_it() -> None:
    assert (SWITCH_MAC, None) == (sender(FULL), sender(b"\0" * 11))


def test_mutated_frames_are_read_without_an_error() -> None:
    """Frames cut short, doubled and with bits turned over, a seed for each run."""
    chance = random.Random(9)  # noqa: S311 - a seed, no secret
    for _ in range(5000):
        octets = bytearray(FULL * chance.randrange(1, 3))
        for _ in range(chance.randrange(12)):
            octets[chance.randrange(len(octets))] = chance.randrange(256)
        announced = switch_port(bytes(octets[: chance.randrange(len(octets) + 1)]), "en5")

        assert announced is None or "en5" == announced.interface
        shown = [each for each in announced or () if isinstance(each, str)]
        assert all(text.isprintable() for text in shown)
