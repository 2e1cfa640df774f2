"""The address at which a seat mounts a storage."""

from __future__ import annotations

from ipaddress import ip_address, ip_network
from typing import Any

from wiring import cable, jack, network, seat, topology_of, vault, wired

from netaudit.model.plan import Bond
from netaudit.rules.paths.mounting import mount_address

MEDIA = network("media", "10.44.20.0/24")
HERE, THERE, MOVING = map(ip_address, ("10.44.20.10", "192.168.44.10", "10.44.20.99"))


def mounted(own: tuple[Any, ...] = (), net: Any = MEDIA, **fields: Any) -> str | None:
    things = (net, seat("cut-1", {"wire": jack(untagged="media")}),
              vault("vault", {"fast": jack(untagged="media", addresses=own)}, **fields),
              cable("C1", "cut-1/wire", "vault/fast"))  # fmt: skip
    (path,) = topology_of(*things).paths
    address = mount_address(path, wired(*things))
    return None if address is None else str(address)


def test_it_is_the_address_of_the_port_that_lies_in_the_network() -> None:
    assert "10.44.20.10" == mounted((THERE, HERE))
    assert mounted((THERE,)) is None
    assert mounted() is None


def test_an_address_in_any_of_the_networks_subnets_will_do() -> None:
    both = MEDIA._replace(subnets=(*MEDIA.subnets, ip_network("192.168.44.0/24")))

    assert "192.168.44.10" == mounted((THERE, HERE), net=both)


def test_in_a_network_without_subnets_it_is_the_first() -> None:
    assert "192.168.44.10" == mounted((THERE, HERE), net=network("media"))


def test_a_bond_speaks_for_its_members() -> None:
    assert "10.44.20.10" == mounted(bonds={"pair": Bond(("fast",), addresses=(HERE,))})


def test_the_address_that_moves_between_nodes_comes_first_in_its_own_network() -> None:
    assert "10.44.20.99" == mounted((HERE,), virtual={"media": MOVING})
    assert "10.44.20.10" == mounted((HERE,), virtual={"office": MOVING})


def test_a_path_that_leads_nowhere_has_none() -> None:
    things = (MEDIA, seat("cut-1"), vault())
    (path,) = topology_of(*things).paths

    assert mount_address(path, wired(*things)) is None


def test_in_a_plan_without_networks_it_is_the_first_of_the_port() -> None:
    things = (seat("cut-1"), vault("vault", {"fast": jack(addresses=(HERE,))}), cable("C1", "cut-1/wire", "vault/fast"))
    (path,) = topology_of(*things).paths

    assert mount_address(path, wired(*things)) == HERE
