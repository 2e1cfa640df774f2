"""Route look-ups: for the very connection, as iproute2 tells it too."""

import errno
import json
import os
import socket
import struct
from collections.abc import Callable, Iterable, Mapping
from ipaddress import ip_address, ip_network

import pytest

from netaudit.errors import AnswerError, PrivilegeError
from netaudit.machine.linux import netlink, routes
from netaudit.machine.linux.netlink import Message, attribute, number_attribute
from netaudit.machine.linux.routes import route
from netaudit.machine.questions import RouteAnswer
from netaudit.model.machine_state import Endpoint, Route

STORAGE = "198.51.100.50"
OWN = Endpoint(ip_address("198.51.100.11"), 50000)


def ask(room, remote: str, port: int = 445, near: Endpoint | None = None, uid: int | None = None) -> RouteAnswer:
    return room.ask(route, Endpoint(ip_address(remote), port), near, uid)


def told(room, words: str) -> Mapping[str, object]:
    """What iproute2 answers to `ip route get`."""
    return json.loads(room.ip(f"-j -d route get {words}"))[0]


def same(seen: Route, said: Mapping[str, object]) -> bool:
    """Whether ours and iproute2's answer are one road."""
    ours = (seen.interface, str(seen.source), None if seen.gateway is None else str(seen.gateway), seen.table or "main")
    return ours == (said["dev"], said["prefsrc"], said.get("gateway"), str(said.get("table", "main")))


def test_a_destination_on_the_link(station) -> None:
    answer = ask(station, STORAGE)

    assert (
        RouteAnswer(Route("en5", ip_address("198.51.100.11"), prefix=ip_network("198.51.100.0/24"), metric=0)) == answer
    )
    assert same(answer.route, told(station, STORAGE))


def test_the_lower_metric_wins_and_is_told(station) -> None:
    station.ip("route del 198.51.100.0/24 dev en5")
    station.ip("route del 198.51.100.0/24 dev wlan0")
    station.ip("route add 198.51.100.0/24 dev en5 metric 600")
    station.ip("route add 198.51.100.0/24 dev wlan0 metric 100 src 198.51.100.12")

    seen = ask(station, STORAGE).route

    assert ("wlan0", 100) == (seen.interface, seen.metric)
    assert same(seen, told(station, STORAGE))


def test_a_host_route_is_the_longer_prefix(station) -> None:
    station.ip(f"route add {STORAGE}/32 dev wlan0 mtu 1400")

    seen = ask(station, STORAGE).route

    assert ("wlan0", ip_network(f"{STORAGE}/32"), 1400) == (seen.interface, seen.prefix, seen.mtu)


def test_a_host_route_may_leave_by_one_port_with_the_address_of_another(station) -> None:
    station.ip(f"route add {STORAGE}/32 dev wlan0 src 198.51.100.11")

    seen = ask(station, STORAGE).route

    assert ("wlan0", ip_address("198.51.100.11")) == (seen.interface, seen.source)
    assert same(seen, told(station, STORAGE))


def test_a_router_is_the_gateway(station) -> None:
    station.ip("route add default via 203.0.113.1 dev en6 metric 50")
    station.ip("route add default via 198.51.100.1 dev wlan0 metric 20100")

    seen = ask(station, "192.0.2.50").route

    assert ("en6", ip_address("203.0.113.1"), ip_network("0.0.0.0/0"), 50) == (
        seen.interface, seen.gateway, seen.prefix, seen.metric,
    )  # fmt: skip
    assert same(seen, told(station, "192.0.2.50"))


def test_a_router_of_ipv6_may_carry_ipv4(station) -> None:
    """RFC 8950's road in one host: RTA_VIA of linux/rtnetlink.h."""
    station.ip("-4 route add default via inet6 fe80::9 dev en6")

    assert ip_address("fe80::9%en6") == ask(station, "192.0.2.50").route.gateway


@pytest.mark.parametrize(
    ("rule", "question", "words"),
    [
        (f"to {STORAGE}", {}, STORAGE),
        ("from 198.51.100.11", {"near": OWN}, f"{STORAGE} from 198.51.100.11"),
        ("ipproto tcp dport 445", {}, f"{STORAGE} ipproto tcp dport 445"),
        ("ipproto tcp sport 50000", {"near": OWN},
         f"{STORAGE} from 198.51.100.11 ipproto tcp sport 50000"),
        ("uidrange 1000-1000", {"uid": 1000}, f"{STORAGE} uid 1000"),
    ],
    ids=["destination", "source", "service", "own port", "user"],
)  # fmt: skip
def test_a_policy_rule_is_asked_about_all_that_it_may_match(station, rule: str, question: dict, words: str) -> None:
    station.ip("route add table 100 198.51.100.0/24 dev wlan0")
    station.ip(f"rule add {rule} lookup 100")

    seen = ask(station, STORAGE, **question).route

    assert ("wlan0", "100") == (seen.interface, seen.table)
    said = told(station, words)
    assert ("wlan0", "100") == (said["dev"], str(said["table"]))


@pytest.mark.parametrize(
    ("rule", "question"),
    [
        ("from 198.51.100.13", {}),
        ("ipproto tcp dport 445", {"port": 2049}),
        ("ipproto udp dport 445", {}),
        ("uidrange 1000-1000", {"uid": 1001}),
    ],
    ids=["source", "service", "protocol", "user"],
)
def test_a_policy_rule_for_something_else_is_passed_by(station, rule: str, question: dict) -> None:
    station.ip("route add table 100 198.51.100.0/24 dev wlan0")
    station.ip(f"rule add {rule} lookup 100")

    seen = ask(station, STORAGE, **question).route

    assert ("en5", None) == (seen.interface, seen.table)


def test_the_user_who_asks_is_meant(station, monkeypatch: pytest.MonkeyPatch) -> None:
    station.ip("route add table 100 198.51.100.0/24 dev wlan0")
    station.ip("rule add uidrange 1000-1000 lookup 100")
    monkeypatch.setattr(os, "getuid", lambda: 1000)

    assert "wlan0" == ask(station, STORAGE).route.interface


def test_a_new_connection_gets_its_source_first_and_is_then_routed_by_a_rule_on_it(station) -> None:
    """ip_route_connect in the kernel's include/net/route.h looks up once more with the source that it found."""
    station.ip("route add table 100 198.51.100.0/24 dev wlan0")
    station.ip("rule add from 198.51.100.11 lookup 100")

    seen = ask(station, STORAGE).route

    assert ("wlan0", ip_address("198.51.100.11"), "100") == (seen.interface, seen.source, seen.table)


def test_a_connected_datagram_socket_would_answer_for_another_connection(station) -> None:
    """The usual way to learn the road by connect(2) and getsockname(2) misses rules for TCP, and for a source."""
    station.ip("route add table 100 198.51.100.0/24 dev wlan0")
    station.ip("rule add ipproto tcp dport 445 lookup 100")

    def by_datagram() -> str:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as door:
            door.connect((STORAGE, 445))
            return door.getsockname()[0]

    assert "198.51.100.11" == station.ask(by_datagram)
    assert ip_address("198.51.100.12") == ask(station, STORAGE).route.source


def test_the_general_netlink_library_drops_protocol_and_port_without_a_word(station) -> None:
    """pyroute2: the reason for a client of our own."""
    pyroute2 = pytest.importorskip("pyroute2")
    station.ip("route add table 100 198.51.100.0/24 dev wlan0")
    station.ip("rule add ipproto tcp dport 445 lookup 100")

    def by_library() -> str:
        with pyroute2.IPRoute() as kernel:
            found = kernel.route("get", dst=STORAGE, ip_proto=6, dport=445)[0]
            return kernel.get_links(found.get_attr("RTA_OIF"))[0].get_attr("IFLA_IFNAME")

    assert "en5" == station.ask(by_library)
    assert "wlan0" == ask(station, STORAGE).route.interface


def test_a_dead_port_still_wins_its_own_subnet(station) -> None:
    station.ip("link set far-en5 down")

    assert "en5" == ask(station, STORAGE).route.interface


def test_a_machine_that_ignores_dead_ports_goes_another_way(station) -> None:
    station.run("sysctl", "-qw", "net.ipv4.conf.en5.ignore_routes_with_linkdown=1")
    station.ip("link set far-en5 down")

    assert "wlan0" == ask(station, STORAGE).route.interface


@pytest.mark.parametrize("own", ["198.51.100.11", "127.0.0.1", "::1"])
def test_an_address_of_this_machine_is_local(station, own: str) -> None:
    seen = ask(station, own).route

    assert ("lo", True, None) == (seen.interface, seen.local, seen.table)


def test_ipv6_on_the_link(station) -> None:
    station.ip("-6 addr add 2001:db8:5::11/64 dev en5 nodad")

    seen = ask(station, "2001:db8:5::50").route

    assert Route("en5", ip_address("2001:db8:5::11"), prefix=ip_network("2001:db8:5::/64"), metric=256) == seen
    assert same(seen, told(station, "2001:db8:5::50"))


def test_an_address_of_one_link_goes_by_the_interface_it_names(station) -> None:
    number = station.ask(socket.if_nametoindex, "wlan0")

    assert "wlan0" == ask(station, "fe80::50%wlan0").route.interface
    assert "en5" == ask(station, "fe80::50%en5").route.interface
    assert "wlan0" == ask(station, f"fe80::50%{number}").route.interface


def test_an_address_of_one_link_must_name_it(station) -> None:
    assert RouteAnswer(None, "fe80::50 is only valid on one link: add its interface, as fe80::50%eth0") == ask(
        station, "fe80::50"
    )
    assert RouteAnswer(None, "there is no interface en9") == ask(station, "fe80::50%en9")


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("blackhole", "a blackhole route swallows it"),
        ("unreachable", "No route to host"),
        ("prohibit", "Permission denied (a prohibit route)"),
    ],
)
@pytest.mark.parametrize("destination", ["192.0.2.50", "2001:db8:9::50"])
def test_a_route_that_leads_nowhere_is_none(station, kind: str, words: str, destination: str) -> None:
    station.ip(f"route add {kind} {destination}")

    assert RouteAnswer(None, words) == ask(station, destination)
    if ":" not in destination:
        assert RouteAnswer(None, words) == ask(station, destination, near=OWN)


@pytest.mark.parametrize("destination", ["192.0.2.50", "2001:db8:9::50"])
def test_without_a_route_there_is_none(station, destination: str) -> None:
    assert RouteAnswer(None, "Network is unreachable") == ask(station, destination)


def test_a_source_that_is_gone_is_named(station) -> None:
    assert RouteAnswer(None, "198.51.100.99 is not an address of this machine any more") == ask(
        station, STORAGE, near=Endpoint(ip_address("198.51.100.99"), 50000)
    )


@pytest.mark.parametrize(
    ("destination", "kind"), [("198.51.100.255", "broadcast"), ("224.0.0.1", "multicast"), ("ff02::1%en5", "multicast")]
)
def test_what_takes_no_connection_is_no_road(station, destination: str, kind: str) -> None:
    station.ip("route add 224.0.0.0/4 dev en5")

    assert RouteAnswer(None, f"a {kind} address takes no connection") == ask(station, destination)


def test_nobody_needs_a_privilege(station) -> None:
    station.ip("route add table 100 198.51.100.0/24 dev wlan0")
    station.ip("rule add ipproto tcp dport 445 lookup 100")
    station.become(1000)

    assert "wlan0" == ask(station, STORAGE, uid=1000).route.interface


def refuse(monkeypatch: pytest.MonkeyPatch, number: int) -> None:
    def refused(*_: object) -> Message:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(netlink, "ask", refused)


def test_a_forbidden_question_is_not_a_missing_route(monkeypatch: pytest.MonkeyPatch) -> None:
    refuse(monkeypatch, errno.EPERM)

    with pytest.raises(PrivilegeError):
        route(Endpoint(ip_address(STORAGE), 445))


def test_a_kernel_that_does_not_understand_is_not_a_missing_route(monkeypatch: pytest.MonkeyPatch) -> None:
    refuse(monkeypatch, errno.EOPNOTSUPP)

    with pytest.raises(AnswerError, match="refuses"):
        route(Endpoint(ip_address(STORAGE), 445))


def test_a_route_without_an_interface_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    body = struct.pack("=BBBBBBBBI", socket.AF_INET, 32, 0, 0, 254, 0, 0, 1, 0)
    monkeypatch.setattr(netlink, "ask", lambda *_: Message(24, 0, 1, body))

    assert RouteAnswer(None, "the route leads to an interface that is not there any more") == route(
        Endpoint(ip_address(STORAGE), 445)
    )


def test_rubbish_is_a_route_or_none(
    monkeypatch: pytest.MonkeyPatch, spoilt: Callable[[bytes], Iterable[bytes]]
) -> None:
    good = struct.pack("=BBBBBBBBI", socket.AF_INET, 24, 0, 0, 254, 0, 0, 1, 0)
    good += (
        attribute(1, ip_address("198.51.100.0").packed) + number_attribute(4, 1) + attribute(18, b"\x0a\0" + bytes(16))
    )
    for bad in spoilt(good):
        monkeypatch.setattr(netlink, "ask", lambda *_, body=bad: Message(24, 0, 1, body))
        answer = route(Endpoint(ip_address(STORAGE), 445))
        assert (answer.route is None) == (answer.why_not is not None)


def test_the_numbers_are_those_of_the_kernels_header(header: Callable[[str], Mapping[str, int]]) -> None:
    """linux/rtnetlink.h."""
    known = header("rtnetlink.h")
    names = (
        "DST",
        "SRC",
        "OIF",
        "GATEWAY",
        "PRIORITY",
        "PREFSRC",
        "METRICS",
        "TABLE",
        "VIA",
        "UID",
        "IP_PROTO",
        "SPORT",
        "DPORT",
    )

    assert {name: known[f"RTA_{name}"] for name in names} == {name: getattr(routes, f"_{name}") for name in names}
    assert known["RTM_GETROUTE"] == routes._GET_ROUTE
    assert known["RTAX_MTU"] == routes._METRIC_MTU
    assert (known["RTM_F_LOOKUP_TABLE"], known["RTM_F_FIB_MATCH"]) == (routes._LOOKUP_TABLE, routes._FIB_MATCH)
    assert (known["RTN_UNICAST"], known["RTN_LOCAL"]) == (routes._UNICAST, routes._LOCAL)
    assert {
        known[f"RTN_{kind}"] for kind in ("BROADCAST", "ANYCAST", "MULTICAST", "BLACKHOLE", "UNREACHABLE", "PROHIBIT")
    } == set(routes._NO_TCP)
