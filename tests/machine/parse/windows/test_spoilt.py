"""Every capture of PowerShell, spoilt at random from one seed, raises nothing but errors of this machine's own family.

Nothing of Windows runs here; the captures are written after documented formats, not taken from a machine.
"""

from __future__ import annotations

import base64
import random
from collections.abc import Callable, Mapping
from ipaddress import ip_address
from typing import Any

import pytest
from windowsroom import CAPTURES, seeded

from netaudit.errors import MachineError
from netaudit.machine.parse.windows.adapters import adapters, bus, settings
from netaudit.machine.parse.windows.addresses import addresses, ip_interface
from netaudit.machine.parse.windows.find_route import found_route
from netaudit.machine.parse.windows.interface import interfaces
from netaudit.machine.parse.windows.neighbours import neighbours
from netaudit.machine.parse.windows.script import answered, decoded
from netaudit.machine.parse.windows.sessions import connections
from netaudit.machine.parse.windows.smb import client, mapped, party
from netaudit.machine.parse.windows.unc import plain, share_of
from netaudit.machine.parse.windows.vpn import connected

Answers = Mapping[str, object]
VAULT = party("vault", None, None, [ip_address("10.44.20.10")])

READERS: dict[str, Callable[[Answers], object]] = {
    "adapters": lambda answers: interfaces(adapters(answered(answers, "adapters")), [], {}, []),
    "statistics": lambda answers: adapters([{"Name": "WLAN", "ifIndex": 1}], answered(answers, "statistics")),
    "hardware": lambda answers: [bus("PCI\\VEN_0000", row) for row in answered(answers, "hardware")],
    "settings": lambda answers: settings(answered(answers, "settings"), "Ethernet 2"),
    "tunnels": lambda answers: connected(answered(answers, "tunnels")),
    "addresses": lambda answers: addresses(answered(answers, "addresses")),
    "ipInterfaces": lambda answers: ip_interface(answered(answers, "ipInterfaces"), 7, 2),
    "route": lambda answers: found_route(answers, "route"),
    "connections": lambda answers: connections(answered(answers, "connections")),
    "neighbours": lambda answers: neighbours(answered(answers, "neighbours")),
    "multichannel": lambda answers: client(answered(answers, "multichannel"), (), VAULT, {}),
    "smbSessions": lambda answers: client((), answered(answers, "smbSessions"), VAULT, {}),
    "mappings": lambda answers: mapped(answered(answers, "mappings"), "X:"),
}
ODD: list[Any] = [
    None,
    True,
    -1,
    2**64,
    1.5,
    float("1e400"),
    "",
    "\0",
    "x" * 5000,
    [],
    {},
    [[]],
    {"value": []},
    "\ud800",
]


def spoilt_text(text: str, chance: random.Random) -> str:
    """Cut, doubled, characters changed, or a huge line put in."""
    way = chance.randrange(4)
    place = chance.randrange(len(text))
    if way == 0:
        return text[:place]
    if way == 1:
        return text + text
    if way == 2:
        return text[:place] + chr(chance.randrange(1, 0xD7FF)) + text[place + 1 :]
    return text[:place] + "9" * 10_000 + text[place:]


def spoilt_value(value: Any, chance: random.Random) -> Any:
    """The same tree with odd values here and there."""
    if chance.random() < 0.08:
        return chance.choice(ODD)
    if isinstance(value, dict):
        return {key: spoilt_value(each, chance) for key, each in value.items()}
    if isinstance(value, list):
        return [spoilt_value(each, chance) for each in value]
    return value


def read(answers: Answers) -> None:
    for name, reader in READERS.items():
        if name in answers:
            try:
                reader(answers)
            except MachineError:
                continue


@pytest.mark.parametrize("capture", sorted(CAPTURES.glob("*.json")), ids=lambda path: path.stem)
def test_a_spoilt_answer_raises_nothing_but_machine_errors(capture: Any) -> None:
    text = capture.read_text(encoding="utf-8-sig")
    chance = seeded(f"boathouse {capture.name}")
    for _ in range(150):
        worded = spoilt_text(text, chance)
        try:
            read(decoded(base64.b64encode(worded.encode("utf-8", "surrogatepass")).decode()))
        except MachineError:
            continue


@pytest.mark.parametrize("capture", sorted(CAPTURES.glob("*.json")), ids=lambda path: path.stem)
def test_odd_values_in_an_answer_raise_nothing_but_machine_errors(capture: Any) -> None:
    text = capture.read_text(encoding="utf-8-sig")
    chance = seeded(f"loft {capture.name}")
    whole = decoded(base64.b64encode(text.encode()).decode())
    for _ in range(150):
        spoilt = spoilt_value(whole, chance)
        if isinstance(spoilt, dict):
            read(spoilt)


def test_any_path_is_read_without_an_error() -> None:
    chance = seeded("2026")
    letters = "\\/?.@!$:%X vault-s0.ipv6-literal.net"
    for _ in range(2000):
        path = plain("\\\\" + "".join(chance.choice(letters) for _ in range(chance.randrange(40))))
        share_of(path)
