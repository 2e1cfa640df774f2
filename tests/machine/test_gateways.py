"""The default gateways."""

from __future__ import annotations

from ipaddress import ip_address

import netifaces
import pytest

from netaudit.machine.gateways import default_gateways


def test_gateways_of_both_families_are_told_once_each(monkeypatch: pytest.MonkeyPatch) -> None:
    found = {
        netifaces.AF_INET6: [("fe80::1%en5", "en5", True)],
        netifaces.AF_INET: [
            ("192.168.44.1", "wlan0", True),
            ("192.168.44.1", "en5", False),
            ("not an address", "x", False),
        ],
        "default": {},
    }
    monkeypatch.setattr(netifaces, "gateways", lambda: found)

    assert (ip_address("192.168.44.1"), ip_address("fe80::1%en5")) == default_gateways()


def test_a_flat_network_has_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(netifaces, "gateways", dict)

    assert () == default_gateways()
