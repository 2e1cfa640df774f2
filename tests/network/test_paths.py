"""Paths: what each road carries, alone and shared, which thing on it is the narrowest, and what stays open."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring import G, aerial, cable, cage, device, jack, network, panel, ref, seat, switch, topology_of, vault, wired

from netaudit.model.path import Path
from netaudit.model.place import Place
from netaudit.model.plan import Bond, Bus, Cable, Device, Network, Plan, Pool, Port, Station, Storage, Stream
from netaudit.network.paths import pools_read
from netaudit.network.topology import build_topology

TEN = 10 * G
AT_9000 = 9_900_420_447
"""10 Gb/s x 8948 / 9038: 52 octets of IPv4, TCP and timestamps inside the packet (RFC 791, RFC 9293, RFC 7323), 38
octets of preamble, header, check sequence and gap around it (IEEE 802.3) [bit/s]."""
AT_1500 = 9_414_824_447
"""10 Gb/s x 1448 / 1538 [bit/s]."""


def path_of(*things: Device | Cable | Network, **fields: Any) -> Path:
    """The one path of a plan that has one."""
    (path,) = topology_of(*things, **fields).paths
    return path


def straight(near: Port, far: Port, line: Cable | None = None, **fields: Any) -> Path:
    """The path of a seat that one cable joins to its storage."""
    ends = [seat("cut-1", {"wire": near}), vault("vault", {"fast": far}, **fields)]
    return path_of(*ends, line or cable("C1", "cut-1/wire", "vault/fast"))


# Goodput


@pytest.mark.parametrize(
    ("near", "far", "goodput"),
    [
        (9000, 9000, AT_9000),
        (1500, 1500, AT_1500),
        (9000, 1500, AT_1500),
        (1500, 9000, AT_1500),
        (None, None, AT_1500),
        (9000, None, AT_1500),
        (None, 9000, AT_1500),
        (1280, None, round(TEN * 1228 / 1318)),
    ],
)
def test_goodput_follows_from_the_smaller_packet_and_an_unknown_one_counts_as_1500(
    near: int | None, far: int | None, goodput: int
) -> None:
    path = straight(jack(mtu=near), jack(mtu=far))
    assert (path.goodput_bit_per_s, path.share_bit_per_s, path.shared_by) == (goodput, goodput, 1)
    assert (path.promised_bit_per_s, path.agreed_bit_per_s) == (TEN, TEN)


def test_the_packet_of_a_bond_stands_before_that_of_its_member() -> None:
    near = seat("cut-1", {"wire": jack(mtu=9000)})
    lines = [cable("C1", "cut-1/wire", "vault/a")]
    for mtu, goodput in ((9000, AT_9000), (1500, AT_1500), (None, AT_9000)):
        pair = {"pair": Bond(ports=("b", "a"), mtu=mtu)}
        far = vault("vault", {"a": jack(mtu=9000), "b": jack(mtu=1500)}, bonds=pair)
        assert path_of(near, far, *lines).goodput_bit_per_s == goodput


def test_goodput_counts_what_is_promised_and_not_what_is_agreed() -> None:
    path = straight(jack(), jack(), cable("C1", "cut-1/wire", "vault/fast", "5e", 20.0))
    assert (path.agreed_bit_per_s, path.promised_bit_per_s) == (TEN, 2_500_000_000)
    assert path.goodput_bit_per_s == round(2_500_000_000 * 1448 / 1538)


@pytest.mark.parametrize("at_seat", [True, False])
def test_a_bus_narrower_than_the_link_bounds_what_it_carries(at_seat: bool) -> None:
    """USB 3 at 5 Gb/s codes 8 bits as 10: 4 Gb/s are left."""
    slow, plain = jack(bus=Bus(kind="usb", rate_bit_per_s=5 * G)), jack()
    path = straight(*((slow, plain) if at_seat else (plain, slow)))
    assert path.goodput_bit_per_s == 4 * G
    assert path.limited_by == Place("bus", "cut-1/wire" if at_seat else "vault/fast")
    assert path.promised_bit_per_s == TEN


def test_a_bus_that_is_wide_enough_bounds_nothing_and_one_not_known_well_enough_leaves_it_open() -> None:
    wide, vague = Bus(kind="pcie", generation=3, lanes=4), Bus(kind="pcie", generation=3)
    for bus, goodput in ((wide, AT_1500), (vague, None)):
        path = straight(jack(bus=bus), jack())
        assert (path.goodput_bit_per_s, path.limited_by) == (goodput, Place("link", "cut-1/wire - vault/fast"))


DRIVES = Pool(drives=5, read_bit_per_s=1_920_000_000, layout="single-parity")


def test_a_pool_slower_than_the_link_bounds_what_it_carries() -> None:
    path = straight(jack(), jack(), pools={"main": DRIVES})
    assert path.goodput_bit_per_s == 4 * 1_920_000_000
    assert path.limited_by == Place("pool", "vault/main")


def test_of_several_pools_the_slowest_that_a_seat_reads_bounds_it() -> None:
    pools = {"main": DRIVES, "old": DRIVES._replace(drives=2), "odd": Pool()}
    assert straight(jack(), jack(), pools=pools).limited_by == Place("pool", "vault/old")
    reader = seat("cut-1", plays=(Stream(pool=("vault", "main")), Stream(pool=("shelf", "old"))))
    path = path_of(reader, vault("vault", pools=pools), cable("C1", "cut-1/wire", "vault/fast"))
    assert path.limited_by == Place("pool", "vault/main")
    unknown = straight(jack(), jack(), pools={"odd": Pool()})
    assert unknown.goodput_bit_per_s == AT_1500


def test_a_seat_reads_from_the_pools_that_its_rows_name_and_else_from_all() -> None:
    storage = vault("vault", pools={"a": Pool(), "b": Pool(), "c": Pool()})
    rows = (Stream(pool=("vault", "b")), Stream(), Stream(pool=("vault", "b")), Stream(pool=("other", "c")))
    assert pools_read(seat("cut-1"), storage) == ("a", "b", "c")
    assert pools_read(seat("cut-1", plays=rows), storage) == ("b",)
    assert pools_read(seat("cut-1", plays=(Stream(),)), storage) == ("a", "b", "c")
    assert pools_read(seat("cut-1", plays=rows), vault("other", pools={"c": Pool()})) == ("c",)


# The narrowest thing


def two_links(first: Port, second: Port) -> Path:
    return path_of(
        seat("cut-1", {"wire": first}), vault("vault", {"fast": second}), switch("core"),
        cable("C1", "cut-1/wire", "core/1"), cable("C2", "core/2", "vault/fast"),
    )  # fmt: skip


def test_the_narrowest_link_bounds_a_path() -> None:
    path = two_links(jack(2.5, 1), jack())
    assert path.limited_by == Place("link", "cut-1/wire - core/1")
    assert (path.promised_bit_per_s, path.agreed_bit_per_s) == (2_500_000_000, 2_500_000_000)
    assert two_links(jack(), jack(1)).limited_by == Place("link", "vault/fast - core/2")


def test_of_equally_narrow_things_the_one_nearest_the_storage_is_told() -> None:
    assert two_links(jack(), jack()).limited_by == Place("link", "vault/fast - core/2")
    rate = AT_1500
    even = Pool(measured_read_bit_per_s=rate)
    assert straight(jack(), jack(), pools={"main": even}).limited_by == Place("pool", "vault/main")
    usb = Bus(kind="usb", rate_bit_per_s=5 * G)
    assert straight(jack(bus=usb), jack(bus=usb)).limited_by == Place("bus", "vault/fast")


# Shared


def shared(*seats: Station, storage: Storage | None = None, uplink: tuple[Port, Port] | None = None) -> list[Path]:
    """The paths of seats on one switch to a storage on another."""
    near, far = uplink or (jack(), jack())
    loft = switch("loft", {**{str(number): jack() for number in range(1, 9)}, "up": near})
    core = switch("core", {"up": far, "1": jack()})
    lines = [cable(f"C-{each.name}", f"{each.name}/wire", f"loft/{number}") for number, each in enumerate(seats, 1)]
    things = [*seats, storage or vault(), loft, core, *lines]
    return list(topology_of(*things, cable("U", "loft/up", "core/up"), cable("V", "core/1", "vault/fast")).paths)


def test_seats_share_what_all_their_roads_cross() -> None:
    paths = shared(seat("cut-1"), seat("cut-2"), seat("cut-3"))
    assert {path.shared_by for path in paths} == {3}
    assert {path.goodput_bit_per_s for path in paths} == {AT_1500}
    assert {path.share_bit_per_s for path in paths} == {AT_1500 // 3}
    assert {path.limited_by for path in paths} == {Place("link", "vault/fast - core/1")}


def test_a_seat_alone_on_its_narrow_link_shares_the_wide_one_behind_it() -> None:
    slow = seat("cut-1", {"wire": jack(1)})
    paths = shared(slow, seat("cut-2"), seat("cut-3"))
    assert (paths[0].shared_by, paths[0].share_bit_per_s) == (1, round(G * 1448 / 1538))
    assert (paths[1].shared_by, paths[1].share_bit_per_s) == (3, AT_1500 // 3)
    crowd = shared(
        slow, *(seat(f"cut-{number}", {"wire": jack(1)}) for number in range(2, 5)), uplink=(jack(1), jack(1))
    )
    assert crowd[0].limited_by == Place("link", "loft/up - core/up")
    assert crowd[0].share_bit_per_s == round(G * 1448 / 1538) // 4


def test_a_bus_and_a_pool_are_shared_as_a_link_is() -> None:
    usb = jack(bus=Bus(kind="usb", rate_bit_per_s=5 * G))
    paths = shared(seat("cut-1"), seat("cut-2"), storage=vault("vault", {"fast": usb}))
    assert {(path.limited_by, path.shared_by, path.share_bit_per_s) for path in paths} == {
        (Place("bus", "vault/fast"), 2, 2 * G)
    }
    slow = vault("vault", pools={"main": Pool(measured_read_bit_per_s=3 * G)})
    paths = shared(seat("cut-1"), seat("cut-2"), seat("cut-3"), storage=slow)
    assert {(path.limited_by, path.shared_by, path.share_bit_per_s) for path in paths} == {
        (Place("pool", "vault/main"), 3, G)
    }


DOCK = Bus(kind="usb", rate_bit_per_s=5 * G, via="dock")
HUB = DOCK._replace(via="hub")


@pytest.mark.parametrize(
    ("buses", "expected"),
    [
        ((DOCK, DOCK), [("bus vault/a", 2, 2 * G), ("bus vault/a", 2, 2 * G)]),
        ((DOCK, HUB), [("bus vault/a", 1, 4 * G), ("bus vault/b", 1, 4 * G)]),
        ((DOCK, DOCK._replace(via=None)), [("bus vault/a", 1, 4 * G), ("bus vault/b", 1, 4 * G)]),
    ],
)
def test_ports_behind_one_dock_share_its_bus_which_goes_by_the_first(
    buses: tuple[Bus, Bus], expected: list[tuple[str, int, int]]
) -> None:
    ports = {name: jack(bus=bus) for name, bus in zip("ab", buses, strict=True)}
    lines = [cable("C1", "cut-1/wire", "vault/a"), cable("C2", "cut-2/wire", "vault/b")]
    paths = topology_of(seat("cut-1"), seat("cut-2"), vault("vault", ports), *lines).paths
    assert [(str(path.limited_by), path.shared_by, path.share_bit_per_s) for path in paths] == expected


def test_ports_without_a_dock_are_none_of_its_ports() -> None:
    ports = {"a": jack(), "b": jack(bus=DOCK._replace(via=None)), "c": jack(bus=DOCK)}
    (path,) = topology_of(seat("cut-1"), vault("vault", ports), cable("C1", "cut-1/wire", "vault/c")).paths
    assert str(path.limited_by) == "bus vault/c"


def test_beyond_a_ring_whose_tree_is_open_it_is_open_who_shares_what() -> None:
    """IEEE 802.1D: the link that the tree blocks decides over which of the others each seat's frames go."""
    ends = [seat("cut-1"), vault(), cable("C1", "cut-1/wire", "a/8"), cable("C2", "b/8", "vault/fast")]
    ring = [cable("ab", "a/1", "b/1"), cable("bc", "b/2", "c/1"), cable("ca", "c/2", "a/2")]
    path = path_of(*ends, *(switch(name, spanning_tree=True) for name in "abc"), *ring)
    assert path.goodput_bit_per_s is not None
    assert path.share_bit_per_s is None


def test_docks_of_two_devices_that_are_called_alike_are_two() -> None:
    one, two = (seat(f"cut-{number}", {"wire": jack(bus=DOCK)}) for number in (1, 2))
    assert [(str(path.limited_by), path.shared_by) for path in shared(one, two)] == [
        ("bus cut-1/wire", 1),
        ("bus cut-2/wire", 1),
    ]


def test_only_the_seats_that_read_from_a_pool_share_it() -> None:
    pools = {"main": Pool(measured_read_bit_per_s=3 * G), "rest": Pool(measured_read_bit_per_s=2 * G)}
    seats = [
        seat(f"cut-{number}", plays=(Stream(pool=("vault", name)),))
        for number, name in enumerate(["main", "main", "rest"])
    ]
    paths = shared(*seats, storage=vault("vault", pools=pools))
    assert [(str(path.limited_by), path.shared_by) for path in paths] == [
        ("pool vault/main", 2), ("pool vault/main", 2), ("pool vault/rest", 1)
    ]  # fmt: skip


def test_a_pool_named_like_a_port_is_not_taken_for_its_bus() -> None:
    """Two seats read the pool; one of them comes in by the port of the same name."""
    ports = {
        "fast": jack(bus=Bus(kind="usb", rate_bit_per_s=5 * G)),
        "side": jack(bus=Bus(kind="usb", rate_bit_per_s=5 * G)),
    }
    storage = vault("vault", ports, pools={"fast": Pool(measured_read_bit_per_s=9 * G)})
    lines = [cable("C1", "cut-1/wire", "vault/fast"), cable("C2", "cut-2/wire", "vault/side")]
    paths = topology_of(seat("cut-1"), seat("cut-2"), storage, *lines).paths
    assert [(str(path.limited_by), path.shared_by) for path in paths] == [("bus vault/fast", 1), ("bus vault/side", 1)]


def test_a_seat_counts_once_whichever_of_its_roads_is_looked_at() -> None:
    two = seat("cut-1", {"wire": jack(), "spare": jack()})
    lines = [
        cable("C1", "cut-1/wire", "core/1"),
        cable("C2", "cut-1/spare", "core/2"),
        cable("V", "vault/fast", "core/3"),
    ]
    paths = topology_of(two, vault(), switch("core"), *lines).paths
    assert [(str(path.from_port), path.planned, path.shared_by) for path in paths] == [
        ("cut-1/wire", True, 1),
        ("cut-1/spare", False, 1),
    ]
    assert {path.share_bit_per_s for path in paths} == {AT_1500}


def test_on_a_road_that_is_not_planned_a_seat_comes_on_top_of_those_whose_road_it_is() -> None:
    things = [
        seat("cut-1", {"wire": jack(), "house": jack(1)}), seat("cut-2", {"house": jack(1)}),
        vault("vault", {"fast": jack(), "slow": jack(1)}), switch("core"), switch("house", {"1": jack(1), "2": jack(1), "3": jack(1)}),
        cable("C1", "cut-1/wire", "core/1"), cable("V1", "vault/fast", "core/2"),
        cable("C2", "cut-1/house", "house/1"), cable("C3", "cut-2/house", "house/2"), cable("V2", "vault/slow", "house/3"),
    ]  # fmt: skip
    paths = {(str(path.from_port), str(path.to_port)): path for path in topology_of(*things).paths}
    assert paths["cut-2/house", "vault/slow"].shared_by == 1
    assert paths["cut-1/house", "vault/slow"].shared_by == 2
    assert paths["cut-1/house", "vault/slow"].share_bit_per_s == round(G * 1448 / 1538) // 2
    assert paths["cut-1/wire", "vault/fast"].shared_by == 1


def test_a_seat_that_edits_from_two_storages_counts_once_on_what_both_roads_cross() -> None:
    lines = [cable("C1", "cut-1/wire", "core/1"), cable("V1", "one/fast", "core/2"), cable("V2", "two/fast", "core/3")]
    reader = seat("cut-1", {"wire": jack(1)})
    paths = topology_of(reader, vault("one"), vault("two"), switch("core"), *lines).paths
    assert [(path.storage, path.shared_by, str(path.limited_by)) for path in paths] == [
        ("one", 1, "link cut-1/wire - core/1"),
        ("two", 1, "link cut-1/wire - core/1"),
    ]


# What stays open


def test_a_path_over_an_undecided_link_has_bounds_and_no_figures() -> None:
    path = path_of(
        seat("cut-1"), vault("vault", {"fast": jack(5, 1)}), switch("core"),
        cable("C1", "cut-1/wire", "core/1", "unknown"), cable("C2", "core/2", "vault/fast"),
    )  # fmt: skip
    assert (path.agreed_bit_per_s, path.promised_bit_per_s) == (5 * G, None)
    assert (path.at_least_bit_per_s, path.at_most_bit_per_s) == (0, 5 * G)
    assert (path.goodput_bit_per_s, path.share_bit_per_s) == (None, None)
    assert path.limited_by == Place("link", "vault/fast - core/2")


@pytest.mark.parametrize(
    ("near", "far", "limited_by"),
    [
        (jack(), jack(1), "link vault/fast - core/2"),
        (jack(1), jack(), "link cut-1/wire - core/1"),
        (jack(5, 1), jack(5, 1), "link cut-1/wire - core/1"),
        (Port(connector="rj45"), jack(), "link vault/fast - core/2"),
    ],
)
def test_a_narrow_link_is_told_before_an_open_one_that_may_be_wider(near: Port, far: Port, limited_by: str) -> None:
    """The first link is of unknown category: up to its ports' rate, or without any bound where that is unknown too."""
    core = switch("core", {"1": Port(connector="rj45") if near.rates is None else jack(), "2": jack()})
    path = path_of(
        seat("cut-1", {"wire": near}), vault("vault", {"fast": far}), core,
        cable("C1", "cut-1/wire", "core/1", "unknown"), cable("C2", "core/2", "vault/fast"),
    )  # fmt: skip
    assert str(path.limited_by) == limited_by


def test_a_path_over_a_port_of_unknown_rates_is_bounded_by_the_rest() -> None:
    path = two_links(Port(connector="rj45"), jack(1))
    assert (path.agreed_bit_per_s, path.promised_bit_per_s) == (None, None)
    assert (path.at_least_bit_per_s, path.at_most_bit_per_s) == (0, G)
    nothing = straight(Port(), Port())
    assert (nothing.at_least_bit_per_s, nothing.at_most_bit_per_s) == (0, None)


def test_what_is_promised_in_any_case_is_the_least_of_what_each_link_is() -> None:
    """Every category carries 10BASE-T: IEEE 802.3 clause 14."""
    slow = jack(10, 0.01)
    path = straight(slow, slow, cable("C1", "cut-1/wire", "vault/fast", "unknown"))
    assert (path.at_least_bit_per_s, path.promised_bit_per_s, path.at_most_bit_per_s) == (10_000_000, None, TEN)


def test_a_path_by_radio_has_no_figure() -> None:
    path = path_of(
        seat("cut-1", {"air": aerial(1.2)}), vault(), device("ap", "access-point", {"wl": aerial(2.4), "lan": jack()}),
        cable("C1", "ap/lan", "vault/fast"),
    )  # fmt: skip
    assert (path.agreed_bit_per_s, path.promised_bit_per_s) == (1_200_000_000, None)
    assert (path.goodput_bit_per_s, path.share_bit_per_s) == (None, None)
    assert (path.at_least_bit_per_s, path.at_most_bit_per_s) == (0, 1_200_000_000)
    assert (path.hops[0].phy, path.hops[0].cables, path.hops[0].connections) == ("radio", (), 0)


def test_a_path_that_is_promised_nothing_has_a_goodput_of_nothing() -> None:
    path = straight(jack(), jack(), cable("C1", "cut-1/wire", "vault/fast", "6A", 130.0))
    assert (path.promised_bit_per_s, path.goodput_bit_per_s, path.agreed_bit_per_s) == (0, 0, TEN)


# Hops


def test_a_hop_tells_the_cables_in_the_direction_of_the_storage_and_what_decides_about_them() -> None:
    things = [
        vault(), switch("core"), panel("plate"), panel("bay"), seat("cut-1"),
        cable("P1", "core/1", "bay/1", "6A", 1.0, cord_awg=26),
        cable("W1", "bay/1", "plate/1", "6A", 38.0, installed=True),
        cable("C1", "plate/1", "cut-1/wire", "6A", 3.0, cord_awg=26),
        cable("C2", "vault/fast", "core/2", "6", 2.0),
    ]  # fmt: skip
    first, second = path_of(*things).hops
    assert (first.from_port, first.to_port, first.cables) == (ref("cut-1/wire"), ref("core/1"), ("C1", "W1", "P1"))
    assert (first.phy, first.agreed_bit_per_s, first.promised_bit_per_s) == ("10GBASE-T", TEN, TEN)
    assert (first.length_m, first.limit_m, first.connections) == (42.0, 100.0, 2)
    assert first.loss_equivalent_m == pytest.approx(44.0)
    assert (second.from_port, second.to_port, second.cables) == (ref("core/2"), ref("vault/fast"), ("C2",))
    assert (second.length_m, second.limit_m, second.connections) == (2.0, 37.0, 0)


def test_a_hop_over_twinax_has_no_loss_equivalent_and_one_of_unknown_length_none_either() -> None:
    made_up = straight(cage(10), cage(10), cable("D1", "cut-1/wire", "vault/fast", "twinax", 3.0)).hops[0]
    assert (made_up.phy, made_up.limit_m, made_up.loss_equivalent_m) == ("direct attach", 7.0, None)
    open_ended = straight(jack(), jack(), cable("C1", "cut-1/wire", "vault/fast", "6A", None)).hops[0]
    assert (open_ended.length_m, open_ended.limit_m, open_ended.loss_equivalent_m) == (None, 100.0, None)
    assert (open_ended.promised_bit_per_s, open_ended.agreed_bit_per_s) == (None, TEN)


# What makes no difference

MEDIA, OFFICE = network("media", purpose="storage"), network("office")


@st.composite
def rooms(draw: st.DrawFn) -> Plan:
    """Seats and storages with unlike ports on a few switches, some runs through panels, some facts missing."""
    boxes = [f"s{number}" for number in range(draw(st.integers(1, 4)))]
    ends = ["cut-0", "cut-1", "vault-0", *draw(st.sampled_from([[], ["vault-1"]]))]
    kinds = st.sampled_from(
        [jack(), jack(1), jack(2.5, 1), jack(mtu=9000), Port(connector="rj45"), jack(untagged="media")]
    )
    categories = st.sampled_from(["6A", "6", "5e", "unknown"])
    lengths = st.sampled_from([5.0, 38.0, 56.0, 101.0, None])
    ports: dict[str, dict[str, Port]] = {name: {} for name in (*boxes, *ends)}
    cables: list[Cable] = []
    panels: list[Device] = []

    def plug(*names: str) -> None:
        refs = []
        for name in names:
            refs.append(f"{name}/{len(ports[name])}")
            ports[name][str(len(ports[name]))] = draw(kinds)
        if draw(st.booleans()):
            panels.append(panel(f"p{len(panels)}", 1))
            refs.insert(1, f"{panels[-1].name}/1")
        for near, far in pairwise(refs):
            cables.append(cable(f"C{len(cables)}", near, far, draw(categories), draw(lengths)))

    for end in ends:
        for _ in range(draw(st.integers(1, 2))):
            plug(end, draw(st.sampled_from(boxes)))
    for _ in range(draw(st.integers(0, 5))):
        plug(draw(st.sampled_from(boxes)), draw(st.sampled_from(boxes)))
    making = {"cut": seat, "vau": vault}
    runs_tree = draw(st.booleans())
    devices = [
        making[name[:3]](name, own) if name[:3] in making else switch(name, own, spanning_tree=runs_tree)
        for name, own in ports.items()
    ]
    return wired(MEDIA, OFFICE, *devices, *panels, *cables)


def turned(line: Cable) -> Cable:
    (far,) = line.to_ports
    return line._replace(from_port=far, to_ports=(line.from_port,))


@settings(max_examples=150, deadline=None)
@given(rooms(), st.data())
def test_turning_and_reordering_the_cables_changes_no_path(plan: Plan, data: st.DataObject) -> None:
    lines = [turned(line) if data.draw(st.booleans()) else line for line in plan.cables.values()]
    other = wired(*plan.networks.values(), *plan.devices.values(), *data.draw(st.permutations(lines)))
    assert build_topology(other).paths == build_topology(plan).paths


@settings(max_examples=100, deadline=None)
@given(rooms())
def test_a_device_that_nothing_is_plugged_into_changes_no_path(plan: Plan) -> None:
    extra = [
        switch("extra-switch"), seat("extra-seat", edits_from=()), vault("extra-vault", purpose="backup"),
        device("extra-router", "router", {"m": jack(untagged="media"), "o": jack(untagged="office")}),
        panel("extra-panel"), device("extra-ap", "access-point", {"wl": aerial(1)}),
    ]  # fmt: skip
    other = wired(*plan.networks.values(), *extra[:3], *plan.devices.values(), *extra[3:], *plan.cables.values())
    assert build_topology(other).paths == build_topology(plan).paths


@settings(max_examples=150, deadline=None)
@given(rooms())
def test_the_figures_of_a_path_agree_with_each_other(plan: Plan) -> None:
    for path in build_topology(plan).paths:
        least, most, promised = path.at_least_bit_per_s, path.at_most_bit_per_s, path.promised_bit_per_s
        if not path.hops:
            continue
        if promised is not None:
            assert least == promised == min(hop.promised_bit_per_s or 0 for hop in path.hops)
        assert most is None or least <= most
        assert (path.goodput_bit_per_s is None) == (promised is None)
        assert path.shared_by >= 1
        if path.goodput_bit_per_s is not None and path.share_bit_per_s is not None:
            assert path.share_bit_per_s <= path.goodput_bit_per_s < max(promised or 0, 1)
