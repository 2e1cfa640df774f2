"""What not to set: a sentence only where the plan gives the reason."""

from __future__ import annotations

from ipaddress import ip_address, ip_network

from wiring import aerial, cable, jack, network, seat, switch, vault, wired

from netaudit.model.plan import Bond, Device, Network, Port
from netaudit.network.topology import build_topology
from netaudit.ordering.cards.address_cards import address_cards

MEDIA = network("media", "10.44.20.0/24", purpose="storage")
OFFICE = network(
    "office", "192.168.44.0/24", "192.168.44.1", leases=(ip_address("192.168.44.100"), ip_address("192.168.44.199"))
)
FAST, SLOW = ip_address("10.44.20.10"), ip_address("192.168.44.10")
WIRE = jack(untagged="media", addresses=(ip_address("10.44.20.11"),), mtu=9000)
AIR = aerial(1.2, untagged="office", leased=True)
VAULT = vault(
    ports={
        "fast": jack(untagged="media", addresses=(FAST,), mtu=9000),
        "slow": jack(untagged="office", addresses=(SLOW,), serves=False),
    }
)


def left(
    own: dict[str, Port], *more: Network, storage: Device = VAULT, name: str = "cut-1", **fields: object
) -> tuple[str, ...]:
    """What one machine is told, in a room of one seat, one switch and one storage."""
    near = next(iter(own))
    plan = wired(
        MEDIA, OFFICE, *more, seat("cut-1", own, **fields), switch("core"), storage,
        cable("C01", f"cut-1/{near}", "core/1"), cable("D01", "core/2", "vault/fast"),
    )  # fmt: skip
    return next(card.leave for card in address_cards(plan, build_topology(plan)) if card.device == name)


def test_a_seat_is_told_what_to_leave_alone() -> None:
    assert left({"wire": WIRE, "air": AIR}) == (
        "Leave router and DNS empty at cut-1/wire: the storage's network has no way out.",
        "Do not mount vault by a name or by 192.168.44.10: only 10.44.20.10 belongs to the planned road, by cut-1/wire.",
        "Do not bond or bridge ports: each has its own road, and two roads joined can stop the whole room.",
        "Do not turn Wi-Fi off at cut-1/air: there is no need, storage traffic follows the address.",
        "Type no address in at cut-1/air: the network hands it out.",
    )


def test_a_storage_is_told_what_to_leave_alone() -> None:
    assert left({"wire": WIRE}, name="vault") == (
        "Leave router and DNS empty at vault/fast: the storage's network has no way out.",
        "Do not share files at vault/slow: the plan keeps file traffic away from there.",
        "Do not bond or bridge ports: each has its own road, and two roads joined can stop the whole room.",
        "Leave the packet size as it is at vault/slow.",
        "Set no address from 192.168.44.100 to 192.168.44.199 at vault/slow: these are handed out to others.",
    )


def test_only_a_storage_with_a_port_away_from_files_is_told_not_to_share_there() -> None:
    serving = vault(ports={"fast": jack(untagged="media", addresses=(FAST,)), "slow": jack(untagged="office")})

    assert not any("share" in one for one in left({"wire": WIRE._replace(serves=False)}))
    assert not any("share" in one for one in left({"wire": WIRE}, storage=serving, name="vault"))


def test_of_two_radios_both_have_to_be_apart_from_the_road() -> None:
    assert not any("Wi-Fi" in one for one in left({"wire": WIRE, "air": AIR, "near": AIR._replace(untagged="media")}))


def test_a_single_wire_has_nothing_to_bond_and_no_radio_to_leave_on() -> None:
    told = left({"wire": WIRE})

    assert not any("bond" in one or "Wi-Fi" in one for one in told)


def test_nobody_is_told_to_keep_a_radio_on_that_is_in_the_storages_network_or_is_the_road() -> None:
    beside = {"wire": WIRE, "air": aerial(1.2, untagged="media", leased=True)}

    assert not any("Wi-Fi" in one for one in left(beside))
    assert not any("Wi-Fi" in one for one in left({"air": aerial(1.2, untagged="media", leased=True)}))


def test_a_size_of_packets_that_the_plan_does_not_give_is_left_as_it_is() -> None:
    assert not any("packet" in one for one in left({"wire": WIRE}))
    assert "Leave the packet size as it is at cut-1/wire." in left({"wire": WIRE._replace(mtu=None)})


def test_a_size_of_packets_that_only_the_network_gives_is_not_left_alone_unless_it_is_the_usual_one() -> None:
    def told(mtu: int) -> bool:
        lab = network("lab", "10.7.0.0/24", mtu=mtu)
        own = {"wire": jack(untagged="lab", addresses=(ip_address("10.7.0.5"),))}
        return any("packet size" in one for one in left(own, lab))

    assert [False, False, True] == [told(9000), told(1400), told(1500)]


def test_what_the_plan_bonds_is_told_and_nothing_else_may_be() -> None:
    bond = Bond(("a", "b"), untagged="media", addresses=(ip_address("10.44.20.11"),))
    told = left({"a": jack(), "b": jack()}, bonds={"lag": bond})

    assert "Set no address at a and b: they work as the bond lag." in told
    assert any(one.startswith("Do not bond or bridge other ports than the plan does") for one in told)


def test_a_second_way_out_is_left_empty_with_its_reason() -> None:
    guests = network("guests", "10.7.0.0/24", "10.7.0.1")
    own = {
        "wire": jack(untagged="office", addresses=(ip_address("192.168.44.11"),)),
        "more": jack(untagged="guests", addresses=(ip_address("10.7.0.5"),)),
    }

    assert (
        "Leave router and DNS empty at cut-1/more: the way out is by cut-1/wire, and a machine with two ways out may take "
        "either."
    ) in left(own, guests)


def test_a_network_without_a_router_is_told_by_its_name() -> None:
    own = {"wire": jack(untagged="lab", addresses=(ip_address("10.7.0.5"),))}

    assert "Leave router and DNS empty at cut-1/wire: lab has no way out." in left(own, network("lab", "10.7.0.0/24"))


def test_a_router_of_the_other_kind_of_address_is_told_as_that() -> None:
    """A host of one version of IP cannot send to a router of the other: RFC 791 and RFC 8200 have different headers."""
    mixed = Network("mixed", (ip_network("fd00::/64"), ip_network("10.7.0.0/24")), gateway=ip_address("fd00::1"))
    stored = mixed._replace(name="stored", purpose="storage")

    for each in (mixed, stored):
        own = {"wire": jack(untagged=each.name, addresses=(ip_address("10.7.0.5"),))}
        expected = f"Leave router and DNS empty at cut-1/wire: the router of {each.name} has no address of this kind."
        assert [expected] == [one for one in left(own, each) if "router" in one]


def test_a_storage_without_a_planned_address_is_told_by_its_road() -> None:
    bare = vault(ports={"fast": jack(untagged="media"), "slow": jack(untagged="office", addresses=(SLOW,))})

    assert (
        "Do not mount vault by a name or by 192.168.44.10: give it an address on the planned road, and use that."
    ) in left({"wire": WIRE}, storage=bare)


def test_a_port_in_two_networks_is_told_by_its_vlan() -> None:
    lab = network("lab", "10.7.0.0/24", vlan=20)
    own = {"wire": WIRE._replace(tagged=("lab",), addresses=(*WIRE.addresses, ip_address("10.7.0.5")))}

    assert [
        "Leave router and DNS empty at cut-1/wire: the storage's network has no way out.",
        "Leave router and DNS empty at cut-1/wire in VLAN 20: lab has no way out.",
    ] == [one for one in left(own, lab) if "router" in one]


def test_the_members_of_a_bond_in_two_networks_are_told_once() -> None:
    lab = network("lab", "10.7.0.0/24", vlan=20)
    addresses = (ip_address("10.44.20.11"), ip_address("10.7.0.5"))
    member = jack(tagged=("lab",))
    told = left({"a": member, "b": member}, lab, bonds={"lag": Bond(("a", "b"), untagged="media", addresses=addresses)})

    assert 1 == sum(one.startswith("Set no address at a and b") for one in told)
