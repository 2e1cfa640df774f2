"""Interfaces: as iproute2 and a library of counters tell them too, and only those of this namespace."""

import fcntl
import json
import os
import socket
import struct
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from ipaddress import ip_interface
from pathlib import Path

import pytest

from netaudit.machine.linux import links
from netaudit.machine.linux.links import counts, interfaces, parse_address, parse_counters, parse_link
from netaudit.machine.linux.netlink import attribute, number_attribute
from netaudit.model.machine_state import Counters

TUNSETIFF, IFF_TAP, IFF_TUN, IFF_NO_PI = 0x400454CA, 0x2, 0x1, 0x1000
"""linux/if_tun.h."""
PIPED = """
import json, psutil
print(json.dumps({name: [one.bytes_sent, one.bytes_recv, one.packets_sent, one.packets_recv]
                  for name, one in psutil.net_io_counters(pernic=True, nowrap=False).items()}))
"""


def listed(room) -> Mapping[str, Mapping]:
    """What `ip -d -s link` tells."""
    return {one["ifname"]: one for one in json.loads(room.ip("-j -d -s -s link"))}


def send(station, storage) -> None:
    """A thousand octets from the station to the storage, and their arrival."""
    with storage.ask(socket.socket, socket.AF_INET, socket.SOCK_DGRAM) as ear:
        ear.bind(("198.51.100.50", 7000))
        ear.settimeout(5)
        with station.ask(socket.socket, socket.AF_INET, socket.SOCK_DGRAM) as mouth:
            mouth.sendto(bytes(1000), ("198.51.100.50", 7000))
        assert bytes(1000) == ear.recv(2000)


@pytest.fixture
def plugged(station) -> Iterator[Callable[[str, int], None]]:
    """Plugs in a tap or a tun with a program behind it."""
    files: list[int] = []

    def plug(name: str, kind: int) -> None:
        handle = station.ask(os.open, "/dev/net/tun", os.O_RDWR)
        files.append(handle)
        station.ask(fcntl.ioctl, handle, TUNSETIFF, struct.pack("16sH22x", name.encode(), kind | IFF_NO_PI))
        station.ip(f"link set {name} up")

    if not Path("/dev/net/tun").exists():
        pytest.skip("this kernel has no taps")
    yield plug
    for handle in files:
        os.close(handle)


def test_every_interface_is_as_iproute2_lists_it(station) -> None:
    station.ip("link set en5 mtu 9000")
    station.ip("link set wlan0 down")

    said = listed(station)
    seen = station.ask(interfaces)

    assert list(said) == list(seen)
    for name, one in seen.items():
        other = said[name]
        assert (one.number, one.mtu) == (other["ifindex"], other["mtu"])
        assert one.mac == (None if name == "lo" else other["address"])
        assert one.up == ("UP" in other["flags"])
        assert one.carrier == (("LOWER_UP" in other["flags"]) if one.up else None)


def test_addresses_come_with_their_prefixes(station) -> None:
    station.ip("-6 addr add 2001:db8:5::11/64 dev en5 nodad")
    station.ip("addr add 192.0.2.1 peer 192.0.2.2/32 dev en6")

    seen = station.ask(interfaces)

    assert (
        ip_interface("198.51.100.11/24"), ip_interface("2001:db8:5::11/64"), ip_interface("fe80::ff:fe00:1%en5/64"),
    ) == seen["en5"].addresses  # fmt: skip
    assert ip_interface("192.0.2.1/32") in seen["en6"].addresses


def test_counters_are_those_of_iproute2(station, storage) -> None:
    send(station, storage)
    storage.ip("link set far-en5 down")

    seen = station.ask(counts)["en5"]

    said = listed(station)["en5"]["stats64"]
    assert (said["tx"]["bytes"], said["rx"]["bytes"], said["tx"]["packets"], said["rx"]["packets"]) == seen.counters[:4]
    assert said["tx"]["bytes"] > 1000
    words = {
        "rx_errors": said["rx"]["errors"], "rx_dropped": said["rx"]["dropped"], "rx_over_errors": said["rx"]["over_errors"],
        "rx_length_errors": said["rx"]["length_errors"], "rx_crc_errors": said["rx"]["crc_errors"],
        "rx_frame_errors": said["rx"]["frame_errors"], "rx_fifo_errors": said["rx"]["fifo_errors"],
        "rx_missed_errors": said["rx"]["missed_errors"], "tx_errors": said["tx"]["errors"],
        "tx_dropped": said["tx"]["dropped"], "collisions": said["tx"]["collisions"],
        "tx_aborted_errors": said["tx"]["aborted_errors"], "tx_fifo_errors": said["tx"]["fifo_errors"],
        "tx_window_errors": said["tx"]["window_errors"], "tx_heartbeat_errors": said["tx"]["heartbeat_errors"],
        "tx_carrier_errors": seen.counters.errors["tx_carrier_errors"],
    }  # fmt: skip
    assert words == seen.counters.errors


def test_counters_are_those_of_a_library(station, storage) -> None:
    """psutil, as a process within: it reads /proc/net/dev."""
    pytest.importorskip("psutil")
    send(station, storage)
    for name in ("far-en5", "far-wlan0", "far-en6"):
        storage.ip(f"link set {name} down")

    said = json.loads(station.run(sys.executable, "-c", PIPED))

    assert said == {name: list(one.counters[:4]) for name, one in station.ask(counts).items()}


def test_each_change_of_carrier_is_counted(station) -> None:
    before = station.ask(counts)["en5"].carrier_changes
    station.ip("link set far-en5 down")
    station.ip("link set far-en5 up")

    assert before + 2 == station.ask(counts)["en5"].carrier_changes


def test_a_port_without_its_other_end_keeps_its_address_and_agrees_on_nothing(station) -> None:
    station.ip("link set far-en5 down")

    seen = station.ask(interfaces)["en5"]

    assert (True, False, None, None) == (seen.up, seen.carrier, seen.rate_bit_per_s, seen.duplex)
    assert ip_interface("198.51.100.11/24") in seen.addresses


def test_what_is_switched_off_has_no_carrier_to_speak_of(station) -> None:
    station.ip("link set en5 down")

    seen = station.ask(interfaces)["en5"]

    assert (False, None, None) == (seen.up, seen.carrier, seen.rate_bit_per_s)


def test_a_virtual_pair_makes_up_its_rate(station) -> None:
    seen = station.ask(interfaces)["en5"]

    assert ("wired", 10_000_000_000, "full", True) == (seen.medium, seen.rate_bit_per_s, seen.duplex, seen.made_up_rate)


def test_a_tap_stands_for_a_wire_with_the_rate_that_was_set(station, plugged) -> None:
    plugged("tap0", IFF_TAP)
    station.run("ethtool", "-s", "tap0", "speed", "1000", "duplex", "full")

    seen = station.ask(interfaces)["tap0"]

    assert ("wired", True, 1_000_000_000, "full", False) == (
        seen.medium, seen.carrier, seen.rate_bit_per_s, seen.duplex, seen.made_up_rate,
    )  # fmt: skip


def test_a_tun_is_a_tunnel(station, plugged) -> None:
    plugged("tun0", IFF_TUN)

    seen = station.ask(interfaces)["tun0"]

    assert ("tunnel", None, True) == (seen.medium, seen.mac, seen.made_up_rate)


def test_names_that_begin_as_wireless_ones_are_radio(station) -> None:
    assert "radio" == station.ask(interfaces)["wlan0"].medium


@pytest.mark.parametrize(
    ("command", "name", "medium", "parent"),
    [
        ("link add br0 type bridge", "br0", "virtual", None),
        ("link add mv0 link en5 type macvlan mode bridge", "mv0", "wired", "en5"),
        ("link add mv1 link wlan0 type macvlan mode bridge", "mv1", "radio", "wlan0"),
        ("link add vx0 type vxlan id 7 dev en6 dstport 4789", "vx0", "tunnel", None),
        ("link add ifb7 type ifb", "ifb7", "virtual", None),
    ],
    ids=["bridge", "macvlan on a wire", "macvlan on a radio", "vxlan", "ifb"],
)
def test_what_stands_on_another_is_of_its_medium(
    station, command: str, name: str, medium: str, parent: str | None
) -> None:
    station.ip(command)

    seen = station.ask(interfaces)[name]

    assert (medium, parent) == (seen.medium, seen.parent)


def test_a_bridge_stands_on_its_one_member(station) -> None:
    station.ip("link add br0 type bridge")
    station.ip("link set en5 master br0")
    assert "en5" == station.ask(interfaces)["br0"].parent

    station.ip("link set en6 master br0")
    assert station.ask(interfaces)["br0"].parent is None


def test_the_other_half_of_a_pair_is_not_beneath(station, storage) -> None:
    """The number of a peer elsewhere may be that of a stranger here."""
    assert station.ask(interfaces)["en5"].parent is None


def test_only_the_interfaces_of_this_namespace_are_seen(station) -> None:
    """After unshare or nsenter /sys still shows the namespace it was mounted for."""
    elsewhere = set(os.listdir("/sys/class/net")) - {"lo"}

    assert elsewhere.isdisjoint(station.ask(interfaces))
    assert elsewhere <= set(interfaces())


def test_nobody_needs_a_privilege(station) -> None:
    before = station.ask(interfaces)
    station.become(1000)

    assert before["en5"]._replace(counters=Counters()) == station.ask(interfaces)["en5"]._replace(counters=Counters())


def test_an_old_kernel_without_carrier_tells_it_by_its_state() -> None:
    """RFC 2863 ifOperStatus as linux/if.h numbers it: 2 down, 6 up, 0 unknown."""
    head = struct.pack("=BxHiII", 0, 1, 7, 0x1, 0) + attribute(3, b"en5\0")

    assert [False, True, None] == [parse_link(head + attribute(16, bytes([state]))).carrier for state in (2, 6, 0)]


def test_counters_of_an_old_kernel_lack_what_it_does_not_count() -> None:
    seen = parse_counters(struct.pack("=5Q", 11, 12, 13, 14, 15) + b"rest")

    assert Counters(14, 13, 12, 11, {"rx_errors": 15}) == seen


def test_no_counters_are_not_zeros() -> None:
    assert Counters() == parse_counters(b"")


def test_rubbish_is_an_interface_or_none(spoilt: Callable[[bytes], Iterable[bytes]]) -> None:
    info = attribute(1, b"bond\0") + attribute(2, number_attribute(2, 3))
    good = (
        struct.pack("=BxHiII", 0, 1, 7, 0x1, 0) + attribute(3, b"en5\0") + attribute(1, bytes(6)) + attribute(18, info)
    )
    good += number_attribute(4, 1500) + attribute(23, bytes(200)) + attribute(33, b"\1")
    for bad in spoilt(good):
        found = parse_link(bad)
        assert found is None or isinstance(found.name, str)
        one = parse_address(bad)
        assert one is None or len(one[1]) * 8 >= one[2]


def test_the_numbers_are_those_of_the_kernels_headers(header: Callable[[str], Mapping[str, int]]) -> None:
    """linux/if_link.h, linux/if_addr.h, linux/rtnetlink.h."""
    known = {**header("if_link.h"), **header("if_addr.h"), **header("rtnetlink.h")}
    ours = {
        "IFLA_ADDRESS": links._ADDRESS, "IFLA_IFNAME": links._NAME, "IFLA_MTU": links._MTU, "IFLA_LINK": links._LINK,
        "IFLA_MASTER": links._MASTER, "IFLA_OPERSTATE": links._OPERSTATE, "IFLA_LINKINFO": links._LINKINFO,
        "IFLA_STATS64": links._STATS, "IFLA_CARRIER": links._CARRIER, "IFLA_CARRIER_CHANGES": links._CARRIER_CHANGES,
        "IFLA_LINK_NETNSID": links._LINK_NAMESPACE, "IFLA_PARENT_DEV_NAME": links._DEVICE,
        "IFLA_INFO_KIND": links._INFO_KIND, "IFLA_INFO_DATA": links._INFO_DATA,
        "IFLA_BOND_ACTIVE_SLAVE": links._BOND_ACTIVE, "IFA_ADDRESS": links._IFA_ADDRESS, "IFA_LOCAL": links._IFA_LOCAL,
        "RTM_GETLINK": links._GET_LINK, "RTM_GETADDR": links._GET_ADDRESS,
    }  # fmt: skip

    assert {name: known[name] for name in ours} == ours
