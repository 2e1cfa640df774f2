"""Nothing of Windows runs here: whole rooms, their tables built by hand, PowerShell's answers written after documented
formats, asked every question of the protocol."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from ipaddress import ip_address, ip_network
from typing import Any

import pytest
from windowscalls import WindowsCalls
from windowsroom import (
    ON_LINK,
    connection,
    echo_reply,
    interface,
    ip_settings,
    neighbour,
    own_address,
    route_row,
    table,
    told,
)

from netaudit.errors import AnswerError, MachineError, PrivilegeError
from netaudit.machine.questions import Machine, RouteAnswer
from netaudit.machine.windows.native import Native
from netaudit.machine.windows.system import Windows
from netaudit.model.machine_state import Endpoint, Interface, Mount, Route
from netaudit.model.observation import FrameTest

VAULT = ip_address("10.44.20.10")
SMB = Endpoint(VAULT, 445)
MEDIA = Mount("X:", "smb", "\\\\vault\\media", host="vault", share="media")


def no_powershell(*queries: object) -> Mapping[str, object]:
    raise MachineError("powershell.exe is not there to be asked")


def silent_powershell(*queries: object) -> Mapping[str, object]:
    raise AnswerError("powershell.exe did not answer within 15 s")


def routes(remote: str, local: str | None) -> tuple[bytes, str] | int:
    """By longest prefix: the wire to the storage, Wi-Fi to the rest; nothing to documentation's last block."""
    if remote.startswith("203.0.113."):
        return 1231
    if remote.startswith("10.44.20.") and local in (None, "10.44.20.12"):
        return route_row(7, "10.44.20.0/24", ON_LINK, 256), "10.44.20.12"
    return route_row(12, "0.0.0.0/0", "192.168.44.1", 0), "192.168.44.32"


def room(**changes: Any) -> WindowsCalls:
    """A cutting room's seat: 10 Gb/s to the storage, Wi-Fi to the office, X: mapped."""
    tables: dict[str, Any] = {
        "interfaces": table(
            interface(7, "Ethernet 2", "02:00:5e:00:53:12", TransmitLinkSpeed=10**10, ReceiveLinkSpeed=10**10),
            interface(12, "WLAN", "02:00:5e:00:53:32", Type=71, PhysicalMediumType=9),
        ),
        "addresses": table(own_address(7, "10.44.20.12", 24), own_address(12, "192.168.44.32", 24)),
        "ip_interfaces": {(7, 2): ip_settings(7, 15, 9000), (12, 2): ip_settings(12, 25, 1500)},
        "neighbours": table(neighbour(7, "10.44.20.10", "02:00:5e:00:53:10")),
        "tcp_2": table(connection(("10.44.20.12", 50123), ("10.44.20.10", 445)), first=4),
        "routes": routes,
        "echo": lambda sent: echo_reply(0),
        "names": lambda path: "\\\\vault\\media" + path[2:] if path[0] in "Xx" else 2250,
    }
    return WindowsCalls(**{**tables, **changes})


def windows(calls: WindowsCalls, ask: Any = no_powershell) -> Windows:
    return Windows(Native(calls.load), ask)


def test_it_is_a_machine() -> None:
    machine: Machine = windows(room())

    assert ("windows", None, ()) == (machine.system, machine.manager(), machine.service_order())


def test_the_road_is_found_by_direct_calls_alone_where_powershell_is_missing() -> None:
    machine = windows(room())
    found = machine.route(SMB)

    assert RouteAnswer(Route("Ethernet 2", ip_address("10.44.20.12"), None, ip_network("10.44.20.0/24"), 271)) == found
    assert ["Ethernet 2", "WLAN"] == list(machine.interfaces())
    assert ["Ethernet 2"] == [each.interface for each in machine.sessions([VAULT], [445])]
    assert MEDIA == machine.mount_of("X:\\day 1")
    assert ("02:00:5e:00:53:10",) == machine.neighbours(VAULT)
    assert {"Ethernet 2", "WLAN"} == set(machine.counts())


def test_what_only_powershell_tells_is_an_error_of_this_machine_where_it_is_missing_or_silent() -> None:
    for ask in (no_powershell, silent_powershell):
        machine = windows(room(), ask)
        with pytest.raises(MachineError):
            machine.client(MEDIA, "vault", [VAULT])
        with pytest.raises(MachineError):
            machine.detailed(Interface("Ethernet 2", number=7))


def test_multichannel_that_mixes_wifi_in_is_told_by_the_client_itself() -> None:
    found = windows(room(), told("multichannel-mixed")).client(MEDIA, "vault", [VAULT])

    assert [("Ethernet 2", True), ("WLAN", True), ("Ethernet", False)] == [
        (each.interface, each.active) for each in found.channels
    ]


def test_without_elevation_nothing_falls_over() -> None:
    machine = windows(room(), told("client-refused"))

    with pytest.raises(PrivilegeError, match="Run as administrator"):
        machine.client(MEDIA, "vault", [VAULT])
    assert machine.route(SMB).route is not None


def test_a_session_older_than_the_cable_still_goes_over_the_air() -> None:
    """Windows' connection manager leaves living sessions where they are (documentation of soft disconnect)."""
    machine = windows(room(tcp_2=table(connection(("192.168.44.32", 50123), ("10.44.20.10", 445)), first=4)))
    route, session = machine.route(SMB).route, machine.sessions([VAULT], [445])[0]

    assert route is not None
    assert ("Ethernet 2", "WLAN") == (route.interface, session.interface)


def test_a_vpn_that_takes_the_route_is_a_tunnel() -> None:
    calls = room(
        interfaces=table(
            interface(7, "Ethernet 2"),
            interface(20, "Boathouse VPN", Type=53, PhysicalMediumType=0, InterfaceAndOperStatusFlags=0),
        ),
        addresses=table(own_address(7, "10.44.20.12", 24), own_address(20, "198.51.100.77", 32)),
        routes=lambda remote, local: (route_row(20, "10.44.20.10/32", ON_LINK, 0), "198.51.100.77"),
    )
    machine = windows(calls)
    route = machine.route(SMB).route

    assert route is not None
    assert "tunnel" == machine.interfaces()[route.interface].medium


def test_no_route_is_an_answer() -> None:
    found = windows(room()).route(Endpoint(ip_address("203.0.113.9"), 445))

    assert RouteAnswer(None, "the network cannot be reached (Windows error 1231)") == found


def test_a_cable_that_is_out_leaves_its_address_and_takes_its_rate() -> None:
    calls = room(
        interfaces=table(interface(7, "Ethernet 2", MediaConnectState=2, OperStatus=2)),
        addresses=table(own_address(7, "10.44.20.12", 24, state=1)),
    )
    found = windows(calls).interfaces()["Ethernet 2"]

    assert (False, None, (ip_address("10.44.20.12"),)) == (found.carrier, found.rate_bit_per_s, found.hosts)


def test_frames_and_routers_are_asked_for_without_powershell() -> None:
    machine = windows(room())
    route = machine.route(SMB).route

    assert route is not None
    assert FrameTest(9000, passed=True, method="icmp") == machine.frame(VAULT, 9000, route, 0.2)
    assert () == machine.routers(VAULT, 4, 1.0)


def test_listening_for_the_switch_names_what_it_needs() -> None:
    with pytest.raises(PrivilegeError, match="packet capture driver"):
        windows(room()).listen(Interface("Ethernet 2", number=7), 1.0)


def test_names_that_lie_are_told_apart_by_their_number() -> None:
    calls = room(interfaces=table(interface(7, "이더넷"), interface(12, "이더넷"), interface(3, "\x1b[31m")))

    assert ["이더넷", "이더넷 #12", "\x1b[31m"] == list(windows(calls).interfaces())


def test_a_windows_whose_libraries_are_missing_is_asked_through_powershell() -> None:
    captures = ("adapters-5.1-de", "addresses", "connections", "neighbours", "mappings", "find-route-on-link")
    machine = (
        Windows(Native(), told(*captures)) if sys.platform != "win32" else windows(room(interfaces=5), told(*captures))
    )
    route = machine.route(SMB).route

    assert route is not None
    assert ("Ethernet 2", 271) == (route.interface, route.metric)
    assert "Ethernet 2" == machine.sessions([VAULT], [445])[0].interface
    assert ("02:00:5e:00:53:10", "02:00:5e:00:53:20") == machine.neighbours(VAULT)
    assert MEDIA == machine.mount_of("X:\\day 1")


def test_every_table_that_was_given_is_freed_after_all_questions() -> None:
    calls = room()
    machine = windows(calls)
    machine.interfaces()
    machine.route(SMB)
    machine.sessions([VAULT], [445])
    machine.neighbours(VAULT)

    assert sorted(calls.allocated) == sorted(set(calls.freed))
    assert 0 == calls.handles
