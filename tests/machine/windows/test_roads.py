"""Nothing of Windows runs here: tables are built by hand at the offsets of the public headers."""

from __future__ import annotations

from ipaddress import ip_address, ip_network
from typing import Any

import pytest
from windowscalls import WindowsCalls
from windowsroom import (
    ON_LINK,
    connection,
    interface,
    ip_settings,
    neighbour,
    own_address,
    route_row,
    table,
    told,
)

from netaudit.errors import AnswerError
from netaudit.machine.questions import RouteAnswer
from netaudit.machine.windows.asked import Asked
from netaudit.machine.windows.native import Native
from netaudit.machine.windows.roads import neighbours, route, sessions
from netaudit.machine.windows.ways import Ways
from netaudit.model.machine_state import Endpoint, Route
from netaudit.standards.metrics import speed_metric

VAULT, SEAT = ip_address("10.44.20.10"), ip_address("10.44.20.12")
SMB = Endpoint(VAULT, 445)


def ways(*captures: str, **tables: Any) -> Ways:
    room = {
        "interfaces": table(interface(7, "Ethernet 2"), interface(12, "WLAN", PhysicalMediumType=9)),
        "addresses": table(
            own_address(7, "10.44.20.12", 24), own_address(12, "10.44.20.32", 24), own_address(7, "fe80::12", 64)
        ),
        "routes": lambda remote, local: (route_row(7, "10.44.20.0/24", ON_LINK, 256), "10.44.20.12"),
        "ip_interfaces": {(7, 2): ip_settings(7, 25, 1500), (12, 2): ip_settings(12, 25, 1500)},
    }
    ask = told(*captures)
    return Ways(Native(WindowsCalls(**{**room, **tables}).load), Asked(ask), ask)


def test_a_route_names_its_interface_and_adds_both_metrics() -> None:
    expected = Route("Ethernet 2", source=SEAT, prefix=ip_network("10.44.20.0/24"), metric=256 + 25)

    assert RouteAnswer(expected) == route(ways(), SMB)


def test_what_the_system_has_learnt_of_the_way_is_told() -> None:
    found = route(ways(path_mtus={(7, "10.44.20.10"): 1500}), SMB).route

    assert found is not None
    assert 1500 == found.mtu


def test_this_machine_itself_is_told() -> None:
    found = route(ways(), Endpoint(SEAT, 445)).route

    assert found is not None
    assert found.local


def test_no_route_has_its_reason() -> None:
    expected = RouteAnswer(None, "the network cannot be reached (Windows error 1231)")

    assert expected == route(ways(routes=lambda remote, local: 1231), SMB)


def test_a_route_by_an_interface_that_is_not_listed_is_no_answer() -> None:
    hidden = ways(routes=lambda remote, local: (route_row(99, "0.0.0.0/0", "10.44.20.1", 0), "10.44.20.12"))

    with pytest.raises(AnswerError, match="interface 99"):
        route(hidden, SMB)


def test_powershell_finds_the_route_where_the_call_is_barred() -> None:
    found = route(ways("find-route-on-link", routes=lambda remote, local: 87), SMB).route

    assert found is not None
    assert ("Ethernet 2", 256 + 15) == (found.interface, found.metric)


def test_a_metric_that_is_half_known_is_unknown() -> None:
    asked = ways(ip_interfaces={})
    found = route(asked, SMB).route

    assert found is not None
    assert found.metric is None


def test_wifi_at_two_gigabits_ties_with_a_gigabit_wire_and_the_metrics_show_it() -> None:
    """Windows' own automatic metrics for these rates (support article 299540, in netaudit/standards/metrics.csv)."""
    wire, air = speed_metric("wired", 10**9).metric, speed_metric("wi-fi", 2_402_000_000).metric
    settings = {(7, 2): ip_settings(7, wire, 1500), (12, 2): ip_settings(12, air, 1500)}
    by_wire = route(ways(ip_interfaces=settings), SMB).route
    over_air = (route_row(12, "10.44.20.0/24", ON_LINK, 256), "10.44.20.32")
    by_air = route(ways(ip_interfaces=settings, routes=lambda remote, local: over_air), SMB).route

    assert by_wire is not None
    assert by_air is not None
    assert {"Ethernet 2": 281, "WLAN": 281} == {each.interface: each.metric for each in (by_wire, by_air)}


@pytest.mark.parametrize(
    ("ends", "expected"),
    [
        ((("10.44.20.12", 50123), ("10.44.20.10", 445)), "Ethernet 2"),
        ((("10.44.20.32", 50123), ("10.44.20.10", 445)), "WLAN"),
        ((("10.44.20.77", 50123), ("10.44.20.10", 445)), None),
    ],
)
def test_a_session_goes_by_the_interface_that_owns_its_local_address(ends: Any, expected: str | None) -> None:
    """RFC 1122, 3.3.4.2: in the strong host model, Windows' own since Vista, a source address binds to its interface."""
    found = sessions(ways(tcp_2=table(connection(*ends), first=4)), [VAULT], [445])

    assert [expected] == [each.interface for each in found]


def test_in_the_weak_host_model_the_route_decides() -> None:
    asked = ways(
        tcp_2=table(connection(("10.44.20.32", 50123), ("10.44.20.10", 445)), first=4),
        ip_interfaces={(12, 2): ip_settings(12, 25, 1500, weak=1)},
    )

    assert "Ethernet 2" == sessions(asked, [VAULT], [445])[0].interface


@pytest.mark.parametrize("routes", [1231, (route_row(99, "10.44.20.0/24", ON_LINK, 256), "10.44.20.32")])
def test_where_the_route_of_the_weak_host_is_not_known_neither_is_the_interface(routes: object) -> None:
    asked = ways(
        tcp_2=table(connection(("10.44.20.32", 50123), ("10.44.20.10", 445)), first=4),
        ip_interfaces={(12, 2): ip_settings(12, 25, 1500, weak=1)},
        routes=lambda remote, local: routes,
    )

    assert [None] == [each.interface for each in sessions(asked, [VAULT], [445])]


def test_the_sockets_of_the_file_client_are_windows_own() -> None:
    rows = (
        connection(("10.44.20.12", 50123), ("10.44.20.10", 445), process=4),
        connection(("10.44.20.12", 50124), ("10.44.20.10", 445), process=912),
        connection(("10.44.20.12", 50125), ("10.44.20.10", 445), process=0),
    )
    found = sessions(ways(tcp_2=table(*rows, first=4)), [VAULT], [445])

    assert ["System", "process 912", None] == [each.owner for each in found]


def test_only_the_addresses_and_ports_that_are_meant_count_and_none_means_any() -> None:
    rows = (
        connection(("10.44.20.12", 50123), ("10.44.20.10", 445)),
        connection(("10.44.20.12", 50124), ("10.44.20.99", 445)),
        connection(("10.44.20.12", 50125), ("10.44.20.10", 443)),
    )
    asked = ways(tcp_2=table(*rows, first=4))

    assert [50123] == [each.local.port for each in sessions(asked, [VAULT], [445, 2049])]
    assert [50123, 50124] == [each.local.port for each in sessions(asked, [], [445])]
    assert () == sessions(asked, [VAULT], [2049])


def test_a_link_local_session_is_found_whether_the_zone_was_given_or_not() -> None:
    living = connection(("fe80::12%7", 50123), ("fe80::10%7", 445))
    asked = ways(tcp_23=table(living, first=4))

    assert "Ethernet 2" == sessions(asked, [ip_address("fe80::10")], [445])[0].interface


def test_one_address_may_have_two_neighbours_on_two_links() -> None:
    asked = ways(
        neighbours=table(
            neighbour(7, "10.44.20.10", "02:00:5e:00:53:10"),
            neighbour(12, "10.44.20.10", "02:00:5e:00:53:20"),
            neighbour(12, "10.44.20.99", "02:00:5e:00:53:99"),
        )
    )

    assert ("02:00:5e:00:53:10", "02:00:5e:00:53:20") == neighbours(asked, VAULT)
