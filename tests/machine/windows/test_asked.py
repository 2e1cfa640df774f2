"""Nothing of Windows runs here: answers are served from files written after documented formats."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from windowsroom import told

from netaudit.errors import PrivilegeError
from netaudit.machine.parse.windows.facts import IpInterface
from netaudit.machine.windows.asked import Asked

ASKED = Asked(
    told(
        "adapters-5.1-de", "statistics", "addresses", "ip-interfaces", "connections", "neighbours", "find-route-on-link"
    )
)


def test_adapters_come_with_their_counters() -> None:
    found = {each.alias: each for each in ASKED.adapters()}

    assert 9_000_000_000 == found["Ethernet 2"].counters.sent_bytes


def test_adapters_without_statistics_have_unknown_counters() -> None:
    found = Asked(told("adapters-5.1-de")).adapters()

    assert {None} == {each.counters.sent_bytes for each in found}


def test_addresses_connections_and_neighbours_are_answered() -> None:
    assert 8 == len(ASKED.addresses())
    assert 4 == len(ASKED.connections())
    assert 4 == len(ASKED.neighbours())


def test_the_route_and_the_metric_are_answered() -> None:
    found = ASKED.best_route(ip_address("10.44.20.10")).route

    assert found is not None
    assert (7, 256, 15) == (found.number, found.metric, found.interface_metric)
    assert IpInterface(25, 1500, weak=False) == ASKED.ip_interface(12, 4)
    assert ASKED.ip_interface(12, 6) is None


def test_a_refusal_is_handed_on() -> None:
    refused = {"connections": {"id": "Windows System Error 5,Get-NetTCPConnection", "hresult": ""}}

    with pytest.raises(PrivilegeError):
        Asked(lambda *queries: refused).connections()
