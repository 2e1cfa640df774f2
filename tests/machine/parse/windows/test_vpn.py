"""Nothing of Windows runs here: the capture is written after the documented properties of Get-VpnConnection, whose
values are texts in every language; it is not taken from a machine."""

from __future__ import annotations

from windowsroom import capture

from netaudit.machine.parse.windows.script import answered
from netaudit.machine.parse.windows.vpn import connected


def test_only_profiles_that_are_connected_count() -> None:
    assert frozenset({"Boathouse VPN"}) == connected(answered(capture("tunnels"), "tunnels"))


def test_a_profile_without_a_name_is_none() -> None:
    assert frozenset() == connected([{"ConnectionStatus": "Connected"}, {"Name": 3, "ConnectionStatus": "Connected"}])
