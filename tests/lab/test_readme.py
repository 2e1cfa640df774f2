"""README shows what the probe said in the lab; only figures that are measured anew each time may differ.

`pytest --update` writes the blocks anew.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
import servers
from namespaces import Namespace
from room import Fitting
from stage import PROBE, Stage

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
VAULT, CUT_1 = "10.44.20.10", "10.44.20.11"
SHOWN_FOLDER = "/mnt/media"
BLOCK = r"(<!-- lab {name} -->\n)(.*?)(<!-- end -->\n)"
MEASURED = re.compile(
    r"\d[\d.,]*|µs|ms|\bs\b|kB|MB|GB|\bB\b|Gb/s|Mb/s|kb/s|once|twice|never|([0-9a-f]{2}:){5}[0-9a-f]{2}|fe80::[0-9a-f:]+"
)
"""What may differ from one run to the next: figures with their units, hardware addresses."""


def desk(stage: Stage) -> None:
    """Seat cut-1 of the Boathouse: the wire to the vault, the Wi-Fi for all else."""
    room = stage.room
    room.plug(stage.edit, Fitting("en5", (f"{CUT_1}/24",), 9000, agreed_mbit_per_s=10_000))
    room.plug(stage.edit, Fitting("wlan0", ("192.168.44.121/24",), cap_mbit_per_s=300, agreed_mbit_per_s=300))
    room.plug(stage.store, Fitting("s10g", (f"{VAULT}/24",), 9000))
    stage.edit.names({"vault": [VAULT]})


def wire_in_use(stage: Stage) -> list[str]:
    desk(stage)
    stage.samba()
    stage.held(VAULT)
    return ["vault", "--plan", "topologies/boathouse.yaml", "--station", "cut-1"]


def wifi_in_use(stage: Stage) -> list[str]:
    """The Wi-Fi stands in the storage's subnet too, and its route is the better one."""
    room = stage.room
    room.plug(stage.edit, Fitting("en5", (f"{CUT_1}/24",), 9000, agreed_mbit_per_s=10_000, metric=600))
    room.plug(stage.edit, Fitting("wlan0", ("10.44.20.121/24",), cap_mbit_per_s=300, agreed_mbit_per_s=300, metric=100))
    room.plug(stage.store, Fitting("s10g", (f"{VAULT}/24",), 9000))
    stage.edit.names({"vault": [VAULT]})
    stage.samba()
    return ["vault", "--plan", "topologies/boathouse.yaml", "--station", "cut-1"]


def slow_share(stage: Stage) -> list[str]:
    """A storage that stands still again and again, as disks that seek do, while its network is fine."""
    desk(stage)
    samba = stage.samba()
    folder = stage.mounted(VAULT)
    stage.edit.run(["ls", str(folder)])

    def stand_still() -> None:
        samba.stall()
        stage.wait(0.6)
        samba.go_on()

    stage.again_and_again(stand_still, 0.3)
    return [str(folder), "--read", "--plan", "topologies/boathouse.yaml", "--station", "cut-1"]


SHOWN: dict[str, Callable[[Stage], list[str]]] = {
    "wire in use": wire_in_use,
    "wifi in use": wifi_in_use,
    "slow share": slow_share,
}

COMPARED = {"slow share": 6}
"""Lines that are compared where the rest depends on when the storage happened to stand still: call, answer and cure."""


@pytest.mark.parametrize("name", SHOWN)
def test_the_readme_shows_what_the_probe_says_in_the_lab(
    stage: Stage, name: str, request: pytest.FixtureRequest
) -> None:
    words = SHOWN[name](stage)
    said = _said(stage.edit, words)
    share = str(stage.folder / "mount" / VAULT / servers.SHARE)
    shown = f"```\n$ netaudit probe {' '.join(words)}\n{said}```\n"
    for folder in (share, str(stage.folder / "mount")):
        shown = shown.replace(folder, SHOWN_FOLDER)
    cell = next((line.split("  ")[1] for line in shown.splitlines() if line.startswith(f"  {SHOWN_FOLDER}/")), "")
    shown = re.sub(r"^  file +what", f"  {'file':<{len(cell)}}  what", shown, flags=re.M)
    text = README.read_text(encoding="utf-8")
    if request.config.getoption("--update"):
        text = re.sub(BLOCK.format(name=name), lambda block: f"{block[1]}{shown}{block[3]}", text, flags=re.S)
        README.write_text(text, encoding="utf-8")
    block = re.search(BLOCK.format(name=name), text, re.S)

    assert block is not None
    lines = COMPARED.get(name)
    assert _without_figures(shown)[:lines] == _without_figures(block[2])[:lines]


def _said(host: Namespace, words: list[str]) -> str:
    """What a probe says, run from the top of the project as README has it."""
    environment = {"NETAUDIT_PASSWORD": servers.PASSWORD, "PYTHONDONTWRITEBYTECODE": "1"}
    absolute = [str(ROOT / word) if word.startswith("topologies/") else word for word in words]
    said = host.run([*PROBE, *absolute], 0, 60, env=environment)
    assert not said.stderr
    return said.stdout.replace(f"{ROOT}/", "")


def _without_figures(text: str) -> list[str]:
    return [" ".join(MEASURED.sub("#", line).split()) for line in text.splitlines()]
