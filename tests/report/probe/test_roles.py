"""What part each interface plays."""

from __future__ import annotations

from ipaddress import IPv4Interface

from observations import (
    AIR,
    ELSEWHERE,
    EXPECTED,
    FAR,
    SESSION,
    SLOW_VAULT,
    VAULT,
    WIRE,
    WLAN0,
    diagnosed,
    interfaces,
    observed,
    port,
)

from netaudit.report.probe import roles


def test_the_planned_port_is_where_the_planned_road_begins() -> None:
    assert (WIRE, "en5") == (roles.planned_port(diagnosed()), roles.planned_interface(diagnosed()))
    assert None is roles.planned_port(diagnosed(expected=None))
    assert None is roles.planned_interface(diagnosed(expected=EXPECTED._replace(road=None)))


def test_a_planned_port_that_no_interface_was_recognised_as_has_none() -> None:
    lost = diagnosed(observed(interfaces={"wlan0": WLAN0}, sessions=()))

    assert (WIRE, None) == (roles.planned_port(lost), roles.planned_interface(lost))


def test_what_the_plan_expects_is_known_of_recognised_interfaces_only() -> None:
    known = roles.expected_port(diagnosed(), "wlan0")

    assert known is not None
    assert AIR == known.port
    assert None is roles.expected_port(diagnosed(), "lo")


def test_a_port_that_the_plan_calls_radio_is_one_and_an_unlisted_interface_is_unknown() -> None:
    seen = observed(interfaces=interfaces(WLAN0._replace(medium="virtual")))

    assert ["radio", "wired", "unknown"] == [roles.medium(diagnosed(seen), name) for name in ("wlan0", "en5", "en9")]
    assert "virtual" == roles.medium(diagnosed(seen, None), "wlan0")


def test_interfaces_and_addresses_in_use_are_each_told_once() -> None:
    diagnosis = diagnosed(observed(sessions=(SESSION, ELSEWHERE, SESSION)))

    assert ("en5", "wlan0") == roles.used_interfaces(diagnosis)
    assert (VAULT, SLOW_VAULT) == roles.used_addresses(diagnosis)
    assert FAR == roles.far_address(diagnosis, VAULT)
    assert None is roles.far_address(diagnosis, SLOW_VAULT)


def test_what_is_in_use_in_the_plan_or_has_an_address_matters_and_loopback_does_not() -> None:
    spare = port("en7", addresses=(IPv4Interface("198.51.100.7/24"),))
    idle = port("en8")
    seen = observed(
        interfaces={"en8": idle, "en7": spare, **interfaces(WLAN0._replace(addresses=()))},
        sessions=(SESSION,),
    )

    assert ["en5", "wlan0", "en7"] == [state.name for state in roles.interfaces_that_matter(diagnosed(seen))]
