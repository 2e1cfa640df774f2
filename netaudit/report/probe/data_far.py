"""The far end as plain values: the storage's addresses, and what it says of itself."""

from __future__ import annotations

from typing import Any, Literal

from netaudit.model.machine_state import Route
from netaudit.model.observation import FarAddress, FrameTest, Knock, Observation, Origin, Outcome
from netaudit.report.probe.tables import round_trip_s

ANSWERS: dict[Outcome, bool | None] = {
    "open": True,
    "refused": False,
    "silent": False,
    "unreachable": None,
    "blocked": None,
}
"""Whether a service answers, by how it was found; where nothing got through, that is not known."""
ORIGINS: dict[Origin, Literal["dns", "hosts", "mdns", "literal"]] = {
    "dns": "dns",
    "hosts": "hosts",
    "mdns": "mdns",
    "literal": "literal",
    "mount": "literal",
    "plan": "literal",
}
"""Where an address comes from, in the format's own words: whatever was not looked up was given literally."""


def address_values(far: FarAddress) -> dict[str, Any]:
    """One address of the storage."""
    route = far.route
    return {
        "address": str(far.address),
        "from": ORIGINS[far.origin],
        "interface": None if route is None else route.interface,
        "source": None if route is None else _written(route.source),
        "gateway": None if route is None else _written(route.gateway),
        "round_trip_ms": milliseconds(round_trip_s(far)),
        "path_mtu": far.path_mtu,
        "hardware_addresses": None if far.neighbours is None else list(far.neighbours.macs),
        "services": {str(port): ANSWERS[knock.outcome] for port, knock in far.knocks.items()},
        "route": None if route is None else _route(route),
        "no_route": far.no_route,
        "knocks": {str(port): _knock(knock) for port, knock in far.knocks.items()},
        "frames": [_frame(test) for test in far.frames],
        "routers": None if far.routers is None else [str(router) for router in far.routers],
        "hardware_addresses_asked": None if far.neighbours is None else far.neighbours.asked,
        "identity": None if far.smb is None else far.smb.identity,
        "smb_silent": far.smb_silent,
    }


def _route(route: Route) -> dict[str, Any]:
    return {
        "prefix": _written(route.prefix),
        "metric": route.metric,
        "table": route.table,
        "mtu": route.mtu,
        "local": route.local,
    }


def _knock(knock: Knock) -> dict[str, Any]:
    return {
        "outcome": knock.outcome,
        "round_trips_ms": [milliseconds(trip_s) for trip_s in knock.round_trips_s],
        "lost": knock.lost,
        "mss": knock.mss,
    }


def _frame(test: FrameTest) -> dict[str, Any]:
    return {
        "size_octets": test.size_octets,
        "passed": test.passed,
        "method": test.method,
        "told_mtu": test.told_mtu,
    }


def storage_values(seen: Observation) -> dict[str, Any]:
    """What the storage says of itself, the living session before a new one.

    A server that demands signing signs every session; of one that does not, only the session itself could tell.
    """
    smb = next((far.smb for far in seen.addresses if far.smb is not None), None)
    client = seen.client
    demanded = (None, None) if smb is None else (smb.signing_required or None, smb.encryption_required or None)
    return {
        "dialect": client.dialect or (None if smb is None else smb.dialect),
        "signing": demanded[0] if client.signing is None else client.signing,
        "encryption": demanded[1] if client.encryption is None else client.encryption,
        "identity": None if smb is None else smb.identity,
        "offers": None
        if seen.offers is None
        else [{"address": str(offer.address), "rate_bit_per_s": offer.rate_bit_per_s} for offer in seen.offers],
    }


def milliseconds(duration_s: float | None) -> float | None:
    """A time in milliseconds, to the microsecond."""
    return None if duration_s is None else round(duration_s * 1000, 3)


def _written(value: object) -> str | None:
    return None if value is None else str(value)
