"""Which port of which switch the station is plugged into, as the switch announces it."""

from __future__ import annotations

import servers
from healthy import HEALTHY
from stage import Stage


def test_the_announced_port_is_told(stage: Stage) -> None:
    """A bridge does not pass announcements on (IEEE 802.1AB, clause 7.1), so they are sent at the port itself."""
    target, *_ = HEALTHY["idle"].stage(stage)
    stage.until_closed(servers.announce_port(stage.room.sw, "p-en5", "sw", "1"))
    answer = stage.probe(target, "--seconds", "0.5", "--listen", "5")
    said = answer.data["switch_port"]
    assert ("en5", "sw", "1") == (said["interface"], said["switch"], said["port"])
    assert [] == answer.causes


def test_a_silent_switch_is_not_guessed(stage: Stage) -> None:
    target, *_ = HEALTHY["idle"].stage(stage)
    answer = stage.probe(target, "--seconds", "0.5", "--listen", "0.5")
    assert None is answer.data["switch_port"]
    assert [] == answer.causes
