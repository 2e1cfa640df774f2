"""What takes longer to find out about an interface."""

import pytest

from netaudit.machine.linux import details
from netaudit.machine.linux.details import detailed
from netaudit.machine.linux.ethtool import LinkSettings
from netaudit.machine.linux.links import interfaces
from netaudit.model.machine_state import AdapterBus, Interface

WIRE = Interface("en5", 7, medium="wired", rate_bit_per_s=1_000_000_000)
GIGABIT, TEN_GIGABIT, NEGOTIATION = 1 << 5, 1 << 12, 1 << 6


@pytest.fixture
def said(monkeypatch: pytest.MonkeyPatch) -> None:
    settings = LinkSettings(10**9, "full", TEN_GIGABIT | GIGABIT | NEGOTIATION, GIGABIT | NEGOTIATION, NEGOTIATION)
    monkeypatch.setattr(details, "link_settings", lambda name: settings)
    monkeypatch.setattr(details, "bus", lambda interface: AdapterBus("usb 5G"))
    monkeypatch.setattr(details, "rate_bit_per_s", lambda number: 866_700_000)


def test_rates_of_both_ends_and_the_bus_are_added(said: None) -> None:
    assert WIRE._replace(
        supported=(10**10, 10**9), offered=(10**9,), partner=None, bus=AdapterBus("usb 5G")
    ) == detailed(WIRE)


def test_a_radio_runs_at_the_rate_of_the_moment(said: None) -> None:
    radio = Interface("wlp2s0", 4, medium="radio", rate_bit_per_s=None)

    assert 866_700_000 == detailed(radio).rate_bit_per_s


def test_a_radio_that_does_not_tell_keeps_what_is_known(said: None, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(details, "rate_bit_per_s", lambda number: None)

    assert 54 == detailed(Interface("wlp2s0", 4, medium="radio", rate_bit_per_s=54)).rate_bit_per_s


def test_a_virtual_pair_has_neither_bus_nor_partner(station) -> None:
    before = station.ask(interfaces)["en5"]

    seen = station.ask(detailed, before)

    assert (None, None) == (seen.bus, seen.partner)
    assert (before.name, before.addresses, before.rate_bit_per_s) == (seen.name, seen.addresses, seen.rate_bit_per_s)
