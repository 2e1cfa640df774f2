"""`--self` writes a first plan from what the station tells of itself."""

from __future__ import annotations

import sys

from room import EDIT_AIR, EDIT_WIRE, STORE_FAST
from stage import PROBE, Stage, two_networks


def test_the_plan_of_this_machine_can_be_judged_and_has_its_ports(stage: Stage) -> None:
    two_networks(stage)
    stage.samba()
    file = stage.folder / "first.yaml"
    said = stage.edit.run([*PROBE, STORE_FAST, "--self", "--output", str(file)])
    assert (0, "") == (said.returncode, said.stderr)
    text = file.read_text(encoding="utf-8")
    for word in ("en5", "wlan0", EDIT_WIRE, EDIT_AIR, STORE_FAST):
        assert word in text
    judged = stage.edit.run([sys.executable, "-m", "netaudit", "check", str(file)])
    assert judged.returncode in (0, 1)
    assert "" == judged.stderr
    answer = stage.edit.run([*PROBE, STORE_FAST, "--plan", str(file), "--seconds", "0.5"])
    assert 0 == answer.returncode, answer.stdout + answer.stderr
