"""What an interface is. The words of `type` are those of Apple's ifconfig.c."""

from __future__ import annotations

import pytest

from netaudit.machine.parse.macos.medium import medium_of, rate_is_made_up


@pytest.mark.parametrize(
    ("name", "kind", "expected"),
    [
        ("en7", "Ethernet", "wired"),
        ("en8", "USB Ethernet", "wired"),
        ("en3", "IP over Thunderbolt", "wired"),
        ("en0", "Wi-Fi", "radio"),
        ("awdl0", "Wi-Fi", "radio"),
        ("llw0", None, "radio"),
        ("utun4", None, "tunnel"),
        ("ipsec0", "Wi-Fi", "tunnel"),
        ("lo0", None, "virtual"),
        ("bridge0", None, "virtual"),
        ("vlan0", "Ethernet", "virtual"),
        ("en9", None, "unknown"),
        ("en9", "Companion Link", "unknown"),
        ("", None, "unknown"),
    ],
)
def test_the_name_of_a_kind_decides_then_its_type(name: str, kind: str | None, expected: str) -> None:
    assert expected == medium_of(name, kind, {"UP"})


def test_a_point_to_point_link_of_unknown_kind_is_a_tunnel() -> None:
    assert "tunnel" == medium_of("zt0", None, {"UP", "POINTOPOINT"})


def test_pairs_without_a_wire_make_their_rate_up() -> None:
    assert rate_is_made_up("feth0")
    assert not rate_is_made_up("en7")
