"""`ifconfig -v` and `-m`. Format: Apple's ifconfig.c; the captures are written from it, not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_interface

import pytest
from mac_captures import capture

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.ifconfig import Block, parse_ifconfig, parse_supported

M = 10**6


def block(name: str, release: str = "26") -> Block:
    return parse_ifconfig(capture(f"ifconfig-av-{release}.txt"))[name]


@pytest.mark.parametrize("release", ["12", "26"])
def test_a_wired_port_is_read_whole_in_every_release(release: str) -> None:
    port = block("en7", release)

    assert (9000, 18, "02:00:5e:01:02:03", True, "Ethernet") == (
        port.mtu, port.number, port.mac, port.carrier, port.kind,
    )  # fmt: skip
    assert port.media is not None
    assert (10_000 * M, "full") == (port.media.rate_bit_per_s, port.media.duplex)
    assert "UP" in port.flags


def test_every_address_has_its_prefix_and_a_link_local_one_its_zone() -> None:
    expected = ("fe80::11:2233:4455:6677%en7/64", "10.44.20.11/24", "2001:db8:44::1111:2222:3333:51/64")

    assert tuple(map(ip_interface, expected)) == block("en7").addresses


def test_a_radio_has_no_medium_with_a_rate_and_runs_at_the_slower_of_both_directions() -> None:
    radio = block("en0")

    assert radio.media is not None
    assert (None, 610_500_000) == (radio.media.rate_bit_per_s, radio.link_rate_bit_per_s)


def test_no_cable_is_told_by_the_status() -> None:
    assert block("en9").carrier is False
    assert "UP" not in block("en9").flags


def test_a_driver_that_reports_no_status_leaves_the_carrier_unknown() -> None:
    assert block("lo0").carrier is None
    assert block("en3").carrier is None
    assert "IP over Thunderbolt" == block("en3").kind


def test_a_vlan_names_its_port() -> None:
    assert "en7" == block("vlan0").parent
    assert (ip_interface("198.51.100.11/26"),) == block("vlan0").addresses


def test_bridges_and_bonds_name_their_members() -> None:
    assert ("en1", "en2") == block("bridge0").members
    assert ("en5", "en6") == block("bond0").members


def test_a_tunnel_names_the_program_behind_it_and_the_port_that_carries_it() -> None:
    tunnel = block("utun4")

    assert ("Example Mesh (office) tunnel", "en0") == (tunnel.agent, tunnel.parent)
    assert ip_interface("10.8.0.2/32") == tunnel.addresses[0]


def test_the_agent_of_an_ordinary_port_is_nobodys_name() -> None:
    assert block("en7").agent is None


def test_media_that_are_supported_come_each_rate_once_the_highest_first() -> None:
    expected = (10_000 * M, 5000 * M, 2500 * M, 1000 * M, 100 * M)

    assert expected == parse_supported(capture("ifconfig-m-en7.txt"))


def test_a_port_that_lists_no_media_supports_nothing_that_is_known() -> None:
    assert () == parse_supported(capture("ifconfig-av-26.txt"))


@pytest.mark.parametrize("text", ["", "ifconfig: interface en99 does not exist\n"])
def test_without_any_interface_the_answer_cannot_be_read(text: str) -> None:
    with pytest.raises(AnswerError, match="ifconfig named no interface"):
        parse_ifconfig(text)


def test_addresses_that_are_none_are_left_out() -> None:
    text = "en7: flags=1<UP> mtu 1500\n\tinet 10.44.20.999 netmask 0xffffff00\n\tinet 10.44.20.1 netmask 0xff00ff00\n"

    assert () == parse_ifconfig(text)["en7"].addresses


def test_a_header_without_an_index_is_read_as_older_releases_write_it() -> None:
    port = parse_ifconfig("en7: flags=8863<UP,RUNNING> mtu 1500\n")["en7"]

    assert (1500, None) == (port.mtu, port.number)
