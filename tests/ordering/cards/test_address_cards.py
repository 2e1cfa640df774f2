"""Address cards: which address to mount over which port, and which never."""

from __future__ import annotations

from ipaddress import ip_address

from hypothesis import given, settings
from strategies import plans
from wiring import cable, device, jack, network, ref, seat, switch, vault, wired

from netaudit.model.moving import AddressCard, Mount
from netaudit.model.plan import Bond, Plan, Station, Storage
from netaudit.network.topology import build_topology
from netaudit.ordering.cards.address_cards import address_cards

MEDIA = network("media", "10.44.20.0/24", purpose="storage")
OFFICE = network("office", "192.168.44.0/24", "192.168.44.1")
FAST, SLOW, OWN = ip_address("10.44.20.10"), ip_address("192.168.44.10"), ip_address("10.44.20.11")
WIRE = jack(untagged="media", addresses=(OWN,))
VAULT_PORTS = {
    "fast": jack(untagged="media", addresses=(FAST,)),
    "slow": jack(untagged="office", addresses=(SLOW,), serves=False),
}


def cards(*things: object) -> dict[str, AddressCard]:
    """The cards of the plan of those things, by device."""
    plan = wired(MEDIA, OFFICE, *things)  # type: ignore[arg-type]
    return {card.device: card for card in address_cards(plan, build_topology(plan))}


def mounted(storage: Storage, far: str = "vault/fast") -> Mount:
    """What one seat mounts of a storage that hangs on the same switch."""
    links = (cable("C01", "cut-1/wire", "core/1"), cable("D01", "core/2", far))
    return cards(seat("cut-1", {"wire": WIRE}), switch("core"), storage, *links)["cut-1"].mounts[0]


def test_a_seat_mounts_the_address_at_the_end_of_its_planned_road_and_never_another_one() -> None:
    assert mounted(vault(ports=VAULT_PORTS)) == Mount("vault", (FAST,), ref("cut-1/wire"), "media", (SLOW,))


def test_an_address_at_a_bond_counts_for_its_members() -> None:
    bond = Bond(("fast", "more"), untagged="media", addresses=(FAST,))

    assert mounted(vault(ports={"fast": jack(), "more": jack()}, bonds={"lag": bond})).addresses == (FAST,)


def test_a_cluster_is_mounted_by_the_address_that_moves_and_never_by_that_of_a_node() -> None:
    moving = ip_address("10.44.20.9")
    found = mounted(vault(ports=VAULT_PORTS, virtual={"media": moving}))

    assert (found.addresses, found.never) == ((moving,), (FAST, SLOW))


def test_of_several_addresses_at_a_port_that_in_the_roads_network_is_mounted() -> None:
    port = jack(untagged="media", addresses=(SLOW, FAST))

    assert mounted(vault(ports={"fast": port})).addresses == (FAST,)


def test_a_storage_without_an_address_leaves_nothing_to_mount() -> None:
    assert mounted(vault(ports={"fast": jack(untagged="media")})) == Mount("vault", (), ref("cut-1/wire"), "media", ())


def mounted_over_a_router(storage: Storage) -> Mount:
    """What a seat in a network of its own mounts of a storage in the office's."""
    lan = network("lab", "10.9.0.0/24", "10.9.0.1")
    legs = {"a": jack(untagged="lab"), "b": jack(untagged="office")}
    found = cards(
        lan, seat("cut-1", {"wire": jack(untagged="lab", addresses=(ip_address("10.9.0.5"),))}),
        device("router", "router", legs), storage,
        cable("C01", "cut-1/wire", "router/a"), cable("C02", "router/b", "vault/fast"),
    )  # fmt: skip
    return found["cut-1"].mounts[0]


def test_over_a_router_the_address_in_the_storages_own_network_is_mounted() -> None:
    port = jack(untagged="office", addresses=(SLOW,))
    tagged = jack(untagged="office", tagged=("media",), addresses=(ip_address("172.16.0.9"), SLOW))

    assert Mount("vault", (SLOW,), ref("cut-1/wire"), "lab", ()) == mounted_over_a_router(vault(ports={"fast": port}))
    assert (SLOW,) == mounted_over_a_router(vault(ports={"fast": tagged})).addresses


def test_over_a_router_a_cluster_is_mounted_by_the_address_that_moves_in_the_network_of_its_bond() -> None:
    moving = ip_address("192.168.44.9")
    bond = Bond(("fast", "more"), untagged="office", addresses=(SLOW,))
    nodes = vault(ports={"fast": jack(), "more": jack()}, bonds={"lag": bond}, virtual={"office": moving})

    found = mounted_over_a_router(nodes)

    assert ((moving,), (SLOW,)) == (found.addresses, found.never)


def test_a_seat_without_a_road_mounts_nothing_and_is_told_so() -> None:
    card = cards(seat("cut-1", {"wire": WIRE}), vault(ports=VAULT_PORTS))["cut-1"]

    assert card.mounts == (Mount("vault", (), None, None, ()),)
    assert "Mount nothing of vault yet: no road leads there in this plan; `netaudit check` says why." in card.leave


def test_a_storage_knows_who_mounts_it_and_by_which_address_and_who_has_no_road_to_it() -> None:
    found = cards(
        seat("cut-1", {"wire": WIRE}), seat("cut-2", {"wire": WIRE}), switch("core"), vault(ports=VAULT_PORTS),
        vault("archive", purpose="archive"), cable("C01", "cut-1/wire", "core/1"), cable("D01", "core/2", "vault/fast"),
    )  # fmt: skip

    assert found["vault"].mounted_by == (("cut-1", FAST),)
    assert found["vault"].mind == ("No road leads here from cut-2 in this plan; `netaudit check` says why.",)
    assert ((), ()) == (found["archive"].mounted_by, found["archive"].mind)


def test_a_seat_with_a_road_to_a_storage_without_an_address_mounts_it_by_none() -> None:
    found = cards(
        seat("cut-1", {"wire": WIRE}), switch("core"), vault(ports={"fast": jack(untagged="media")}),
        cable("C01", "cut-1/wire", "core/1"), cable("D01", "core/2", "vault/fast"),
    )["vault"]  # fmt: skip

    assert ((("cut-1", None),), ()) == (found.mounted_by, found.mind)


@settings(max_examples=40, deadline=None)
@given(plans())
def test_every_seat_and_storage_of_any_plan_has_a_card_that_never_mounts_what_it_must_not(plan: Plan) -> None:
    topology = build_topology(plan)
    found = address_cards(plan, topology)

    assert [card.device for card in found] == [
        each.name for each in plan.devices.values() if isinstance(each, Station | Storage)
    ]
    assert all(set(mount.addresses).isdisjoint(mount.never) for card in found for mount in card.mounts)
    planned = [(path.station, path.storage, path.from_port) for path in topology.paths if path.planned]
    assert sorted(map(str, planned)) == sorted(
        str((card.device, mount.storage, mount.through)) for card in found for mount in card.mounts
    )
    reached = [mount for card in found for mount in card.mounts if mount.through is not None]
    assert len(reached) == sum(len(card.mounted_by) for card in found)
