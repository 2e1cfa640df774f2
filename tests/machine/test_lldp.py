"""Listening for a switch: which frames count. Real frames are sent in the lab."""

from __future__ import annotations

from collections.abc import Callable

import pytest
import scapy.layers.l2
import scapy.sendrecv

from netaudit.errors import AnswerError, PrivilegeError
from netaudit.machine import lldp
from netaudit.machine.clock import Deadline
from netaudit.model.machine_state import Interface
from netaudit.model.observation import SwitchPort

OWN, SWITCH = "02:00:5e:00:00:11", "02:00:5e:00:00:09"
HALF_FRAME = bytes.fromhex("0180c200000e02005e00000988cc0207")


def frame(mac: str, port: bytes) -> bytes:
    """A frame with the three values of IEEE 802.1AB clause 8.2: chassis, port, time to live."""
    source = bytes.fromhex(mac.replace(":", ""))
    chassis = b"\x02\x07\x04" + source
    return (
        bytes.fromhex("0180c200000e") + source + b"\x88\xcc" + chassis
        + b"\x04" + bytes((len(port) + 1, 7)) + port + b"\x06\x02\x00\x78\x00\x00"
    )  # fmt: skip


class Coming:
    """Frames that come in, and how many of them were listened to."""

    def __init__(self, *frames: bytes) -> None:
        self.frames = frames
        self.given = 0

    def __call__(self, interface: str, deadline: Deadline, take: Callable[[bytes], bool]) -> None:
        for frame in self.frames:
            self.given += 1
            if take(frame):
                return


def test_the_first_announcement_of_somebody_else_counts() -> None:
    coming = Coming(HALF_FRAME, b"", frame(OWN, b"self"), frame(SWITCH, b"7"), frame(SWITCH, b"8"))
    expected = SwitchPort("en5", SWITCH, "7")

    assert expected == lldp.heard(Interface("en5", mac=OWN), coming, Deadline(1))
    assert 4 == coming.given


def test_a_switch_that_keeps_silent_has_no_port() -> None:
    assert lldp.heard(Interface("en5", mac=OWN), Coming(), Deadline(1)) is None


def test_an_interface_whose_own_address_is_not_known_is_listened_to_all_the_same() -> None:
    announced = lldp.heard(Interface("en5"), Coming(frame(SWITCH, b"7")), Deadline(1))

    assert announced is not None
    assert "7" == announced.port


def test_listening_without_the_right_names_the_right(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse() -> None:
        raise PrivilegeError("CAP_NET_RAW: run it with sudo")

    monkeypatch.setattr(lldp, "demand_raw_frames", refuse)
    with pytest.raises(PrivilegeError, match="CAP_NET_RAW"):
        lldp.listen(Interface("en5"), 1)


@pytest.mark.parametrize("system", ["linux", "darwin"])
def test_an_interface_that_is_not_there_is_an_error_that_names_it(system: str, monkeypatch: pytest.MonkeyPatch) -> None:
    assert scapy.layers.l2
    assert scapy.sendrecv, "it is loaded while the system still has its own name"
    monkeypatch.setattr(lldp, "demand_raw_frames", lambda: None)
    monkeypatch.setattr(lldp.sys, "platform", system)
    with pytest.raises(AnswerError, match="no-such-port cannot be listened to"):
        lldp.listen(Interface("no-such-port"), 0.1)
