"""Living connections: those of both families, what TCP knows of them, and where their packets go now."""

import re
import socket
import struct
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import ExitStack
from ipaddress import ip_address

import pytest

from netaudit.machine.linux import sockets
from netaudit.machine.linux.netlink import attribute
from netaudit.machine.linux.sockets import parse_socket, parse_tcp_info, sessions
from netaudit.model.machine_state import Endpoint, Session, SessionCount

STORAGE, SLOW = ip_address("198.51.100.50"), ip_address("198.51.100.51")
SMB = 445


@pytest.fixture
def connect(station, storage) -> Iterator[Callable[..., tuple[socket.socket, socket.socket]]]:
    """Connects the station to a service of the storage; gives both ends."""
    with ExitStack() as opened:

        def open_one(
            family: int = socket.AF_INET, to: str = str(STORAGE), port: int = SMB, scope: int = 0
        ) -> tuple[socket.socket, socket.socket]:
            door = storage.ask(lambda: socket.create_server(("::", port), family=socket.AF_INET6, dualstack_ipv6=True))
            opened.enter_context(door)
            near = opened.enter_context(station.ask(socket.socket, family))
            near.settimeout(5)
            near.connect((to, port) if family == socket.AF_INET else (to, port, 0, scope))
            far = opened.enter_context(door.accept()[0])
            door.close()
            return near, far

        yield open_one


def seen(station, remotes: Iterable[object] = (STORAGE,), ports: Iterable[int] = (SMB,)) -> tuple[Session, ...]:
    return station.ask(sessions, tuple(remotes), tuple(ports))


def test_a_session_has_both_ends_its_interface_and_its_owner(station, connect) -> None:
    near, _ = connect()

    (found,) = seen(station)

    assert Endpoint(ip_address("198.51.100.11"), near.getsockname()[1]) == found.local
    assert Endpoint(STORAGE, SMB) == found.remote
    assert ("en5", "session", "root") == (found.interface, found.evidence, found.owner)


def test_what_tcp_knows_is_what_ss_prints(station, connect) -> None:
    """iproute2's ss(8)."""
    near, far = connect()
    near.sendall(bytes(5000))
    while len(far.recv(5000, socket.MSG_PEEK)) < 5000:
        pass
    far.sendall(bytes(700))
    assert 700 == len(near.recv(1000))

    (found,) = seen(station)
    said = dict(re.findall(r"(\w+):([0-9.]+)", station.run("ss", "-Htin", f"dport = :{SMB}")))

    assert SessionCount(int(said["bytes_sent"]), int(said["bytes_received"]), int(said["segs_out"]), 0, 0) == found.tcp
    assert 5000 == found.tcp.sent_bytes
    assert 700 == found.tcp.received_bytes
    assert pytest.approx(float(said["rtt"]), rel=1e-9) == found.round_trip_s * 1e3
    assert (int(said["mss"]), int(said["pmtu"])) == (found.mss, found.path_mtu)


def test_a_session_older_than_a_host_route_goes_by_it_at_once(station, connect) -> None:
    """Its source stays, its packets do not: the source is no proof of the port."""
    connect()
    station.ip(f"route add {STORAGE}/32 dev wlan0")

    (found,) = seen(station)

    assert (ip_address("198.51.100.11"), "wlan0") == (found.local.address, found.interface)


def test_a_rule_for_the_source_holds_an_old_session(station, connect) -> None:
    connect()
    station.ip("route add table 101 198.51.100.0/24 dev en5")
    station.ip("rule add from 198.51.100.11 lookup 101")
    station.ip(f"route add {STORAGE}/32 dev wlan0")

    assert "en5" == seen(station)[0].interface


def test_a_rule_for_another_user_moves_only_that_users_session(station, connect) -> None:
    connect()
    station.ip("route add table 100 198.51.100.0/24 dev wlan0")
    station.ip("rule add uidrange 1000-1000 lookup 100")
    station.become(1000)

    assert ("en5", "root") == (seen(station)[0].interface, seen(station)[0].owner)


def test_a_session_that_is_bound_to_a_port_stays_there(station, connect) -> None:
    near, _ = connect()
    near.setsockopt(socket.SOL_SOCKET, socket.SO_BINDTODEVICE, b"en5")
    station.ip(f"route add {STORAGE}/32 dev wlan0")

    assert "en5" == seen(station)[0].interface


def test_only_the_storage_and_its_services_are_told(station, connect) -> None:
    connect()
    connect(to=str(SLOW), port=2049)

    assert [SMB] == [one.service for one in seen(station, [STORAGE, SLOW])]
    assert [SMB, 2049] == sorted(one.service for one in seen(station, [STORAGE, SLOW], (SMB, 2049)))
    assert () == seen(station, [SLOW])
    assert () == seen(station, [ip_address("192.0.2.1")], (SMB, 2049))


def test_without_an_address_every_connection_to_the_ports_is_told(station, connect) -> None:
    connect()
    connect(to=str(SLOW), port=2049)

    assert {(STORAGE, SMB), (SLOW, 2049)} == {one.remote for one in seen(station, [], (SMB, 2049))}
    assert {(STORAGE, SMB)} == {one.remote for one in seen(station, [])}


def test_a_connection_that_is_over_is_none(station, connect) -> None:
    _, far = connect()
    far.close()

    assert () == seen(station)


def test_ipv4_within_ipv6_is_ipv4(station, connect) -> None:
    connect(socket.AF_INET6, f"::ffff:{STORAGE}")

    (found,) = seen(station)

    assert (ip_address("198.51.100.11"), STORAGE, "en5") == (found.local.address, found.remote.address, found.interface)


def test_ipv6(station, storage, connect) -> None:
    station.ip("-6 addr add 2001:db8:5::11/64 dev en5 nodad")
    storage.ip("-6 addr add 2001:db8:5::50/64 dev far-en5 nodad")
    connect(socket.AF_INET6, "2001:db8:5::50")

    (found,) = seen(station, [ip_address("2001:db8:5::50")])

    assert (ip_address("2001:db8:5::11"), "en5") == (found.local.address, found.interface)


def test_an_address_of_one_link_keeps_its_interface(station, storage, connect) -> None:
    for one, name in ((station, "wlan0"), (storage, "far-wlan0")):
        one.ip(f"-6 addr add fe80::{'12' if one is station else '51'}/64 dev {name} nodad")
    number = station.ask(socket.if_nametoindex, "wlan0")
    asked = ip_address("fe80::51%wlan0")

    connect(socket.AF_INET6, "fe80::51", scope=number)
    (found,) = seen(station, [asked])

    assert (asked, "wlan0") == (found.remote.address, found.interface)
    assert "wlan0" == found.local.address.scope_id


def test_an_old_kernel_gives_less() -> None:
    """struct tcp_info ended behind tcpi_total_retrans, at 104 octets, before Linux 3.15."""
    info = bytearray(104)
    struct.pack_into("=I", info, 100, 7)
    struct.pack_into("=I", info, 68, 250)

    found = parse_tcp_info(bytes(info))

    assert (7, 250) == (found["total_retrans"], found["rtt"])
    assert {"bytes_acked", "bytes_received", "segs_out", "min_rtt", "bytes_sent", "rcv_ooopack"}.isdisjoint(found)


def test_without_bytes_sent_those_that_were_acknowledged_count() -> None:
    """tcpi_bytes_sent came with Linux 4.19, tcpi_bytes_acked with 4.1."""
    info = bytearray(192)
    struct.pack_into("=Q", info, 120, 5000)
    near, far = (Endpoint(ip_address("127.0.0.1"), port) for port in (50000, SMB))

    found = sockets._session(sockets.Socket(near, far, 0, 0, parse_tcp_info(bytes(info))), far.address)

    assert (5000, 0, None) == (found.tcp.sent_bytes, found.tcp.received_bytes, found.tcp.out_of_order)
    assert (None, None) == (found.round_trip_s, found.mss)


def test_a_time_that_was_never_measured_is_not_known() -> None:
    assert sockets._seconds(None) is None
    assert sockets._seconds(0) is None
    assert 0.00025 == sockets._seconds(250)


def test_rubbish_is_a_session_or_none(spoilt: Callable[[bytes], Iterable[bytes]]) -> None:
    ends = struct.pack("!HH", 50000, SMB) + STORAGE.packed.ljust(16, b"\0") + SLOW.packed.ljust(16, b"\0") + bytes(12)
    good = struct.pack("=BBBB", socket.AF_INET, 1, 0, 0) + ends + bytes(20) + attribute(2, bytes(232))
    assert Endpoint(SLOW, SMB) == parse_socket(good).remote
    for bad in spoilt(good):
        found = parse_socket(bad)
        assert found is None or 0 <= found.remote.port <= 65535


def test_the_members_of_tcp_info_stand_where_the_kernels_header_has_them(linux: None) -> None:
    """`struct tcp_info` of linux/tcp.h, by the description of the same in pyroute2."""
    described = pytest.importorskip("pyroute2.netlink.diag").inet_diag_msg.tcp_info.fields
    offsets: dict[str, tuple[int, int]] = {}
    at = 0
    for name, kind in described:
        size = struct.calcsize(kind)
        at += -at % size
        offsets[name.removeprefix("tcpi_")] = (at, size)
        at += size

    known = set(offsets) & set(sockets._TCP_INFO)
    assert {"rtt", "snd_mss", "pmtu", "total_retrans", "bytes_acked", "bytes_received"} <= known
    assert {name: offsets[name] for name in known} == {name: sockets._TCP_INFO[name] for name in known}


def test_the_numbers_are_those_of_the_kernels_headers(header: Callable[[str], Mapping[str, int]]) -> None:
    """linux/inet_diag.h, linux/sock_diag.h."""
    assert header("sock_diag.h")["SOCK_DIAG_BY_FAMILY"] == sockets._BY_FAMILY
    assert header("inet_diag.h")["INET_DIAG_INFO"] == sockets._INFO
