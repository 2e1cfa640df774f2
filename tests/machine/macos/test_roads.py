"""The roads of a Mac, from captures that are written from published formats and not taken from a machine."""

from __future__ import annotations

import socket
from contextlib import closing
from ipaddress import ip_address, ip_network

import pytest
from mac_captures import capture
from mac_desk import AIR, VAULT, VAULT6, WIRE, said, sit_down

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.commands import Said
from netaudit.machine.macos import roads
from netaudit.machine.questions import RouteAnswer
from netaudit.model.machine_state import Endpoint, Route, SessionCount

SMB = Endpoint(VAULT, 445)
ROUTE = "route -n get -host 10.44.20.10"


def test_a_new_connection_goes_where_the_kernel_says(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)

    assert RouteAnswer(Route("en0", AIR, prefix=ip_network("10.44.20.0/24"), mtu=1500)) == roads.route(SMB)


def test_of_a_clone_the_network_behind_it_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {ROUTE: said(capture("route-get-cloned.txt"))})

    assert RouteAnswer(Route("en0", AIR, prefix=ip_network("10.44.20.0/24"), mtu=1500)) == roads.route(SMB)


def test_no_route_is_told_by_words_not_by_the_exit_code(monkeypatch: pytest.MonkeyPatch) -> None:
    """The command ends with 0."""
    sit_down(monkeypatch, {ROUTE: said(errors=capture("route-get-none.stderr.txt"), code=0)})

    assert RouteAnswer(None, "no route to that address is in the table") == roads.route(SMB)


def test_a_line_for_the_destination_alone_is_no_route(monkeypatch: pytest.MonkeyPatch) -> None:
    answer = said(capture("route-get-message.txt"), capture("route-get-message.stderr.txt"))
    sit_down(monkeypatch, {ROUTE: answer})

    assert RouteAnswer(None, "No route to host") == roads.route(SMB)


@pytest.mark.parametrize("answer", [said(), said("garbage"), said(errors="route: bad address: vault\n", code=68)])
def test_an_answer_that_says_neither_is_not_taken_for_no_route(monkeypatch: pytest.MonkeyPatch, answer: Said) -> None:
    sit_down(monkeypatch, {ROUTE: answer})

    with pytest.raises(AnswerError, match=r"route gave no answer for 10\.44\.20\.10"):
        roads.route(SMB)


def test_ipv6_is_asked_by_its_literal(monkeypatch: pytest.MonkeyPatch) -> None:
    """With -inet6 the command takes numbers only."""
    desk = sit_down(monkeypatch, {"route": said(capture("route-get-ipv6.txt"))})
    answer = roads.route(Endpoint(ip_address("2001:db8:44:9::10"), 445))

    assert "route -n get -inet6 2001:db8:44:9::10" in desk.asked
    assert answer.route is not None
    assert ip_address("fe80::1%en0") == answer.route.gateway


def test_where_the_kernel_does_not_tell_the_source_it_is_the_only_address_there_is(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    sit_down(monkeypatch, {"route -n get -inet6 2001:db8:44::10": said(capture("route-get-ipv6.txt"))})
    monkeypatch.setattr(roads, "source_towards", lambda address: None)
    one, several = roads.route(SMB).route, roads.route(Endpoint(VAULT6, 445)).route

    assert one is not None
    assert several is not None
    assert (AIR, None) == (one.source, several.source)


def test_a_source_on_another_interface_than_the_route_is_not_believed(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    monkeypatch.setattr(roads, "source_towards", lambda address: WIRE)
    answer = roads.route(SMB)

    assert answer.route is not None
    assert AIR == answer.route.source


def test_this_machine_itself_is_local(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"route": said(capture("route-get-local.txt"))})
    monkeypatch.setattr(roads, "source_towards", lambda address: WIRE)
    answer = roads.route(Endpoint(WIRE, 445))

    assert answer.route is not None
    assert (True, "lo0", WIRE) == (answer.route.local, answer.route.interface, answer.route.source)


def test_a_vpn_takes_the_road(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {ROUTE: said(capture("route-get-vpn.txt"))})
    answer = roads.route(SMB)

    assert answer.route is not None
    assert ("utun4", 1380, ip_address("10.8.0.2")) == (
        answer.route.interface, answer.route.mtu, answer.route.source,
    )  # fmt: skip


def test_the_kernels_own_connections_are_found_with_what_is_known_of_them(monkeypatch: pytest.MonkeyPatch) -> None:
    """SMB and NFS belong to the kernel, which no list of processes has."""
    sit_down(monkeypatch)
    wire, air = roads.sessions([VAULT], [445, 2049])

    assert ("en7", "kernel_task") == (wire.interface, wire.owner)
    assert SessionCount(1_075_958_462, 7_340_032_123, retransmitted_bytes=2896) == wire.tcp
    assert pytest.approx(0.00122) == wire.round_trip_s
    assert ("en0", None, None) == (air.interface, air.round_trip_s, air.tcp.retransmitted_bytes)


def test_bytes_come_from_the_traffic_monitor_where_netstat_does_not_count_them(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"netstat -anvl -p tcp": said(capture("netstat-tcp-12.txt"))})
    wire, air = roads.sessions([VAULT], [445])

    assert SessionCount(229_260, 322_736, retransmitted_bytes=2896) == wire.tcp
    assert SessionCount() == air.tcp


def test_the_owner_comes_from_the_traffic_monitor_where_netstat_does_not_name_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    sit_down(monkeypatch, {"netstat -anvl -p tcp": said(capture("netstat-tcp-12.txt"))})
    older = roads.sessions([VAULT], [22])
    sit_down(monkeypatch)
    newer = roads.sessions([VAULT], [22])

    assert ["Sync, v1.2 help", "Boathouse Sync: helper"] == [session.owner for session in (*older, *newer)]


def test_without_the_traffic_monitor_the_local_address_tells_the_interface(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"nettop -m tcp -n -x -L 1": AnswerError("late")})

    assert ["en7", "en0"] == [session.interface for session in roads.sessions([VAULT], [445])]


def test_the_traffic_monitor_is_believed_about_the_interface(monkeypatch: pytest.MonkeyPatch) -> None:
    elsewhere = capture("nettop.csv").replace("10.44.20.10:445,en7", "10.44.20.10:445,utun4")
    sit_down(monkeypatch, {"nettop -m tcp -n -x -L 1": said(elsewhere)})

    assert "utun4" == roads.sessions([VAULT], [445])[0].interface


def test_other_ports_other_hosts_and_closed_connections_are_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)

    assert [22] == [session.service for session in roads.sessions([VAULT], [22])]
    assert () == roads.sessions([ip_address("10.44.20.99")], [445])
    assert () == roads.sessions([ip_address("fe80::10")], [2049])


def test_without_an_address_every_connection_to_the_ports_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)

    assert {VAULT} < {session.remote.address for session in roads.sessions([], [22, 445, 2049])}
    assert {445} == {session.service for session in roads.sessions([], [445])}


def test_ipv6_connections_are_found(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)
    (session,) = roads.sessions([VAULT6], [445])

    assert ("en7", pytest.approx(0.00085)) == (session.interface, session.round_trip_s)


def test_without_netstat_the_question_is_not_answered(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"netstat -anvl -p tcp": None})

    with pytest.raises(MachineError):
        roads.sessions([VAULT], [445])


def test_aiming_a_socket_tells_the_source_and_sends_nothing() -> None:
    """Asked of this kernel: a datagram socket beside it hears nothing."""
    loopback = ip_address("127.0.0.1")
    with closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as beside:
        beside.bind(("127.0.0.1", 0))
        beside.settimeout(0.01)
        assert loopback == roads.source_towards(loopback)
        with pytest.raises(TimeoutError):
            beside.recv(1)


def test_a_source_that_the_kernel_cannot_tell_is_unknown() -> None:
    assert roads.source_towards(ip_address("fe80::10%no-such-link")) is None
