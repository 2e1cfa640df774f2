"""Routers: one passes packets between the networks whose gateway it is, and between no others."""

from __future__ import annotations

import pytest
from wiring import cable, device, jack, network, pairs, seat, switch, topology_of, vault, wired

from netaudit.model.plan import Device, Network, Port
from netaudit.network.forwarding import forwarding
from netaudit.network.routers import Router, find_routers
from netaudit.network.topology import Topology

MEDIA = network("media", "10.44.20.0/24", "10.44.20.1")
OFFICE = network("office", "192.168.44.0/24", "192.168.44.1")
LEGS = {"m": jack(untagged="media"), "o": jack(untagged="office")}


def routers(box: Device, *networks: Network) -> tuple[Router, ...]:
    plan = wired(*networks, box)
    return find_routers(plan, forwarding(plan, []))


def routed(*things: Device | Network, box: Device) -> Topology:
    """A seat in office and a storage in media, each cabled to a leg of one box."""
    return topology_of(
        *things, box, seat("cut-1", {"wire": jack(untagged="office")}),
        vault("vault", {"fast": jack(untagged="media")}),
        cable("C1", "cut-1/wire", f"{box.name}/o"), cable("C2", f"{box.name}/m", "vault/fast"),
    )  # fmt: skip


def test_a_router_that_is_the_gateway_of_both_networks_makes_a_path_between_them() -> None:
    topology = routed(MEDIA, OFFICE, box=device("box", "router", LEGS))
    (path,) = topology.paths
    assert pairs(topology) == [("cut-1/wire", "vault/fast")]
    assert (path.routed, path.network, path.planned) == (True, "office", True)
    assert [(str(hop.from_port), str(hop.to_port)) for hop in path.hops] == [
        ("cut-1/wire", "box/o"),
        ("box/m", "vault/fast"),
    ]


@pytest.mark.parametrize(
    "networks",
    [
        (network("media", "10.44.20.0/24"), OFFICE),
        (MEDIA, network("office", "192.168.44.0/24")),
        (network("media"), network("office")),
    ],
)
def test_a_router_without_a_gateway_on_one_side_makes_none(networks: tuple[Network, Network]) -> None:
    assert pairs(routed(*networks, box=device("box", "router", LEGS))) == []


@pytest.mark.parametrize("role", ["switch", "access-point", "other"])
def test_only_a_router_passes_packets_between_networks(role: str) -> None:
    box = switch("box", LEGS) if role == "switch" else device("box", role, LEGS)  # type: ignore[arg-type]
    assert pairs(routed(MEDIA, OFFICE, box=box)) == []


def addressed(media: str, office: str) -> Device:
    from ipaddress import ip_address

    return device(
        "box",
        "router",
        {
            "m": jack(untagged="media", addresses=(ip_address(media),)),
            "o": jack(untagged="office", addresses=(ip_address(office),)),
        },
    )


@pytest.mark.parametrize(
    ("media", "office", "found"),
    [
        ("10.44.20.1", "192.168.44.1", True),
        ("10.44.20.2", "192.168.44.1", False),
        ("10.44.20.1", "192.168.44.254", False),
        ("172.16.0.1", "192.168.44.1", True),
    ],
)
def test_a_router_whose_address_in_a_network_is_another_one_is_not_its_gateway(
    media: str, office: str, found: bool
) -> None:
    assert bool(routers(addressed(media, office), MEDIA, OFFICE)) == found


def test_the_address_of_a_router_may_lie_in_any_subnet_of_a_network() -> None:
    house = Network(
        name="media", subnets=(*MEDIA.subnets, *network("more", "10.44.21.0/24").subnets), gateway=MEDIA.gateway
    )
    assert not routers(addressed("10.44.21.7", "192.168.44.1"), house, OFFICE)
    assert routers(addressed("10.44.20.1", "192.168.44.1"), house, OFFICE)


def test_the_legs_are_the_first_ports_that_name_each_network() -> None:
    ports = {"any": jack(), "1": jack(untagged="office"), "2": jack(untagged="office", tagged=("media",))}
    (router,) = routers(device("box", "router", ports), MEDIA, OFFICE)
    assert {name: port.port for name, port in router.legs.items()} == {"media": "2", "office": "1"}
    assert router.joins("media", "office")
    assert router.joins("office", "media")
    assert not router.joins("office", "office")
    assert not router.joins(None, "office")
    assert not router.joins("office", "lab")


def test_a_router_in_one_network_alone_joins_nothing() -> None:
    assert routers(device("box", "router", {"o": jack(untagged="office")}), MEDIA, OFFICE) == ()
    assert routers(device("box", "router", {"o": jack()}), MEDIA, OFFICE) == ()


def test_a_router_on_a_trunk_sends_packets_back_over_the_same_cable() -> None:
    trunk = jack(tagged=("media", "office"))
    core = switch("core", {"1": jack(untagged="office"), "2": jack(untagged="media"), "up": trunk})
    topology = topology_of(
        MEDIA, OFFICE, core, device("box", "router", {"lan": trunk}),
        seat("cut-1", {"wire": jack(untagged="office")}), vault("vault", {"fast": jack(untagged="media")}),
        cable("C1", "cut-1/wire", "core/1"), cable("C2", "core/2", "vault/fast"), cable("U1", "core/up", "box/lan"),
    )  # fmt: skip
    (path,) = topology.paths
    assert [hop.cables for hop in path.hops] == [("C1",), ("U1",), ("U1",), ("C2",)]
    assert path.routed


def test_the_two_networks_of_a_router_are_reached_through_switches() -> None:
    topology = topology_of(
        MEDIA, OFFICE, device("box", "router", LEGS), switch("a"), switch("b"),
        seat("cut-1", {"wire": jack(untagged="office")}), vault("vault", {"fast": jack(untagged="media")}),
        cable("C1", "cut-1/wire", "a/1"), cable("U1", "a/2", "box/o"),
        cable("U2", "box/m", "b/1"), cable("C2", "b/2", "vault/fast"),
    )  # fmt: skip
    (path,) = topology.paths
    assert [hop.cables for hop in path.hops] == [("C1",), ("U1",), ("U2",), ("C2",)]


def test_where_both_are_in_one_network_no_router_is_asked() -> None:
    office: dict[str, Port] = {"o": jack(untagged="office"), "p": jack(untagged="office"), "m": jack(untagged="media")}
    topology = topology_of(
        MEDIA, OFFICE, device("box", "router", office),
        seat("cut-1", {"wire": jack(untagged="office")}), vault("vault", {"fast": jack(untagged="office")}),
        cable("C1", "cut-1/wire", "box/o"), cable("C2", "box/p", "vault/fast"),
    )  # fmt: skip
    (path,) = topology.paths
    assert (path.routed, len(path.hops)) == (False, 2)
