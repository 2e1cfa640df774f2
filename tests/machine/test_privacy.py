"""The guard of macOS that looks like a dead host. Source: Apple, TN3179 Understanding local network privacy."""

from __future__ import annotations

from ipaddress import ip_address

import pytest

from netaudit.machine.privacy import blocked_by_privacy
from netaudit.model.machine_state import Route

ON_LINK = Route("en7")
ROUTED = Route("en0", gateway=ip_address("10.44.20.1"))
OWN = Route("lo0", local=True)


def test_no_way_to_a_host_on_the_link_that_answers_the_systems_own_ping_is_the_guard() -> None:
    """The guard's words are "No route to host"."""
    assert blocked_by_privacy("unreachable", ON_LINK, answers_the_system=True)


@pytest.mark.parametrize("outcome", ["open", "refused", "silent"])
def test_any_other_outcome_is_not_the_guard(outcome: str) -> None:
    assert not blocked_by_privacy(outcome, ON_LINK, answers_the_system=True)  # type: ignore[arg-type]


@pytest.mark.parametrize("route", [ROUTED, OWN, None])
def test_only_hosts_on_the_link_are_guarded(route: Route | None) -> None:
    assert not blocked_by_privacy("unreachable", route, answers_the_system=True)


def test_a_host_that_does_not_answer_the_system_either_is_just_not_there() -> None:
    assert not blocked_by_privacy("unreachable", ON_LINK, answers_the_system=False)
