"""Nothing of Windows runs here: the captures are written after Find-NetRoute's documentation, which answers with an
object of MSFT_NetIPAddress and one of MSFT_NetRoute; they are not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address, ip_network

import pytest
from windowsroom import capture

from netaudit.errors import AnswerError, PrivilegeError
from netaudit.machine.parse.windows.facts import RouteFacts, RouteFound
from netaudit.machine.parse.windows.find_route import found_route


def test_two_objects_of_two_classes_make_one_route() -> None:
    expected = RouteFacts(7, ip_network("10.44.20.0/24"), None, ip_address("10.44.20.12"), 256, 15)

    assert RouteFound(expected) == found_route(capture("find-route-on-link"), "route")


def test_a_next_hop_that_is_not_all_zeros_is_the_router() -> None:
    found = found_route(capture("find-route-gateway"), "route").route

    assert found is not None
    assert (ip_address("192.168.44.1"), 12, 0, 25) == (
        found.gateway,
        found.number,
        found.metric,
        found.interface_metric,
    )


def test_all_zeros_of_ipv6_are_on_the_link_too() -> None:
    found = found_route(capture("find-route-ipv6"), "route").route

    assert found is not None
    assert found.gateway is None


def test_the_order_of_the_two_objects_does_not_matter() -> None:
    answers = capture("find-route-on-link")
    answers["route"]["rows"].reverse()

    assert found_route(capture("find-route-on-link"), "route") == found_route(answers, "route")


def test_no_route_is_told_by_its_number_and_is_no_error() -> None:
    """Windows error 1231 is ERROR_NETWORK_UNREACHABLE (winerror.h)."""
    expected = RouteFound(None, "the network cannot be reached (Windows error 1231)")

    assert expected == found_route(capture("find-route-none"), "route")


def test_nothing_matched_is_no_route() -> None:
    answers = {"route": {"id": "CmdletizationQuery_NotFound,Find-NetRoute", "hresult": ""}}

    assert RouteFound(None, "there is no route (Windows error 1168)") == found_route(answers, "route")


@pytest.mark.parametrize(
    "rows",
    [
        [{"IPAddress": "10.44.20.12", "InterfaceIndex": 7}],
        [{"DestinationPrefix": "10.44.20.0/24", "InterfaceIndex": "seven"}],
    ],
)
def test_an_answer_without_a_usable_route_raises_an_answer_error(rows: list[object]) -> None:
    with pytest.raises(AnswerError):
        found_route({"route": {"rows": rows}}, "route")


def test_a_prefix_that_is_none_leaves_the_route_without() -> None:
    found = found_route({"route": {"rows": [{"DestinationPrefix": "everywhere", "InterfaceIndex": 7}]}}, "route").route

    assert RouteFacts(7, None, None, None, None, None) == found


def test_a_refusal_that_is_about_privilege_says_so() -> None:
    with pytest.raises(PrivilegeError):
        found_route({"route": {"id": "Windows System Error 5,Find-NetRoute", "hresult": ""}}, "route")
