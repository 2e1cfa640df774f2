"""Find-NetRoute: the route that Windows would take. It answers with two objects of two classes."""

from __future__ import annotations

from collections.abc import Mapping
from ipaddress import ip_network

from netaudit.errors import AnswerError
from netaudit.machine.parse.literals import address_of
from netaudit.machine.parse.windows.facts import RouteFacts, RouteFound, refusal_text
from netaudit.machine.parse.windows.json_shape import Row, text, whole
from netaudit.machine.parse.windows.script import answered, refusal
from netaudit.model.vocabulary import Subnet


def found_route(answers: Mapping[str, object], name: str) -> RouteFound:
    """The route, or why there is none; raises AnswerError where it can be neither."""
    refused = refusal(answers, name)
    why_not = refusal_text(refused.code) if refused is not None and refused.code is not None else None
    if why_not is not None:
        return RouteFound(None, why_not)
    objects = answered(answers, name)
    routes = [row for row in objects if text(row, "DestinationPrefix") is not None]
    sources = [row for row in objects if text(row, "IPAddress") is not None]
    if not objects:
        return RouteFound(None, refusal_text(1168))
    if not routes:
        raise AnswerError("Find-NetRoute answered without a route")
    return RouteFound(_route(routes[0], sources[0] if sources else {}))


def _route(row: Row, source: Row) -> RouteFacts:
    """MSFT_NetRoute beside MSFT_NetIPAddress; a next hop of all zeros means on the link."""
    number = whole(row, "InterfaceIndex")
    if number is None:
        raise AnswerError("Find-NetRoute answered with a route on no interface")
    gateway = address_of(text(row, "NextHop"))
    return RouteFacts(
        number=number,
        prefix=_subnet(text(row, "DestinationPrefix")),
        gateway=None if gateway is None or gateway.is_unspecified else gateway,
        source=address_of(text(source, "IPAddress")),
        metric=whole(row, "RouteMetric"),
        interface_metric=whole(row, "InterfaceMetric"),
    )


def _subnet(words: str | None) -> Subnet | None:
    try:
        return None if words is None else ip_network(words, strict=False)
    except ValueError:
        return None
