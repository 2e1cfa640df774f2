"""Roads behind the ports of a card: straight to another machine, or by way of a switch."""

from __future__ import annotations

from wiring import cable, device, jack, seat, switch, vault, wired

from netaudit.model.plan import Bond, Cable, Device, Port, Station
from netaudit.network.topology import build_topology
from netaudit.ordering.cards.roads import Roads
from netaudit.ordering.cards.settings import Subnets, card_ports

SOCKET = Port(connector="thunderbolt", leased=True)
DOCK = device("dock", "adapter", {"host": Port(connector="thunderbolt"), "net": jack()}, bridges=("host", "net"))


def direct(station: Station, *things: Device | Cable) -> list[bool]:
    """Whether each port of a seat's card leads straight to another machine."""
    plan = wired(station, switch("core"), vault(), *things)
    roads = Roads(plan, build_topology(plan))
    return [roads.direct(port) for port in card_ports(plan, Subnets(plan), station)]


def test_a_cable_to_a_storage_is_direct_and_one_to_a_switch_is_not() -> None:
    station = seat("cut-1", {"a": jack(leased=True), "b": jack(leased=True), "c": jack(leased=True)})

    assert [True, False, False] == direct(
        station, cable("C01", "cut-1/a", "vault/fast"), cable("C02", "cut-1/b", "core/1")
    )


def test_another_seat_is_a_machine_too() -> None:
    station = seat("cut-1", {"wire": jack(leased=True)})

    assert [True] == direct(station, seat("cut-2"), cable("C01", "cut-1/wire", "cut-2/wire"))


def test_an_adapter_is_looked_through() -> None:
    station = seat("cut-1", {"tb": SOCKET})
    plug = cable("T01", "cut-1/tb", "dock/host", "thunderbolt", 0.5)

    assert [True] == direct(station, DOCK, plug, cable("C01", "dock/net", "vault/fast"))
    assert [False] == direct(station, DOCK, plug, cable("C01", "dock/net", "core/1"))
    assert [False] == direct(station, DOCK, plug)


def test_a_bond_is_direct_where_all_its_members_are() -> None:
    station = seat("cut-1", {"a": jack(), "b": jack()}, bonds={"lag": Bond(("a", "b"), leased=True)})
    far = vault("attic", {"a": jack(), "b": jack()})
    one = cable("C01", "cut-1/a", "attic/a")

    assert [True] == direct(station, far, one, cable("C02", "cut-1/b", "attic/b"))
    assert [False] == direct(station, far, one, cable("C02", "cut-1/b", "core/1"))
