"""The list of ports that an SMB server offers, read from octets that another library packs."""

from __future__ import annotations

import random
from ipaddress import ip_address

import pytest
from smbprotocol.ioctl import SMB2NetworkInterfaceInfo, SockAddrFamily, SockAddrIn, SockAddrIn6, SockAddrStorage

from netaudit.machine.parse.smb_ports import MOST_OFFERS, RECORD, offers
from netaudit.model.observation import Offer


def record(number: int, speed: int, address: str) -> SMB2NetworkInterfaceInfo:
    """One record as the library smbprotocol, which follows MS-SMB2, lays it out."""
    info = SMB2NetworkInterfaceInfo()
    info["if_index"] = number
    info["link_speed"] = speed
    storage = SockAddrStorage()
    if ":" in address:
        storage["family"] = SockAddrFamily.INTER_NETWORK_V6
        place = SockAddrIn6()
        place.set_ipaddress(ip_address(address).exploded)
    else:
        storage["family"] = SockAddrFamily.INTER_NETWORK
        place = SockAddrIn()
        place.set_ipaddress(address)
    storage["buffer"] = place
    info["sock_addr_storage"] = storage
    return info


def packed(*records: SMB2NetworkInterfaceInfo) -> bytes:
    octets: bytes = SMB2NetworkInterfaceInfo.pack_multiple(list(records))
    return octets


TWO_PORTS = packed(
    record(2, 10_000_000_000, "10.44.20.10"), record(3, 1_000_000_000, "192.168.44.10"), record(2, 0, "2001:db8::10")
)


def test_every_port_stands_with_its_address_its_rate_and_its_number() -> None:
    expected = (
        Offer(ip_address("10.44.20.10"), 10_000_000_000, 2),
        Offer(ip_address("192.168.44.10"), 1_000_000_000, 3),
        Offer(ip_address("2001:db8::10"), None, 2),
    )

    assert expected == offers(TWO_PORTS)


def test_a_record_is_as_long_as_the_document_says() -> None:
    """MS-SMB2 section 2.2.32.5: 24 octets, then a socket address of 128."""
    assert 152 == RECORD.size


@pytest.mark.parametrize("speed", [0, 2**64 - 1])
def test_a_rate_that_cannot_be_is_not_known(speed: int) -> None:
    assert (Offer(ip_address("10.44.20.10"), None, 2),) == offers(packed(record(2, speed, "10.44.20.10")))


@pytest.mark.parametrize(("speed", "known"), [(1, 1), (10**13, 10**13), (10**13 + 1, None)])
def test_no_port_is_faster_than_10_terabits_per_second(speed: int, known: int | None) -> None:
    """Ten times the rates of IEEE 802.3 to come; beyond it a rate is noise."""
    assert (Offer(ip_address("10.44.20.10"), known, 2),) == offers(packed(record(2, speed, "10.44.20.10")))


def test_an_address_of_another_kind_is_left_out() -> None:
    octets = bytearray(TWO_PORTS)
    octets[24:26] = (99).to_bytes(2, "little")

    assert ["192.168.44.10", "2001:db8::10"] == [str(offer.address) for offer in offers(bytes(octets))]


@pytest.mark.parametrize("octets", [b"", b"\0" * 151, b"\xff" * 40])
def test_a_list_without_a_whole_record_offers_nothing(octets: bytes) -> None:
    assert () == offers(octets)


def test_a_list_that_is_cut_short_keeps_its_whole_records() -> None:
    assert offers(TWO_PORTS)[:1] == offers(TWO_PORTS[:200])


def test_a_list_without_end_is_read_up_to_a_bound() -> None:
    one = packed(record(2, 1, "10.44.20.10"))
    endless = ((152).to_bytes(4, "little") + one[4:]) * (MOST_OFFERS + 50)

    assert MOST_OFFERS == len(offers(endless))


def test_a_next_record_that_points_back_ends_the_list() -> None:
    octets = (4).to_bytes(4, "little") + TWO_PORTS[4:]

    assert 1 == len(offers(octets))


def test_mutated_lists_are_read_without_another_error() -> None:
    chance = random.Random(1)  # noqa: S311 - a seed, no secret
    for _ in range(2000):
        octets = bytearray(TWO_PORTS)
        for _ in range(chance.randrange(1, 8)):
            octets[chance.randrange(len(octets))] ^= 1 << chance.randrange(8)
        found = offers(bytes(octets[: chance.randrange(len(octets) + 1)]))

        assert len(found) <= 3
