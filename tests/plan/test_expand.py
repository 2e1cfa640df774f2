"""Ports under their own names: ranges expanded, clashes refused, the whole bounded."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from netaudit.plan import expand
from netaudit.plan.load import loads

Lines = Callable[[str | bytes], list[str]]
Marked = Callable[[str], tuple[str, str]]


def switch(ports: str, more: str = "") -> str:
    return f"netaudit: 1\ndevices: {{core: {{role: switch, ports: {{{ports}}}{more}}}}}\n"


def test_a_range_names_every_port_and_all_share_one_value() -> None:
    ports = loads(switch("1-3: {connector: rj45}, 9: {}, up/1: {}")).devices["core"].ports

    assert ["1", "2", "3", "9", "up/1"] == list(ports)
    assert ports["1"] is ports["2"] is ports["3"]


@pytest.mark.parametrize(
    ("ports", "expected"),
    [
        ("1-8: {}, §3: {}", "devices.core.ports.3: port '3' is named before already: name it once"),
        ("3: {}, §1-8: {}", "devices.core.ports.1-8: port '3' is named before already: name it once"),
        ("1-8: {}, §5-12: {}", "devices.core.ports.5-12: port '5' is named before already: name it once"),
    ],
)
def test_ranges_and_names_do_not_overlap(ports: str, expected: str, lines: Lines, marked: Marked) -> None:
    text, place = marked(switch(ports))

    assert [f"plan.yaml:{place}: {expected}"] == lines(text)


def test_a_bond_is_not_named_like_a_port(lines: Lines, marked: Marked) -> None:
    text, place = marked(switch("1-8: {}", ", bonds: {§2: {ports: [1]}}"))

    assert [
        f"plan.yaml:{place}: devices.core.bonds.2: '2' is the name of a port already: give the bond another"
    ] == lines(text)


def test_a_giant_range_is_refused_before_it_is_expanded(lines: Lines, marked: Marked) -> None:
    text, place = marked(switch("§1-9999999999: {}"))

    assert [
        f"plan.yaml:{place}: devices.core.ports.1-9999999999: "
        "'1-9999999999' is 9999999999 ports: one range holds at most 4096"
    ] == lines(text)


def test_the_ports_of_a_plan_are_bounded(monkeypatch: pytest.MonkeyPatch, lines: Lines, marked: Marked) -> None:
    monkeypatch.setattr(expand, "MOST_PORTS", 100)
    text, place = marked(switch("1-100: {}, §101-102: {}"))

    loads(switch("1-100: {}"))
    assert [
        f"plan.yaml:{place}: devices.core.ports.101-102: the plan has more than 100 ports from here on: divide it"
    ] == lines(text)
