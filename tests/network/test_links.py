"""Links: the rates that two ends have in common, and what the published limits promise of them."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import (
    UP_TO_10G,
    G,
    aerial,
    cable,
    cage,
    device,
    jack,
    network,
    only_link,
    panel,
    ref,
    seat,
    switch,
    topology_of,
    vault,
)

from netaudit.model.place import Place
from netaudit.model.plan import Bus, Category, Port, Rates
from netaudit.network.links import Link, Promised

TEN = 10 * G
TWO_AND_A_HALF = 2_500_000_000
GRADES = [0.1, 1, 2.5, 5, 10, 25, 40]


def link(near: Port, far: Port, category: Category = "6A", length_m: float | None = 10.0, **fields: Any) -> Link:
    """The link over one cable between two switches."""
    line = cable("C1", "a/1", "b/1", category, length_m, **fields)
    return only_link(switch("a", {"1": near}), switch("b", {"1": far}), line)


def gigabits(rates: tuple[int, ...] | None) -> list[float] | None:
    return None if rates is None else [rate / G for rate in rates]


# Rate sets


@pytest.mark.parametrize(
    ("near", "far", "fields", "common"),
    [
        (cage(25, 10, 1), cage(10, 1), {}, [10, 1]),
        (cage(10, 1, module="10GBASE-SR"), cage(10, 1), {}, [10]),
        (cage(10, 1), cage(10, 1, module="1000BASE-SX"), {}, [1]),
        (cage(10, 1), cage(10, 1), {"rates": Rates((TEN,))}, [10]),
        (cage(10, 1), cage(25), {}, []),
        (cage(10, 1, module="25GBASE-SR"), cage(10, 1), {}, []),
        (cage(10, 1), cage(10, 1), {"rates": Rates((25 * G,))}, []),
        (jack(), jack(10, 1), {}, [10, 1]),
        (Port(connector="sfp+", module="10GBASE-SR"), cage(10, 1), {}, [10]),
        (Port(connector="sfp+"), cage(10, 1), {"rates": Rates((TEN,))}, [10]),
        (Port(), cage(10, 1), {}, None),
        (Port(), Port(), {}, None),
        (cage(10, 1, module="25GBASE-SR"), Port(), {}, []),
    ],
)
def test_the_rates_of_a_link_are_those_of_cage_module_cable_and_far_end_together(
    near: Port, far: Port, fields: dict[str, Any], common: list[float] | None
) -> None:
    for one, other in ((near, far), (far, near)):
        found = link(one, other, "unknown", **fields)
        assert gigabits(found.rates) == common
        assert found.agreed_bit_per_s == (round(common[0] * G) if common else None)
        assert found.runs == (common != [])


@settings(deadline=None)
@given(*[st.lists(st.sampled_from(GRADES), min_size=1, unique=True) for _ in range(3)])
def test_the_rates_of_a_link_are_the_intersection_with_the_highest_first(
    near: list[float], far: list[float], own: list[float]
) -> None:
    ordered = [sorted(each, reverse=True) for each in (near, far, own)]
    made_up = Rates(tuple(round(each * G) for each in ordered[2]))
    found = link(cage(*ordered[0]), cage(*ordered[1]), "twinax", 1.0, rates=made_up)
    assert gigabits(found.rates) == sorted(set(near) & set(far) & set(own), reverse=True)


def test_every_made_up_cable_on_the_way_narrows_the_rates() -> None:
    found = only_link(
        switch("a", {"1": cage(25, 10, 1)}), switch("b", {"1": cage(25, 10, 1)}), panel("p"),
        cable("C1", "a/1", "p/1", "twinax", 1.0, rates=Rates((25 * G, TEN))),
        cable("C2", "p/1", "b/1", "twinax", 1.0, rates=Rates((TEN, G))),
    )  # fmt: skip
    assert gigabits(found.rates) == [10]


def test_while_an_end_is_unknown_the_other_bounds_what_it_may_run() -> None:
    half = link(Port(connector="rj45"), jack(), "5e")
    assert (half.rates, half.near_rates, half.possible_rates) == (None, None, UP_TO_10G.bit_per_s)
    assert half.promised == Promised(0, TWO_AND_A_HALF)
    assert half.promised.bit_per_s is None
    assert half.fastest_bit_per_s == TEN
    assert link(Port(), Port()).possible_rates is None
    assert link(Port(), Port()).fastest_bit_per_s is None
    assert link(Port(), Port()).promised == Promised(0, None)
    assert link(Port(), cage(25), "5e").promised == Promised(0, 0)


def test_two_ends_without_a_common_rate_are_promised_nothing_and_never_link() -> None:
    found = link(jack(2.5), cage(10, 1))
    assert (found.promised, found.promised.bit_per_s, found.runs) == (Promised(0, 0), 0, False)


# Breakouts


def lane(trunk: Port, end: Port, *, passive: bool = False, **fields: Any) -> Link:
    """The first of four lanes, straight to the storages or through a panel in front of the trunk."""
    core, ends = switch("core", {"q": trunk}), [vault(f"v{number}", {"fast": end}) for number in range(1, 5)]
    start = "bay/1" if passive else "core/q"
    lanes = cable(
        "D1", start, [f"{each.name}/fast" for each in ends], **{"category": "twinax", "length_m": 3.0, **fields}
    )
    cord = [cable("T1", "core/q", "bay/1", lanes.category, 1.0)] if passive else []
    return topology_of(core, *ends, panel("bay"), *cord, lanes).links[0]


@pytest.mark.parametrize("passive", [False, True])
@pytest.mark.parametrize(("trunk", "end", "common"), [(40, 10, [10]), (100, 25, [25]), (100, 10, []), (40, 40, [])])
def test_the_lanes_of_a_breakout_share_the_rate_of_the_trunk_equally(
    trunk: float, end: float, common: list[float], passive: bool
) -> None:
    assert gigabits(lane(cage(trunk), cage(end), passive=passive).rates) == common


def test_the_module_of_a_trunk_is_shared_as_its_cage_is_and_its_lanes_need_not_be_alike() -> None:
    found = lane(cage(40, module="40GBASE-SR4"), cage(10, module="10GBASE-SR"), category="OM3", length_m=20.0)
    assert gigabits(found.rates) == [10]
    assert found.promised == Promised(0, TEN)
    assert found.phy is None


def test_a_twinax_lane_is_promised_by_the_rate_of_the_lane() -> None:
    """SFF-8431: 7 m at 10 Gb/s, whatever the trunk adds up to."""
    assert lane(cage(40), cage(10), length_m=7.0).promised.bit_per_s == TEN
    assert lane(cage(40), cage(10), length_m=7.01).promised.bit_per_s == 0


# Promises over twisted pair: TIA TSB-155-A and IEEE 802.3bz, with the documents in tests/calculations/test_copper.py


@pytest.mark.parametrize(
    ("near", "category", "length_m", "fields", "promised"),
    [
        (jack(), "6A", 100.0, {}, 10),
        (jack(), "6A", 100.01, {}, 0),
        (jack(), "5e", 30.0, {}, 2.5),
        (jack(10, 1), "5e", 30.0, {}, 1),
        (jack(10), "5e", 30.0, {}, 0),
        (jack(), "6", 37.0, {}, 10),
        (jack(), "6", 37.01, {}, 5),
        (jack(), "6", 55.0, {}, 5),
        (jack(), "6", 55.0, {"screened": True}, 10),
        (jack(), "6", 55.01, {"screened": True}, 5),
        (jack(), "5", 30.0, {}, 0.1),
        (jack(), "3", 30.0, {}, 0),
    ],
)
def test_the_highest_common_rate_that_the_cable_carries_is_promised(
    near: Port, category: Category, length_m: float, fields: dict[str, Any], promised: float
) -> None:
    found = link(near, jack(), category, length_m, installed=True, **fields)
    assert found.agreed_bit_per_s == TEN
    assert found.promised.bit_per_s == promised * G


def test_over_an_unknown_category_the_promise_is_bounded_by_what_it_may_be() -> None:
    assert link(jack(), jack(), "unknown", 30.0).promised == Promised(0, TEN)
    assert link(jack(), jack(), "unknown", 101.0, installed=True).promised == Promised(0, 0)
    through = only_link(
        switch("a", {"1": jack()}), switch("b", {"1": jack()}), panel("p", category="5e"),
        cable("C1", "a/1", "p/1", "unknown"), cable("C2", "p/1", "b/1"),
    )  # fmt: skip
    assert through.promised == Promised(0, TWO_AND_A_HALF)


def test_an_unknown_length_is_bounded_by_the_known_parts() -> None:
    assert link(jack(), jack(), "6", None).promised == Promised(0, TEN)
    ends = [switch("a", {"1": jack()}), switch("b", {"1": jack()}), panel("p")]
    beyond = only_link(*ends, cable("W1", "a/1", "p/1", "6", 38.0), cable("C1", "p/1", "b/1", "6", None))
    assert beyond.promised == Promised(0, 5 * G)
    hopeless = only_link(*ends, cable("W1", "a/1", "p/1", "6A", 99.0), cable("C1", "p/1", "b/1", "6A", 1.01))
    assert hopeless.promised.bit_per_s == 0


def test_below_an_undecided_rate_a_lower_one_may_be_promised_already() -> None:
    """Every category carries 10BASE-T, and only some carry 10GBASE-T: IEEE 802.3 clauses 14 and 55."""
    ends = Port(connector="rj45", rates=Rates((TEN, 10_000_000)))
    found = link(ends, ends, "unknown", 20.0)
    assert found.promised == Promised(10_000_000, TEN)
    assert found.promised.bit_per_s is None


# Fibre and twinax


def test_fibre_runs_at_the_rate_of_its_modules() -> None:
    optics = cage(10, 1, module="10GBASE-SR")
    found = link(optics, optics, "OM3", 60.0)
    assert (found.agreed_bit_per_s, found.promised.bit_per_s, found.phy) == (TEN, TEN, "10GBASE-SR")
    assert link(optics, optics, "OM3", 300.1).promised.bit_per_s == 0
    assert link(optics, cage(10, 1, module="10GBASE-LR"), "OM3", 60.0).promised.bit_per_s == 0
    assert link(optics, cage(10, 1, module="10GBASE-LR"), "OM3", 60.0).phy is None
    assert link(optics, cage(10, 1), "OM3", 60.0).promised == Promised(0, TEN)
    assert link(optics, optics, "unknown", 60.0).promised == Promised(0, TEN)


@pytest.mark.parametrize(("length_m", "promised"), [(7.0, 10), (7.01, 0)])
def test_passive_twinax_is_promised_to_seven_metres_at_ten_gigabits(length_m: float, promised: float) -> None:
    found = link(cage(10), cage(10), "twinax", length_m)
    assert (found.promised.bit_per_s, found.phy) == (promised * G, "direct attach")


def test_mixed_media_are_promised_nothing() -> None:
    found = only_link(
        switch("a", {"1": jack()}), switch("b", {"1": cage(10, module="10GBASE-SR")}), panel("p"),
        cable("C1", "a/1", "p/1", "6A"), cable("F1", "p/1", "b/1", "OM3"),
    )  # fmt: skip
    assert (found.promised.bit_per_s, found.agreed_bit_per_s, found.phy) == (0, TEN, None)


@pytest.mark.parametrize(
    ("ports", "phy"), [(jack(), "10GBASE-T"), (jack(2.5, 1), "2.5GBASE-T"), (jack(0.1), "100BASE-TX"), (Port(), None)]
)
def test_the_physical_layer_over_twisted_pair_is_that_of_the_agreed_rate(ports: Port, phy: str | None) -> None:
    assert link(ports, ports).phy == phy


# Host cables


def test_a_host_cable_runs_and_is_promised_what_the_bus_carries() -> None:
    """USB 3.2: 128b/132b at 10 Gb/s."""
    used = round(TEN * 128 / 132)
    found = link(Port(connector="usb-c", bus=Bus("usb", rate_bit_per_s=TEN)), Port(connector="usb-c"), "usb", 0.5)
    assert (found.near_rates, found.far_rates, found.rates) == ((used,), (used,), (used,))
    assert (found.promised, found.phy) == (Promised(used, used), "host bus")
    silent = link(Port(connector="usb-c"), Port(connector="usb-c"), "usb", 0.5)
    assert (silent.rates, silent.promised) == (None, Promised(0, None))


# Radio


def by_radio(near: Port, far: Port) -> Link:
    return only_link(network("air"), seat("cut-1", {"air": near}), device("ap", "access-point", {"wl": far}))


def test_a_radio_link_agrees_on_the_lower_rate_and_nothing_promises_it() -> None:
    found = by_radio(aerial(1.2, untagged="air"), aerial(2.4, untagged="air"))
    assert (found.agreed_bit_per_s, found.phy, found.by_radio, found.cables) == (1_200_000_000, "radio", True, ())
    assert (found.promised, found.promised.bit_per_s) == (Promised(0, 1_200_000_000), None)
    assert found.copper is None


def test_a_radio_link_of_which_one_rate_is_unknown_is_bounded_by_the_other() -> None:
    for ports in ((aerial(1.2), aerial()), (aerial(), aerial(1.2))):
        found = by_radio(*ports)
        assert (found.rates, found.agreed_bit_per_s, found.promised) == (None, None, Promised(0, 1_200_000_000))
        assert found.runs
    assert by_radio(aerial(), aerial()).promised == Promised(0, None)


# Places


def test_a_link_knows_the_places_of_its_ports_cables_and_passive_ports() -> None:
    found = only_link(
        seat("cut-1"), vault(), panel("p"), cable("C1", "p/1", "vault/fast"), cable("W1", "cut-1/wire", "p/1")
    )
    assert found.place == Place("link", "cut-1/wire - vault/fast")
    assert found.cables == ("W1", "C1")
    assert [str(place) for place in found.places] == [
        "link cut-1/wire - vault/fast",
        "port cut-1/wire", "port vault/fast", "port p/1",
        "cable W1", "cable C1",
    ]  # fmt: skip
    assert (found.near, found.far) == (ref("cut-1/wire"), ref("vault/fast"))
