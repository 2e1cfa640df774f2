"""The election against the exchange of messages that IEEE 802.1D describes, played out here step by step."""

from __future__ import annotations

from itertools import count

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import cable, only_link, seat, vault

from netaudit.network.election import BridgeId, Wire, elect, possible_roots

LINK = only_link(seat("cut-1"), vault(), cable("C", "cut-1/wire", "vault/fast"))


def wire(number: int, near: int, far: int, cost: int | None = 20_000, **ports: int) -> Wire:
    """A link between two switches; the ports at its ends are the first ones unless they matter."""
    return Wire(number, LINK, near, far, ports.get("near_port", 1), ports.get("far_port", 1), cost, cost)


def macs(*ends: str | None, priority: int = 32768) -> dict[int, BridgeId]:
    """Switches 0, 1, 2 … by the last two digits of their addresses; None is unknown."""
    return {
        bridge: BridgeId(priority, None if end is None else f"02:00:5e:00:00:{end}") for bridge, end in enumerate(ends)
    }


def played_out(wires: list[Wire], ids: dict[int, BridgeId]) -> set[int]:
    """The active links by IEEE 802.1D: every switch believes it is the root, tells it on each of its ports, and keeps
    the best it hears (root, cost, sending switch, sending port), until nothing changes any more."""
    best = {bridge: (identity, 0, identity, 0, 0) for bridge, identity in ids.items()}
    root_port: dict[int, int] = {}
    for _ in range(len(ids) + 1):
        for one in wires:
            for own, other, own_port, other_port in (
                (one.near, one.far, one.near_port, one.far_port), (one.far, one.near, one.far_port, one.near_port)
            ):  # fmt: skip
                root, cost, *_ = best[other]
                offer = (root, cost + (one.cost or 0), ids[other], other_port, own_port)
                if offer < best[own]:
                    best[own] = offer
                    root_port[own] = one.number
    return set(root_port.values())


@st.composite
def rooms(draw: st.DrawFn) -> tuple[list[Wire], dict[int, BridgeId]]:
    """Up to seven switches with known identities, joined by up to fourteen links of three speeds."""
    size = draw(st.integers(2, 7))
    priorities = st.sampled_from([4096, 32768])
    order = draw(st.permutations(range(size)))
    ids = {bridge: BridgeId(draw(priorities), f"02:00:5e:00:00:{order[bridge]:02x}") for bridge in range(size)}
    ports = {bridge: count(1) for bridge in range(size)}
    pair = st.tuples(st.integers(0, size - 1), st.integers(0, size - 1))
    ends = [(one, other) for one, other in draw(st.lists(pair, min_size=1, max_size=14)) if one != other]
    wires = [
        wire(
            number,
            one,
            other,
            draw(st.sampled_from([200, 2_000, 20_000])),
            near_port=next(ports[one]),
            far_port=next(ports[other]),
        )
        for number, (one, other) in enumerate(ends)
    ]
    return wires, ids


@settings(max_examples=400, deadline=None)
@given(rooms())
def test_the_active_links_are_those_of_the_messages_played_out(room: tuple[list[Wire], dict[int, BridgeId]]) -> None:
    wires, ids = room
    for part in parts(wires):
        within = [one for one in wires if one.near in part]
        own = {bridge: ids[bridge] for bridge in part}
        (root,) = possible_roots(own)
        outcome = elect(within, own, root)

        assert played_out(within, own) == set(outcome.sure)
        assert not outcome.maybe
        assert len(part) - 1 == len(outcome.sure)


def parts(wires: list[Wire]) -> list[set[int]]:
    found: list[set[int]] = []
    for one in wires:
        touching = [part for part in found if part & {one.near, one.far}]
        found = [part for part in found if part not in touching]
        found.append({one.near, one.far}.union(*touching))
    return found


def test_the_lowest_priority_is_the_root_before_any_address() -> None:
    ids = macs("01", "02") | {2: BridgeId(4096, "02:00:5e:00:00:ff")}

    assert [2] == possible_roots(ids)


def test_of_equal_priorities_the_lowest_address_is_the_root() -> None:
    assert [1] == possible_roots(macs("0b", "0a", "0c"))


def test_a_switch_of_unknown_address_may_always_be_the_lower_one() -> None:
    assert [1, 2] == possible_roots(macs("0b", "0a", None))
    assert [0, 1] == possible_roots(macs(None, None))
    assert [0, 1] == possible_roots(macs("0a", "0a"))


def test_an_unknown_address_of_a_higher_priority_does_not_matter() -> None:
    assert [0] == possible_roots({0: BridgeId(4096, None), 1: BridgeId(32768, None)})


def test_the_root_port_is_the_one_of_least_cost() -> None:
    wires = [wire(0, 0, 1, 20_000), wire(1, 0, 2, 2_000), wire(2, 2, 1, 2_000, near_port=2, far_port=2)]

    assert {1, 2} == elect(wires, macs("01", "02", "03"), 0).sure


@pytest.mark.parametrize(("other", "active"), [("02", 2), ("04", 3)])
def test_of_equal_costs_the_lower_sending_switch_wins(other: str, active: int) -> None:
    wires = [
        wire(0, 0, 1),
        wire(1, 0, 2, near_port=2),
        wire(2, 3, 1, far_port=2),
        wire(3, 3, 2, near_port=2, far_port=2),
    ]
    ids = macs("01", other, "03", "09")

    assert {0, 1, active} == elect(wires, ids, 0).sure


def test_of_one_sender_the_lower_sending_port_wins_and_then_the_lower_own_port() -> None:
    crossed = [wire(0, 0, 1, near_port=2, far_port=1), wire(1, 0, 1, near_port=1, far_port=2)]
    shared = [wire(0, 0, 1, near_port=1, far_port=2), wire(1, 0, 1, near_port=1, far_port=1)]

    assert {1} == elect(crossed, macs("01", "02"), 0).sure
    assert {1} == elect(shared, macs("01", "02"), 0).sure


def test_where_unknown_addresses_decide_both_ways_stay_possible() -> None:
    wires = [
        wire(0, 0, 1),
        wire(1, 0, 2, near_port=2),
        wire(2, 3, 1, far_port=2),
        wire(3, 3, 2, near_port=2, far_port=2),
    ]
    outcome = elect(wires, macs("01", None, None, "09"), 0)

    assert ({0, 1}, {2, 3}) == (outcome.sure, outcome.maybe)


def test_a_cost_that_is_unknown_is_the_same_on_every_way() -> None:
    wires = [wire(0, 0, 1, None), wire(1, 1, 2, 2_000, near_port=2), wire(2, 1, 2, 20_000, near_port=3, far_port=2)]

    assert {0, 1} == elect(wires, macs("01", "02", "03"), 0).sure
