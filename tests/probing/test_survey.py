"""Surveying this machine for a first plan."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from machines import AIR, SLOW_VAULT, VAULT, WIRE, FakeMachine, session

from netaudit.errors import AnswerError, InputError
from netaudit.model.machine_state import Endpoint, Interface
from netaudit.probing import survey as surveying
from netaudit.probing.survey import survey


@pytest.fixture(autouse=True)
def _machine_wide(monkeypatch: pytest.MonkeyPatch) -> None:
    names = {"vault": ((VAULT, "dns"), (SLOW_VAULT, "dns"))}
    monkeypatch.setattr(surveying, "addresses_of", lambda host, timeout_s: names.get(host, ()))
    monkeypatch.setattr(surveying, "default_gateways", lambda: (ip_address("192.168.44.1"),))
    monkeypatch.setattr(surveying, "own_name", lambda: "cut-1.local")


def test_wires_and_radios_are_told_closely_and_nothing_else() -> None:
    machine = FakeMachine(known_interfaces={"en5": WIRE, "wlan0": AIR, "lo": Interface("lo", medium="virtual")})
    found = survey(machine, None)

    assert ["en5", "wlan0"] == list(found.interfaces)
    assert (10**10, 10**9) == found.interfaces["en5"].offered
    assert ("cut-1.local", "linux", (ip_address("192.168.44.1"),)) == (found.host, found.system, found.gateways)


def test_a_target_is_a_storage_with_all_its_addresses() -> None:
    assert {"vault": (VAULT, SLOW_VAULT)} == survey(FakeMachine(), "vault").storages


def test_a_target_whose_name_is_not_resolved_in_time_has_no_address_yet(monkeypatch: pytest.MonkeyPatch) -> None:
    def silent(host: str, timeout_s: float) -> None:
        raise AnswerError("silent")

    monkeypatch.setattr(surveying, "addresses_of", silent)

    assert {"vault": ()} == survey(FakeMachine(), "vault").storages


def test_without_a_target_the_storages_are_those_with_a_living_file_session() -> None:
    other = session()._replace(remote=Endpoint(SLOW_VAULT, 445))

    assert {"storage": (VAULT,)} == survey(FakeMachine(living=(session(), session(2049))), None).storages
    assert {"storage-1": (VAULT,), "storage-2": (SLOW_VAULT,)} == survey(
        FakeMachine(living=(session(), other)), None
    ).storages


def test_what_cannot_be_told_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    def silent() -> None:
        raise AnswerError("silent")

    monkeypatch.setattr(surveying, "default_gateways", silent)
    found = survey(FakeMachine(living=AnswerError("silent")), None)

    assert ((), {}) == (found.gateways, found.storages)


@pytest.mark.parametrize(("target", "error"), [("vualt", "vualt: no such host"), ("me", "me: is this machine itself")])
def test_a_target_that_nobody_knows_or_that_is_this_machine_is_wrong_input(
    monkeypatch: pytest.MonkeyPatch, target: str, error: str
) -> None:
    names = {"me": ((ip_address("127.0.0.1"), "hosts"), (ip_address("::1"), "hosts"))}
    monkeypatch.setattr(surveying, "addresses_of", lambda host, timeout_s: names.get(host, ()))

    with pytest.raises(InputError, match=error):
        survey(FakeMachine(), target)


def test_a_name_that_is_this_machines_only_in_part_is_a_storage_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    """A hosts file may give a storage's name the loopback beside what the network says."""
    found = ((ip_address("127.0.0.1"), "hosts"), (VAULT, "mdns"))
    monkeypatch.setattr(surveying, "addresses_of", lambda host, timeout_s: found)

    assert {"vault": (ip_address("127.0.0.1"), VAULT)} == survey(FakeMachine(), "vault").storages
