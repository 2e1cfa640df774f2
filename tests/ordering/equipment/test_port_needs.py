"""Port needs: the ports that a switch has to have, by what is plugged into them."""

from __future__ import annotations

from typing import Any

import pytest
from wiring import G, cable, cage, jack, panel, rates, ref, seat, switch, topology_of, vault, wired

from netaudit.model.plan import Port
from netaudit.model.specification import PortNeed
from netaudit.ordering.equipment.wanted import wanted_switches


def needs_of(*things: Any) -> tuple[PortNeed, ...]:
    """What the one new switch needs."""
    (wanted,) = wanted_switches(wired(*things), topology_of(*things))
    return wanted.needs


def needs(*things: Any) -> list[tuple[str | None, int | None, list[str]]]:
    """Each kind of port that the one new switch needs, with its ports."""
    return [(need.connector, need.rate_bit_per_s, [str(port) for port in need.ports]) for need in needs_of(*things)]


def split(port: Port, *tails: Port) -> PortNeed:
    """What a cable with tails to those ports needs of the port that its trunk is plugged into."""
    core, far = switch("core", {"q": port}, owned=False), switch("far", {str(n): tail for n, tail in enumerate(tails)})
    (need,) = needs_of(core, far, cable("D1", "core/q", [f"far/{n}" for n in range(len(tails))], "twinax", 1.0))
    return need


def test_only_ports_at_which_a_cable_ends_are_needed() -> None:
    core = switch("core", {**{str(n): jack() for n in range(1, 9)}, "9": cage()}, owned=False)
    things = (seat("cut-1"), seat("cut-2"), core, vault(ports={"fast": cage(10)}))
    lines = (
        cable("C2", "cut-2/wire", "core/5"),
        cable("C1", "cut-1/wire", "core/2"),
        cable("D1", "core/9", "vault/fast", "twinax", 1.0),
    )
    assert (
        PortNeed("rj45", 10 * G, 2, (ref("core/2"), ref("core/5"))),
        PortNeed("sfp+", 10 * G, 1, (ref("core/9"),)),
    ) == needs_of(*things, *lines)


def test_the_rate_is_what_the_link_agrees_on_or_the_best_of_the_far_end_or_the_ports_own() -> None:
    core = switch("core", {"1": jack(), "2": Port("rj45"), "3": jack(), "4": Port("rj45"), "5": jack()}, owned=False)
    slow = seat("cut-1", {"wire": jack(2.5, 1)})
    lines = [
        cable("C1", "cut-1/wire", "core/1"), cable("C2", "cut-2/wire", "core/2"), cable("C3", "core/3", "panel/1"),
        cable("C4", "core/4", "panel/2"), cable("C5", "cut-3/wire", "core/5"),
    ]  # fmt: skip
    silent = seat("cut-3", {"wire": Port("rj45")})
    assert [
        ("rj45", 2_500_000_000, ["core/1"]),
        ("rj45", 10 * G, ["core/2", "core/3", "core/5"]),
        ("rj45", None, ["core/4"]),
    ] == needs(slow, seat("cut-2"), silent, core, panel("panel"), *lines)


def test_two_ends_without_a_common_rate_ask_for_the_rate_of_the_far_end() -> None:
    far = seat("cut-1", {"wire": jack(1)})
    assert [("rj45", G, ["core/1"])] == needs(
        switch("core", {"1": jack(10)}, owned=False), far, cable("C1", "cut-1/wire", "core/1")
    )


@pytest.mark.parametrize("tails", [2, 3, 4])
def test_the_trunk_of_a_breakout_is_a_whole_port_however_few_its_tails_are(tails: int) -> None:
    """SFF-8436: a QSFP+ port has four lanes of 10 Gb/s; no port runs 20 or 30 Gb/s."""
    need = split(Port("qsfp+", rates(40)), *[cage(10)] * tails)

    assert PortNeed("qsfp+", 40 * G, 1, (ref("core/q"),), lanes=4, lane_bit_per_s=10 * G) == need


@pytest.mark.parametrize(
    ("connector", "tails", "whole", "lanes", "lane"),
    [
        ("qsfp28", [25, 25], 100, 4, 25),
        ("qsfp28", [10, 10, 10], 40, 4, 10),
        ("qsfp28", [50, 50], 100, 2, 50),
        ("qsfp+", [1, 1], 40, 4, 1),
        ("qsfp+", [10, 1], 40, 4, 10),
        ("qsfp+", [10] * 5, 40, 4, 10),
        ("mpo", [25] * 4, 100, 4, 25),
        (None, [10, 10], 40, 4, 10),
    ],
)
def test_a_port_splits_into_lanes_of_the_rate_of_its_tails(
    connector: Any, tails: list[int], whole: int, lanes: int, lane: int
) -> None:
    """IEEE 802.3 clauses 85 and 86 (four lanes of 10 Gb/s), 92 and 95 (four of 25); SFF-8665: QSFP28 runs 100 Gb/s."""
    need = split(Port(connector), *[cage(rate) for rate in tails])

    assert (whole * G, lanes, lane * G) == (need.rate_bit_per_s, need.lanes, need.lane_bit_per_s)


def test_the_lanes_run_what_the_port_can_of_what_the_tails_can() -> None:
    """SFF-8436: a lane of QSFP+ has no 25 Gb/s."""
    need = split(Port("qsfp+", rates(40)), cage(25, 10), cage(25, 10))
    alike = split(Port("qsfp28", rates(100, 40)), *[cage(25, 10)] * 4)

    assert (40 * G, 10 * G) == (need.rate_bit_per_s, need.lane_bit_per_s)
    assert (100 * G, 25 * G) == (alike.rate_bit_per_s, alike.lane_bit_per_s)


def test_lanes_whose_rate_nobody_knows_or_no_port_runs_are_of_an_unknown_rate() -> None:
    for tail in (Port("sfp+"), cage(25)):
        assert PortNeed("qsfp+", 40 * G, 1, (ref("core/q"),), lanes=4) == split(Port("qsfp+", rates(40)), tail, tail)
    assert PortNeed("qsfp+", None, 1, (ref("core/q"),), lanes=4) == split(Port("qsfp+"), Port("sfp+"), Port("sfp+"))


def test_a_port_that_has_no_lanes_is_not_said_to_split() -> None:
    assert PortNeed("sfp+", 10 * G, 1, (ref("core/q"),)) == split(Port("sfp+", rates(10)), cage(10), cage(10))


def test_ports_that_split_are_told_from_those_that_do_not() -> None:
    ports = {name: Port("qsfp+", rates(40)) for name in "abc"}
    core, far = switch("core", ports, owned=False), switch("far", {"q": Port("qsfp+", rates(40))})
    ends = switch("ends", {str(n): cage(10) for n in range(4)})
    lines = [
        cable("D1", "core/a", ["ends/0", "ends/1"], "twinax", 1.0),
        cable("D2", "core/b", "far/q", "twinax", 1.0),
        cable("D3", "core/c", ["ends/2", "ends/3"], "twinax", 1.0),
    ]
    assert [("qsfp+", 40 * G, ["core/a", "core/c"]), ("qsfp+", 40 * G, ["core/b"])] == needs(core, far, ends, *lines)


def test_a_tail_of_a_breakout_runs_its_own_lane() -> None:
    core = switch("core", {str(n): cage(10) for n in range(4)}, owned=False)
    far = switch("far", {"q": Port("qsfp+", rates(40))})
    ends = [f"core/{n}" for n in range(4)]
    (need,) = needs_of(core, far, cable("D1", "far/q", ends, "twinax", 1.0))

    assert PortNeed("sfp+", 10 * G, 4, tuple(map(ref, ends))) == need
