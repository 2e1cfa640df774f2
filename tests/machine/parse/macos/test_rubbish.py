"""Rubbish in the place of an answer: captures torn, doubled, bent; nothing but AnswerError may come of it."""

from __future__ import annotations

import contextlib
import random
from collections.abc import Callable
from ipaddress import ip_address

import pytest
from mac_captures import CAPTURES, capture

from netaudit.errors import AnswerError
from netaudit.machine.parse.macos.host_answers import parse_resolved
from netaudit.machine.parse.macos.ifconfig import parse_ifconfig, parse_supported
from netaudit.machine.parse.macos.media import parse_media
from netaudit.machine.parse.macos.mounts import instance_of, network_mounts, parse_mounts, parse_nfsstat
from netaudit.machine.parse.macos.multichannel import parse_multichannel, parse_multichannel_json
from netaudit.machine.parse.macos.neighbours import parse_arp, parse_ndp
from netaudit.machine.parse.macos.netstat_interfaces import parse_netstat_interfaces
from netaudit.machine.parse.macos.netstat_routes import network_behind, parse_netstat_routes
from netaudit.machine.parse.macos.netstat_sessions import parse_netstat_sessions
from netaudit.machine.parse.macos.nettop import parse_nettop
from netaudit.machine.parse.macos.network_setup import parse_hardware_ports, parse_service_order
from netaudit.machine.parse.macos.ping import parse_ping
from netaudit.machine.parse.macos.profiler import parse_cards, parse_radio_rate
from netaudit.machine.parse.macos.route_get import parse_route_get, refusal
from netaudit.machine.parse.macos.scutil import parse_nwi, parse_show
from netaudit.machine.parse.macos.smbutil import parse_statshares, parse_statshares_json
from netaudit.machine.parse.macos.traceroute import parse_traceroute

VAULT, VAULT6 = ip_address("10.44.20.10"), ip_address("2001:db8:44::10")
PARSERS: dict[str, Callable[[str], object]] = {
    "resolved": parse_resolved,
    "ifconfig": parse_ifconfig,
    "supported": parse_supported,
    "media": parse_media,
    "instance": instance_of,
    "mounts": lambda text: list(network_mounts(parse_mounts(text))),
    "nfsstat": parse_nfsstat,
    "multichannel": lambda text: [each.local(one) for each in parse_multichannel(text) for one in each.channels],
    "multichannel json": lambda text: [
        each.local(one) for each in parse_multichannel_json(text) for one in each.channels
    ],
    "arp": parse_arp,
    "ndp": parse_ndp,
    "netstat -i": parse_netstat_interfaces,
    "netstat -r": lambda text: network_behind(parse_netstat_routes(text), VAULT6, "en7"),
    "netstat -p": parse_netstat_sessions,
    "nettop": parse_nettop,
    "hardware ports": parse_hardware_ports,
    "service order": parse_service_order,
    "ping": lambda text: parse_ping(text, text),
    "cards": parse_cards,
    "radio rate": lambda text: parse_radio_rate(text, "en0"),
    "route": lambda text: parse_route_get(text, VAULT),
    "route ipv6": lambda text: parse_route_get(text, VAULT6),
    "refusal": refusal,
    "nwi": parse_nwi,
    "show": parse_show,
    "statshares": parse_statshares,
    "statshares json": parse_statshares_json,
    "traceroute": lambda text: parse_traceroute(text, VAULT),
}
TEXTS = sorted(path.name for path in CAPTURES.iterdir())
ODD = (
    "\0",
    "\u0661",
    "²",
    "￿",
    "\u2028",
    "9" * 5000,
    "<",
    ">",
    "(",
    ")",
    ":",
    "%",
    ".",
    ",",
    "-1",
    "1e999",
    "[" * 200,
    " " * 3000,
)

HUGE = (
    "", "\n" * 1000, "x" * 200_000, "1" * 200_000, " " * 200_000 + "x", "tcp4 " + "0 " * 50_000, "a:" * 50_000,
    "{" * 50_000, "(" * 50_000, " on /" * 40_000, "10 packets " * 20_000, "M 1 N/A " * 20_000,
)  # fmt: skip


def spoilt(text: str, chance: random.Random) -> str:
    """A text with one thing done to it."""
    lines = text.splitlines(keepends=True) or [""]
    at, line = chance.randrange(len(text) + 1), chance.randrange(len(lines))
    words = lines[line].split(" ")
    return chance.choice(
        (
            lambda: text[:at],
            lambda: text[at:],
            lambda: text + text,
            lambda: text[:at] + chance.choice(ODD) + text[at:],
            lambda: (
                text[:at] + chr(ord(text[at]) ^ 1 << chance.randrange(7)) + text[at + 1 :] if at < len(text) else ""
            ),
            lambda: "".join(lines[:line] + lines[line + 1 :]),
            lambda: "".join(chance.sample(lines, len(lines))),
            lambda: "".join([*lines[:line], " ".join(words[: len(words) // 2]), *lines[line + 1 :]]),
            lambda: text.replace("\n", ""),
            lambda: text.replace('"', "5") if chance.random() < 0.3 else text.replace("0", chance.choice(ODD)),
        )
    )()


@pytest.mark.parametrize("name", TEXTS)
def test_no_parser_falls_over_any_capture_or_what_became_of_it(name: str) -> None:
    chance = random.Random(f"boathouse {name}")  # noqa: S311 - the same every time
    for _ in range(40):
        text = spoilt(capture(name), chance)
        for parse in PARSERS.values():
            with contextlib.suppress(AnswerError):
                parse(text)


@pytest.mark.parametrize("parser", PARSERS)
def test_no_parser_falls_over_nothing_or_over_huge_lines(parser: str) -> None:
    for text in HUGE:
        with contextlib.suppress(AnswerError):
            PARSERS[parser](text)
