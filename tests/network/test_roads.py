"""Roads, against a second and simple-minded search: which pairs of ports can talk, and which of them is planned."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import (
    aerial,
    cable,
    device,
    jack,
    network,
    pairs,
    ref,
    seat,
    switch,
    topology_of,
    vault,
    wired,
)

from netaudit.model.place import PortRef
from netaudit.model.plan import Bond, Cable, Device, Plan, Port, Station, Storage
from netaudit.network.roads import edited_storages
from netaudit.network.topology import Topology, build_topology

MEDIA = network("media", "10.44.20.0/24", purpose="storage")
OFFICE = network("office", "192.168.44.0/24")


def planned(topology: Topology) -> tuple[str, str]:
    (path,) = [each for each in topology.paths if each.planned]
    return str(path.from_port), str(path.to_port)


# Which storages


def edited(*things: Device) -> list[tuple[str, set[str]]]:
    """The storages that the one seat among some devices edits from."""
    ((_, targets),) = edited_storages(wired(*things))
    return [(storage.name, set(ports)) for storage, ports in targets]


def test_a_seat_that_does_not_say_edits_from_every_storage_kept_for_editing() -> None:
    shelf = [vault("one"), vault("deep", purpose="archive"), vault("safe", purpose="backup"), vault("two")]
    assert edited(*shelf, seat("cut-1")) == [("one", set()), ("two", set())]


def test_a_seat_edits_from_what_it_names_whatever_that_is_kept_for() -> None:
    shelf = [vault("one"), vault("deep", purpose="archive"), switch("core")]
    assert edited(*shelf, seat("cut-1", edits_from=("deep", "one/fast"))) == [("deep", set()), ("one", {"fast"})]
    assert edited(*shelf, seat("cut-1", edits_from=())) == []
    assert edited(*shelf, seat("cut-1", edits_from=("core", "one"))) == [("one", set())]
    assert edited(*shelf, seat("cut-1", edits_from=("one/a/b",))) == [("one", {"a/b"})]


def test_a_storage_that_is_named_several_times_is_one_with_all_the_ports_that_are_named() -> None:
    shelf = [vault("one"), vault("two")]
    named = ("two/slow", "one/fast", "one/slow", "two/slow")
    assert edited(*shelf, seat("cut-1", edits_from=named)) == [("two", {"slow"}), ("one", {"fast", "slow"})]
    assert edited(*shelf, seat("cut-1", edits_from=("one/fast", "one", "one"))) == [("one", set())]


def two_ports(**fields: Any) -> list[Device | Cable]:
    """A seat and a storage with two ports, all on one switch."""
    return [
        seat("cut-1", edits_from=fields.pop("edits_from", None)),
        vault("vault", {"slow": jack(1, **fields), "fast": jack()}), switch("core"),
        cable("C1", "cut-1/wire", "core/1"), cable("C2", "vault/slow", "core/2"), cable("C3", "vault/fast", "core/3"),
    ]  # fmt: skip


def test_every_port_on_which_a_storage_serves_is_an_end() -> None:
    assert pairs(topology_of(*two_ports())) == [("cut-1/wire", "vault/fast"), ("cut-1/wire", "vault/slow")]


@pytest.mark.parametrize("fields", [{"serves": False}, {"purpose": "management"}])
def test_a_port_that_does_not_serve_or_only_manages_is_none(fields: dict[str, Any]) -> None:
    assert pairs(topology_of(*two_ports(**fields))) == [("cut-1/wire", "vault/fast")]


def test_a_seat_that_names_a_port_of_a_storage_has_that_one_alone() -> None:
    assert pairs(topology_of(*two_ports(edits_from=("vault/slow",)))) == [("cut-1/wire", "vault/slow")]


@pytest.mark.parametrize("named", [("vault/slow", "vault/fast"), ("vault/slow", "vault"), ("vault", "vault")])
def test_a_seat_that_names_a_storage_twice_has_one_planned_path_to_it(named: tuple[str, ...]) -> None:
    topology = topology_of(*two_ports(edits_from=named))
    assert pairs(topology) == [("cut-1/wire", "vault/fast"), ("cut-1/wire", "vault/slow")]
    assert [path.planned for path in topology.paths] == [True, False]
    assert len(topology_of(seat("cut-1", edits_from=named), vault()).paths) == 1


def test_a_management_port_of_a_seat_is_no_end_either() -> None:
    console = seat("cut-1", {"bmc": jack(purpose="management"), "wire": jack()})
    lines = [
        cable("C1", "cut-1/bmc", "core/1"),
        cable("C2", "cut-1/wire", "core/2"),
        cable("C3", "vault/fast", "core/3"),
    ]
    assert pairs(topology_of(console, vault(), switch("core"), *lines)) == [("cut-1/wire", "vault/fast")]


def test_a_seat_without_any_road_has_one_path_without_hops() -> None:
    (path,) = topology_of(seat("cut-1"), vault()).paths
    assert (path.station, path.storage, path.hops, path.planned) == ("cut-1", "vault", (), True)
    assert (path.from_port, path.to_port, path.agreed_bit_per_s, path.goodput_bit_per_s) == (None, None, None, None)
    assert path.promised_bit_per_s is None
    assert path.limited_by is None


def test_every_seat_has_a_path_to_every_storage_in_file_order() -> None:
    lines = [cable(f"C{n}", end, f"core/{n}") for n, end in enumerate(["b/wire", "a/wire", "y/fast", "x/fast"], 1)]
    topology = topology_of(seat("b"), vault("y"), seat("a"), vault("x"), switch("core"), *lines)
    assert [(path.station, path.storage) for path in topology.paths] == [("b", "y"), ("b", "x"), ("a", "y"), ("a", "x")]
    assert all(path.planned and len(path.hops) == 2 for path in topology.paths)


def test_a_cable_from_seat_to_storage_is_a_road_of_one_hop() -> None:
    topology = topology_of(seat("cut-1"), vault(), cable("C1", "vault/fast", "cut-1/wire"))
    (path,) = topology.paths
    assert [(hop.from_port, hop.to_port) for hop in path.hops] == [(ref("cut-1/wire"), ref("vault/fast"))]
    assert path.network is None


# Bonds


def bonded(*lines: Cable, **fields: Any) -> list[tuple[str, str]]:
    both = Bond(ports=("a", "b"))
    ends = [seat("cut-1", **fields), vault("vault", {"a": jack(), "b": jack()}, bonds={"pair": both})]
    return pairs(topology_of(*ends, switch("core"), switch("loft"), cable("C1", "cut-1/wire", "core/1"), *lines))


def test_the_members_of_a_bond_are_one_end() -> None:
    first, second = cable("C2", "vault/a", "core/2"), cable("C3", "vault/b", "core/3")
    assert bonded(first, second) == [("cut-1/wire", "vault/a")]
    assert bonded(second) == [("cut-1/wire", "vault/b")]


def test_a_bond_is_reached_by_whichever_member_has_a_road() -> None:
    lines = [cable("C2", "vault/a", "loft/1"), cable("C3", "vault/b", "core/2")]
    assert bonded(*lines) == [("cut-1/wire", "vault/b")]


@pytest.mark.parametrize("named", ["vault/pair", "vault/a", "vault/b"])
def test_a_bond_may_be_named_by_its_own_name_or_by_that_of_a_member(named: str) -> None:
    lines = [cable("C2", "vault/a", "core/2"), cable("C3", "vault/b", "core/3")]
    assert bonded(*lines, edits_from=(named,)) == [("cut-1/wire", "vault/a")]
    assert bonded(*lines, edits_from=("vault/c",)) == []


# Which is planned


def test_the_road_in_a_network_for_storage_is_planned_before_a_faster_one() -> None:
    topology = topology_of(
        OFFICE, MEDIA, switch("core"),
        seat("cut-1", {"o": jack(untagged="office"), "m": jack(1, untagged="media")}),
        vault("vault", {"o": jack(untagged="office"), "m": jack(untagged="media")}),
        *(cable(f"C{n}", end, f"core/{n}") for n, end in enumerate(["cut-1/o", "cut-1/m", "vault/o", "vault/m"], 1)),
    )  # fmt: skip
    assert pairs(topology) == [("cut-1/m", "vault/m"), ("cut-1/o", "vault/o")]
    assert [path.planned for path in topology.paths] == [True, False]
    assert [path.network for path in topology.paths] == ["media", "office"]


def test_a_wired_road_is_planned_before_a_radio_in_the_same_network() -> None:
    topology = topology_of(
        MEDIA, seat("cut-1", {"air": aerial(10), "wire": jack(1)}), vault(), switch("core"),
        device("ap", "access-point", {"wl": aerial(10), "lan": jack()}),
        cable("C1", "cut-1/wire", "core/1"), cable("C2", "ap/lan", "core/2"), cable("C3", "vault/fast", "core/3"),
    )  # fmt: skip
    assert pairs(topology) == [("cut-1/wire", "vault/fast"), ("cut-1/air", "vault/fast")]


def test_a_radio_in_a_network_for_storage_is_planned_before_a_cable_in_another() -> None:
    topology = topology_of(
        OFFICE, MEDIA, seat("cut-1", {"wire": jack(untagged="office"), "air": aerial(1, untagged="media")}),
        vault("vault", {"o": jack(untagged="office"), "m": jack(untagged="media")}), switch("core"),
        device("ap", "access-point", {"wl": aerial(1, untagged="media"), "lan": jack(untagged="media")}),
        cable("C1", "cut-1/wire", "core/1"), cable("C2", "ap/lan", "core/2"),
        cable("C3", "vault/o", "core/3"), cable("C4", "vault/m", "core/4"),
    )  # fmt: skip
    assert planned(topology) == ("cut-1/air", "vault/m")


def test_a_road_without_a_router_is_planned_before_one_with() -> None:
    lab = network("lab", "10.0.0.0/24", "10.0.0.1")
    office = network("office", "192.168.44.0/24", "192.168.44.1")
    topology = topology_of(
        lab, office, device("box", "router", {"l": jack(untagged="lab"), "o": jack(untagged="office")}),
        seat("cut-1", {"l": jack(untagged="lab"), "o": jack(1, untagged="office")}),
        vault("vault", {"o": jack(untagged="office")}), switch("core"),
        cable("C1", "cut-1/l", "box/l"), cable("C2", "box/o", "core/1"),
        cable("C3", "cut-1/o", "core/2"), cable("C4", "vault/o", "core/3"),
    )  # fmt: skip
    assert pairs(topology) == [("cut-1/o", "vault/o"), ("cut-1/l", "vault/o")]
    assert [path.routed for path in topology.paths] == [False, True]


def test_a_cable_through_a_router_is_planned_before_a_radio_straight_into_the_network_of_the_storage() -> None:
    lab = network("lab", "10.0.0.0/24", "10.0.0.1")
    office = network("office", "192.168.44.0/24", "192.168.44.1")
    ports = {"l": jack(untagged="lab"), "o": jack(untagged="office"), "wl": aerial(1, untagged="office")}
    topology = topology_of(
        lab, office, device("box", "router", ports), vault("vault", {"o": jack(untagged="office")}),
        seat("cut-1", {"air": aerial(1, untagged="office"), "l": jack(untagged="lab")}),
        cable("C1", "cut-1/l", "box/l"), cable("C2", "box/o", "vault/o"),
    )  # fmt: skip
    assert pairs(topology) == [("cut-1/l", "vault/o"), ("cut-1/air", "vault/o")]


def several(*ports: Port, length_m: float | None = 10.0) -> list[str]:
    """The ports of a seat in the order in which its roads to a storage are preferred."""
    named = {f"p{number}": port for number, port in enumerate(ports, 1)}
    lines = [cable(f"C{n}", f"cut-1/{name}", f"core/{n}", length_m=length_m) for n, name in enumerate(named, 1)]
    topology = topology_of(seat("cut-1", named), vault(), switch("core", 8), cable("V", "vault/fast", "core/8"), *lines)
    return [str(path.from_port).removeprefix("cut-1/") for path in topology.paths]


def test_the_road_that_is_promised_more_is_planned_and_of_equal_ones_the_first_in_the_file() -> None:
    assert several(jack(1), jack(10), jack(2.5)) == ["p2", "p3", "p1"]
    assert several(jack(1), jack(1), jack(1)) == ["p1", "p2", "p3"]


def test_a_road_whose_promise_is_open_comes_last() -> None:
    assert several(Port(connector="rj45"), jack(0.1), jack(10)) == ["p3", "p2", "p1"]


def test_a_bridging_storage_is_reached_at_each_of_its_ports_though_one_alone_is_cabled() -> None:
    box = vault("vault", {"a": jack(), "b": jack()}, bridges=("a", "b"))
    topology = topology_of(seat("cut-1"), box, cable("C1", "cut-1/wire", "vault/a"))
    assert sorted(pairs(topology)) == [("cut-1/wire", "vault/a"), ("cut-1/wire", "vault/b")]


def test_a_road_that_is_promised_nothing_still_comes_before_one_that_is_open() -> None:
    lines = [
        cable("C1", "cut-1/p1", "core/1"),
        cable("C2", "cut-1/p2", "core/2", "6A", 130.0),
        cable("V", "vault/fast", "core/8"),
    ]
    ends = [seat("cut-1", {"p1": Port(connector="rj45"), "p2": jack()}), vault(), switch("core")]
    assert planned(topology_of(*ends, *lines)) == ("cut-1/p2", "vault/fast")


@pytest.mark.parametrize("purpose", ["general", None])
def test_two_ports_that_share_several_networks_meet_in_the_one_for_storage(purpose: str | None) -> None:
    trunk = jack(untagged="office", tagged=("media",))
    topology = topology_of(
        network("office", purpose=purpose), MEDIA, seat("cut-1", {"wire": trunk}), vault("vault", {"fast": trunk}),
        switch("core", {"1": trunk, "2": trunk}),
        cable("C1", "cut-1/wire", "core/1"), cable("C2", "vault/fast", "core/2"),
    )  # fmt: skip
    (path,) = topology.paths
    assert path.network == "media"


# A second search, which knows nothing of the first: every simple way over devices, one step at a time

KEYLESS: dict[str, Any] = {}
IN_MEDIA, IN_OFFICE = {"untagged": "media"}, {"untagged": "office"}
TRUNK = {"untagged": "office", "tagged": ("media",)}
ENDS: list[tuple[dict[str, Any], dict[str, Any]]] = [
    (KEYLESS, KEYLESS),
    (IN_MEDIA, IN_MEDIA),
    (IN_MEDIA, IN_MEDIA),
    (IN_OFFICE, IN_OFFICE),
    (IN_OFFICE, IN_OFFICE),
    (TRUNK, TRUNK),
    (TRUNK, TRUNK),
    (KEYLESS, IN_MEDIA),
    (IN_OFFICE, KEYLESS),
    (TRUNK, IN_OFFICE),
    (TRUNK, {"tagged": ("media",)}),
    (TRUNK, {"untagged": "media", "tagged": ("office",)}),
    ({"tagged": ("media", "office")}, {"tagged": ("media", "office")}),
    (IN_MEDIA, IN_OFFICE),
]
"""What the two ends of a cable carry: mostly alike, sometimes not."""


@st.composite
def small_rooms(draw: st.DrawFn) -> Plan:
    """Up to seven devices cabled at random, over ports of any networks; gateways come and go."""
    boxes = [f"s-{number}" for number in range(draw(st.integers(1, 3)))] + draw(st.sampled_from([[], ["box"], ["box"]]))
    hosts = ["cut-0", "vault-0", *draw(st.sampled_from([[], ["cut-1"], ["vault-1"]]))]
    ports: dict[str, dict[str, Port]] = {name: {} for name in (*boxes, *hosts)}
    cables: list[Cable] = []

    def plug(*ends: str) -> None:
        names = []
        for name, keys in zip(ends, draw(st.sampled_from(ENDS)), strict=True):
            names.append(f"{name}/{len(ports[name]) + 1}")
            ports[name][str(len(ports[name]) + 1)] = jack(1, **keys)
        cables.append(cable(f"C{len(cables)}", *names))

    for host in hosts:
        for _ in range(draw(st.integers(1, 2))):
            plug(host, draw(st.sampled_from(boxes)))
    for _ in range(draw(st.integers(0, 5))):
        plug(draw(st.sampled_from(boxes)), draw(st.sampled_from(boxes)))
    if draw(st.integers(0, 5)) == 0:
        plug("cut-0", draw(st.sampled_from(hosts[1:])))
    bridging = draw(st.sampled_from(["", "", "", *hosts]))
    making = {"cut": seat, "vault": vault, "s": switch}
    devices = [
        making[name.partition("-")[0]](name, own, bridges=tuple(own) if name == bridging else ())
        for name, own in ports.items()
        if name != "box"
    ]
    devices += [device("box", "router", ports["box"])] if "box" in ports else []
    media = network("media", "10.44.20.0/24", draw(st.sampled_from([None, *["10.44.20.1"] * 4])))
    office = network("office", "192.168.44.0/24", draw(st.sampled_from([None, *["192.168.44.1"] * 4])))
    return wired(media, office, *devices, *cables)


class Naive:
    """Follows frames cable by cable."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.other_end: dict[PortRef, PortRef] = {}
        for each in plan.cables.values():
            (far,) = each.to_ports
            self.other_end |= {each.from_port: far, far: each.from_port}

    def manner(self, port: PortRef, network: str | None) -> str | None:
        keys = self.plan.devices[port.device].ports[port.port]
        if keys.untagged is None and keys.tagged == ():
            return "untagged"
        if network is None:
            return None
        return "untagged" if keys.untagged == network else "tagged" if network in keys.tagged else None

    def forwards(self, port: PortRef) -> list[PortRef]:
        """The ports out of which a frame goes that came in by one."""
        box = self.plan.devices[port.device]
        group = tuple(box.ports) if box.role in ("switch", "router") else box.bridges
        return [PortRef(box.name, other) for other in group] if port.port in group else []

    def arrivals(self, port: PortRef, network: str | None, seen: tuple[str, ...]) -> Iterator[PortRef]:
        """Every port that a frame may come in by, sent out of a port and never twice through one device."""
        far = self.other_end.get(port)
        if far is None or self.manner(port, network) is None:
            return
        if self.manner(port, network) != self.manner(far, network):
            return
        yield far
        if far.device not in seen:
            for onward in self.forwards(far):
                yield from self.arrivals(onward, network, (*seen, far.device))

    def from_device(self, port: PortRef, network: str | None) -> set[PortRef]:
        """Every port that is reached from one, or from any other that frames of its device leave by."""
        if self.manner(port, network) is None:
            return set()
        starts = {port, *self.forwards(port)}
        reached = {far for start in starts for far in self.arrivals(start, network, (port.device,))}
        return reached | {onward for far in reached for onward in self.forwards(far)}

    def talks(self, start: PortRef, goal: PortRef) -> bool:
        networks: list[str | None] = [None, *self.plan.networks]
        if any(self.manner(goal, each) and goal in self.from_device(start, each) for each in networks):
            return True
        return any(self.through(box, start, goal) for box in self.plan.devices.values() if box.role == "router")

    def through(self, box: Device, start: PortRef, goal: PortRef) -> bool:
        legs = {
            each.name: PortRef(box.name, name)
            for each in self.plan.networks.values()
            for name, keys in box.ports.items()
            if each.gateway is not None and (keys.untagged == each.name or each.name in keys.tagged)
        }
        return any(
            near != far and self.manner(goal, far) is not None
            and legs[near] in self.from_device(start, near) and goal in self.from_device(legs[far], far)
            for near in legs for far in legs
        )  # fmt: skip

    def pairs(self) -> set[tuple[str, str]]:
        seats = [each for each in self.plan.devices.values() if isinstance(each, Station)]
        storages = [each for each in self.plan.devices.values() if isinstance(each, Storage)]
        return {
            (f"{one.name}/{near}", f"{other.name}/{far}")
            for one in seats for near in one.ports
            for other in storages for far in other.ports
            if self.talks(PortRef(one.name, near), PortRef(other.name, far))
        }  # fmt: skip


@settings(max_examples=800, deadline=None)
@given(small_rooms())
def test_the_pairs_that_can_talk_are_those_that_following_every_frame_finds(plan: Plan) -> None:
    topology, naive = build_topology(plan), Naive(plan)
    assert set(pairs(topology)) == naive.pairs()
    for path in topology.paths:
        manners = [
            (naive.manner(hop.from_port, path.network), naive.manner(hop.to_port, path.network)) for hop in path.hops
        ]
        assert path.routed or all(near == far is not None for near, far in manners)


# Routers, of which the best is taken


def through_two(first: Port, second: Port, *extra: Any) -> Topology:
    """A seat in office and a storage in media, with two routers between them whose legs have these rates."""
    lit = (network("media", "10.44.20.0/24", "10.44.20.1"), network("office", "192.168.44.0/24", "192.168.44.1"))
    boxes = [
        device(name, "router", {"m": leg._replace(untagged="media"), "o": leg._replace(untagged="office")})
        for name, leg in (("one", first), ("two", second))
    ]
    core = switch(
        "core", {**dict.fromkeys("1234", jack(untagged="media")), **dict.fromkeys("5678", jack(untagged="office"))}
    )
    ends = [
        ("cut-1/wire", "core/5"),
        ("one/o", "core/6"),
        ("two/o", "core/7"),
        ("vault/fast", "core/1"),
        ("one/m", "core/2"),
        ("two/m", "core/3"),
    ]
    return topology_of(
        *lit, *boxes, core, seat("cut-1", {"wire": jack(untagged="office")}), vault("vault", {"fast": jack(untagged="media")}),
        *(cable(f"C{n}", *pair) for n, pair in enumerate(ends)), *extra,
    )  # fmt: skip


def passed(topology: Topology) -> set[str]:
    (path,) = topology.paths
    return {hop.to_port.device for hop in path.hops}


@pytest.mark.parametrize(
    ("first", "second", "taken"),
    [
        (jack(1), jack(10), "two"),
        (jack(10), jack(1), "one"),
        (jack(10), jack(10), "one"),
        (jack()._replace(rates=None), jack(1), "two"),
    ],
)
def test_of_several_routers_the_one_with_the_higher_promise_is_on_the_way_and_of_equal_ones_the_first(
    first: Port, second: Port, taken: str
) -> None:
    topology = through_two(first, second)

    assert taken in passed(topology)
    assert {"one": "two", "two": "one"}[taken] not in passed(topology)


def test_two_routers_in_a_row_make_no_road() -> None:
    lit = [network(name, f"10.{n}.0.0/16", f"10.{n}.0.1") for n, name in enumerate(("office", "middle", "media"))]
    one = device("one", "router", {"o": jack(untagged="office"), "x": jack(untagged="middle")})
    two = device("two", "router", {"x": jack(untagged="middle"), "m": jack(untagged="media")})
    cut, box = seat("cut-1", {"wire": jack(untagged="office")}), vault("vault", {"fast": jack(untagged="media")})
    cords = [cable("C1", "cut-1/wire", "one/o"), cable("C2", "one/x", "two/x"), cable("C3", "two/m", "vault/fast")]

    assert [] == pairs(topology_of(*lit, one, two, cut, box, *cords))
