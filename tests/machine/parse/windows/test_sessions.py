"""Nothing of Windows runs here: the capture is written after the documented properties of MSFT_NetTCPConnection; it is
not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

from windowsroom import capture

from netaudit.machine.parse.windows.facts import Connection
from netaudit.machine.parse.windows.script import answered
from netaudit.machine.parse.windows.sessions import connections
from netaudit.model.machine_state import Endpoint

FOUND = connections(answered(capture("connections"), "connections"))


def test_only_connections_in_state_5_live_and_listeners_are_none() -> None:
    expected = [50123, 50124, 50300, 50400]

    assert expected == [each.local.port for each in FOUND]


def test_the_sockets_of_the_file_client_belong_to_process_4() -> None:
    expected = Connection(Endpoint(ip_address("10.44.20.12"), 50123), Endpoint(ip_address("10.44.20.10"), 445), 4)

    assert expected == FOUND[0]


def test_zones_stay_and_ipv4_in_ipv6_clothes_is_ipv4() -> None:
    assert "fe80::10%7" == str(FOUND[1].remote.address)
    assert "10.44.20.10" == str(FOUND[2].remote.address)


def test_rows_that_make_no_sense_are_left_away() -> None:
    row = {"LocalAddress": "10.0.0.1", "LocalPort": 1, "RemoteAddress": "10.0.0.2", "RemotePort": 445, "State": 5}

    assert 2 == len(connections([row, {**row, "LocalPort": 65_535}]))
    assert () == connections(
        [{**row, "State": "Established"}, {**row, "LocalPort": 65_536}, {**row, "RemoteAddress": "*"}]
    )
