"""The neighbour table: hardware addresses that the kernel holds."""

import struct
from collections.abc import Callable, Iterable, Mapping
from ipaddress import ip_address

import pytest

from netaudit.machine.linux import neighbours as table
from netaudit.machine.linux.neighbours import Neighbour, neighbours, parse_neighbour
from netaudit.machine.linux.netlink import attribute

STORAGE = "198.51.100.50"
MAC = "02:00:00:00:00:50"


def held(room, address: str) -> tuple[str, ...]:
    return room.ask(neighbours, ip_address(address))


@pytest.mark.parametrize("state", ["reachable", "stale", "delay", "probe", "permanent"])
def test_an_entry_that_holds_is_told(station, state: str) -> None:
    station.ip(f"neigh add {STORAGE} lladdr {MAC} dev en5 nud {state}")

    assert (MAC,) == held(station, STORAGE)


@pytest.mark.parametrize("state", ["failed", "noarp"])
def test_an_entry_that_does_not_hold_is_not(station, state: str) -> None:
    station.ip(f"neigh add {STORAGE} lladdr {MAC} dev en5 nud {state}")

    assert () == held(station, STORAGE)


def test_each_interface_may_hold_another(station) -> None:
    station.ip(f"neigh add {STORAGE} lladdr {MAC} dev en5 nud reachable")
    station.ip(f"neigh add {STORAGE} lladdr 02:00:00:00:00:51 dev wlan0 nud stale")
    station.ip("neigh add 198.51.100.51 lladdr 02:00:00:00:00:52 dev wlan0 nud stale")

    assert {MAC, "02:00:00:00:00:51"} == set(held(station, STORAGE))


def test_one_hardware_address_is_told_once(station) -> None:
    for name in ("en5", "wlan0"):
        station.ip(f"neigh add {STORAGE} lladdr {MAC} dev {name} nud reachable")

    assert (MAC,) == held(station, STORAGE)


def test_an_address_of_one_link_is_looked_up_there(station) -> None:
    station.ip(f"neigh add fe80::50 lladdr {MAC} dev en5 nud reachable")
    station.ip("neigh add fe80::50 lladdr 02:00:00:00:00:51 dev wlan0 nud reachable")

    assert ("02:00:00:00:00:51",) == held(station, "fe80::50%wlan0")
    assert 2 == len(held(station, "fe80::50"))


def test_an_empty_table_is_an_answer(station) -> None:
    assert () == held(station, STORAGE)


def test_nobody_needs_a_privilege(station) -> None:
    station.ip(f"neigh add {STORAGE} lladdr {MAC} dev en5 nud reachable")
    station.become(1000)

    assert (MAC,) == held(station, STORAGE)


def test_a_hardware_address_of_another_kind_is_none() -> None:
    """InfiniBand has 20 octets."""
    head = struct.pack("=BxxxiHBB", 2, 3, 0x02, 0, 1) + attribute(1, ip_address(STORAGE).packed)

    assert Neighbour(3, ip_address(STORAGE).packed, None) == parse_neighbour(head + attribute(2, bytes(20)))
    assert MAC == parse_neighbour(head + attribute(2, bytes.fromhex(MAC.replace(":", "")))).mac


def test_rubbish_is_an_entry_or_none(spoilt: Callable[[bytes], Iterable[bytes]]) -> None:
    good = (
        struct.pack("=BxxxiHBB", 2, 3, 0x02, 0, 1) + attribute(1, ip_address(STORAGE).packed) + attribute(2, bytes(6))
    )
    for bad in spoilt(good):
        found = parse_neighbour(bad)
        assert found is None or found.mac is None or 17 == len(found.mac)


def test_the_numbers_are_those_of_the_kernels_headers(header: Callable[[str], Mapping[str, int]]) -> None:
    """linux/neighbour.h, linux/rtnetlink.h."""
    known = header("neighbour.h")

    assert (known["NDA_DST"], known["NDA_LLADDR"]) == (table._DST, table._LLADDR)
    assert header("rtnetlink.h")["RTM_GETNEIGH"] == table._GET_NEIGHBOUR
    kinds = ("REACHABLE", "STALE", "DELAY", "PROBE", "PERMANENT")
    assert sum(known[f"NUD_{kind}"] for kind in kinds) == table._HELD
