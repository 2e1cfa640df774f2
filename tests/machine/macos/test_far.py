"""The far end from a Mac, from captures that are written from published formats and not taken from a machine."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from mac_captures import capture
from mac_desk import VAULT, VAULT6, said, sit_down

from netaudit.errors import AnswerError, MachineError
from netaudit.machine.macos import far
from netaudit.model.machine_state import Route
from netaudit.model.observation import FrameTest

WIRE = Route("en7", mtu=9000)
LOST = said(capture("ping-lost.txt"), code=2)


def test_every_hardware_address_that_is_held_is_told_once(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch)

    assert ("02:00:5e:0a:0b:0c", "02:00:5e:0a:0b:0d") == far.neighbours(VAULT)
    assert ("02:00:5e:0a:0b:0c",) == far.neighbours(VAULT6)
    assert ("02:00:5e:0a:0b:0c",) == far.neighbours(ip_address("fe80::10"))
    assert () == far.neighbours(ip_address("10.44.20.77"))


def test_a_packet_is_sent_whole_by_the_interface_of_the_route(monkeypatch: pytest.MonkeyPatch) -> None:
    """IPv4 and ICMP headers take 28 octets (RFC 791, RFC 792)."""
    desk = sit_down(monkeypatch)

    assert FrameTest(1500, True, "icmp") == far.frame(VAULT, 1500, WIRE, 0.3)
    assert ["ping -n -c 1 -W 300 -D -s 1472 -b en7 10.44.20.10"] == desk.asked


def test_a_size_that_ping_cannot_send_is_tried_with_the_largest_it_can(monkeypatch: pytest.MonkeyPatch) -> None:
    """Payloads beyond 8184 octets fail whatever the port is set to; what passes below proves nothing above."""
    desk = sit_down(monkeypatch)

    assert FrameTest(9000, None, "icmp", told_mtu=8212) == far.frame(VAULT, 9000, WIRE, 0.3)
    assert " -s 8184 " in desk.asked[0]


def test_where_the_largest_it_can_send_is_lost_so_is_the_size(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"ping": LOST})

    assert FrameTest(9000, False, "icmp") == far.frame(VAULT, 9000, WIRE, 0.3)


def test_a_packet_that_this_machine_would_not_send_names_its_own_size(monkeypatch: pytest.MonkeyPatch) -> None:
    """Exit code 2 stands for loss and for this."""
    answer = said(capture("ping-lost.txt"), capture("ping-too-long.stderr.txt"), code=2)
    sit_down(monkeypatch, {"ping": answer})

    assert FrameTest(9000, None, "icmp", 1500) == far.frame(VAULT, 9000, Route("en0", mtu=1500), 0.3)
    assert FrameTest(1500, None, "icmp") == far.frame(VAULT, 1500, Route("en0"), 0.3)


def test_a_router_that_would_have_to_cut_it_names_its_own_size(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"ping": said(capture("ping-frag-needed.txt"), code=2)})

    assert FrameTest(1500, False, "icmp", 1400) == far.frame(ip_address("198.51.100.9"), 1500, WIRE, 0.3)


def test_ipv6_has_longer_headers_and_a_command_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    """IPv6 and ICMPv6 headers take 48 octets (RFC 8200, RFC 4443); a link-local address needs its link."""
    desk = sit_down(monkeypatch, {"ping6": said(capture("ping-passed.txt"))})

    assert FrameTest(1500, True, "icmp") == far.frame(ip_address("fe80::10"), 1500, WIRE, 0.3)
    assert ["ping6 -n -c 1 -D -m -s 1452 -B en7 fe80::10%en7"] == desk.asked


def test_silence_of_the_ipv6_command_is_a_loss_for_it_ends_with_the_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"ping6": AnswerError("/sbin/ping6 did not answer within 0.3 s")})

    assert FrameTest(1500, False, "icmp") == far.frame(VAULT6, 1500, WIRE, 0.3)


def test_to_this_machine_itself_no_interface_is_given(monkeypatch: pytest.MonkeyPatch) -> None:
    desk = sit_down(monkeypatch)
    far.frame(VAULT, 20, Route("lo0", local=True), 0.3)

    assert ["ping -n -c 1 -W 300 -D -s 0 10.44.20.10"] == desk.asked


@pytest.mark.parametrize("answer", [None, said("ping: socket: Operation not permitted\n", code=71)])
def test_a_ping_that_does_not_say_what_happened_is_no_loss(monkeypatch: pytest.MonkeyPatch, answer: object) -> None:
    sit_down(monkeypatch, {"ping": answer})  # type: ignore[dict-item]

    with pytest.raises(MachineError):
        far.frame(VAULT, 1500, WIRE, 0.3)


def test_routers_are_told_up_to_a_number(monkeypatch: pytest.MonkeyPatch) -> None:
    desk = sit_down(monkeypatch)
    target = ip_address("198.51.100.9")

    assert (ip_address("10.44.20.1"), ip_address("198.51.100.1")) == far.routers(target, 4, 1.0)
    assert (ip_address("10.44.20.1"),) == far.routers(target, 1, 1.0)
    assert "traceroute -n -q 1 -w 1 -m 4 198.51.100.9" == desk.asked[0]


def test_ipv6_routers_are_asked_of_their_own_command(monkeypatch: pytest.MonkeyPatch) -> None:
    sit_down(monkeypatch, {"traceroute6": said(" 1  2001:db8:44::1  0.5 ms\n")})

    assert (ip_address("2001:db8:44::1"),) == far.routers(VAULT6, 4, 1.0)
