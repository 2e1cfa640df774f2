"""A desk without a Mac: its commands answered from captures, so that the whole of `machine.macos` can be asked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from ipaddress import ip_address
from pathlib import PurePath

import pytest
from mac_captures import capture

from netaudit.errors import MachineError
from netaudit.machine import commands
from netaudit.machine.commands import Said
from netaudit.machine.macos import roads

VAULT, VAULT6 = ip_address("10.44.20.10"), ip_address("2001:db8:44::10")
WIRE, AIR = ip_address("10.44.20.11"), ip_address("10.44.20.61")
LONGEST_WAIT_S = 10.0

Answer = Said | MachineError


def said(text: str = "", errors: str = "", code: int = 0) -> Said:
    """What a command says; by default nothing, with exit code 0."""
    return Said(text, errors, code)


def desk() -> dict[str, Answer]:
    """Wi-Fi and a 10 Gb/s Thunderbolt card in one subnet, the card first in the order and ranked last all the same."""
    texts = {
        "ifconfig -av": "ifconfig-av-26.txt",
        "ifconfig -m en7": "ifconfig-m-en7.txt",
        "netstat -ibn": "netstat-ibn-26.txt",
        "netstat -rn -f inet": "netstat-rn-26.txt",
        "netstat -rn -f inet6": "netstat-rn-inet6-26.txt",
        "netstat -anvl -p tcp": "netstat-tcp-26.txt",
        "nettop -m tcp -n -x -L 1": "nettop.csv",
        "networksetup -listnetworkserviceorder": "networksetup-order.txt",
        "networksetup -listallhardwareports": "networksetup-ports.txt",
        "scutil -d --nwi": "scutil-nwi-debug.txt",
        "scutil --nwi": "scutil-nwi.txt",
        "scutil": "scutil-show-link.txt",
        "route -n get -host 10.44.20.10": "route-get-link.txt",
        "mount": "mount.txt",
        "nfsstat -m /Volumes/media": "nfsstat-m.txt",
        "smbutil multichannel -m /Volumes/Projects -f JSON": "smbutil-multichannel-15.json",
        "smbutil statshares -m /Volumes/Projects -f JSON": "smbutil-statshares-15.json",
        "dns-sd": "dns-sd-resolve.txt",
        "arp -an": "arp-an.txt",
        "ndp -an": "ndp-an.txt",
        "ping": "ping-passed.txt",
        "traceroute": "traceroute.txt",
    }
    profiler = {
        "system_profiler -json SPAirPortDataType": "profiler-airport.json",
        "system_profiler": "profiler-26.json",
    }
    return {key: said(capture(name)) for key, name in (texts | profiler).items()}


class Desk:
    """Answers the commands of macOS: by the whole line, else by the name of the command alone."""

    def __init__(self, answers: Mapping[str, Answer]) -> None:
        self.answers = dict(answers)
        self.asked: list[str] = []

    def run(self, argv: Sequence[str], timeout_s: float, stdin: str = "") -> Said:
        """Stands in for `commands.run`; raises MachineError where there is no such command."""
        assert argv[0].startswith("/"), "a command is asked by its full path"
        assert 0 < timeout_s <= LONGEST_WAIT_S, "a command is never waited for without a bound"
        name = PurePath(argv[0]).name
        line = " ".join([name, *argv[1:]])
        self.asked.append(line + (f" <<< {stdin.strip()}" if stdin else ""))
        answer = self.answers.get(line, self.answers.get(name))
        if answer is None:
            raise MachineError(f"{argv[0]} is not there to be asked")
        if isinstance(answer, MachineError):
            raise answer
        return answer


def sit_down(monkeypatch: pytest.MonkeyPatch, changed: Mapping[str, Answer | None] | None = None) -> Desk:
    """A desk with some answers changed, and those that are None taken away; new connections bear the radio's address."""
    answers = {key: answer for key, answer in {**desk(), **(changed or {})}.items() if answer is not None}
    there = Desk(answers)
    monkeypatch.setattr(commands, "run", there.run)
    monkeypatch.setattr(roads, "source_towards", lambda address: AIR if address.version == 4 else None)
    return there
