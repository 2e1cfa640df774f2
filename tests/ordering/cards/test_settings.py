"""Settings of a card: address with prefix, largest packet, and one router at most."""

from __future__ import annotations

from ipaddress import ip_address, ip_interface, ip_network

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import addresses, subnets
from wiring import aerial, jack, network, seat, wired

from netaudit.model.moving import Setting
from netaudit.model.plan import Address, Bond, Network, Plan, Port, Station, Subnet
from netaudit.ordering.cards.settings import CardPort, Subnets, card_ports, places

MEDIA = network("media", "10.44.20.0/24", purpose="storage")
OFFICE = network("office", "192.168.44.0/24", "192.168.44.1")
HERE, THERE = ip_address("10.44.20.11"), ip_address("192.168.44.11")
ROUTER = ip_address("192.168.44.1")


def ports_of(station: Station, *networks: Network) -> dict[str, CardPort]:
    """The ports of a seat's card by name."""
    plan = wired(*(networks or (MEDIA, OFFICE)), station)
    return {port.setting.port.port: port for port in card_ports(plan, Subnets(plan), station)}


def setting(name: str, station: Station, *networks: Network) -> Setting:
    """What is typed in at one port."""
    return ports_of(station, *networks)[name].setting


def one(**fields: object) -> Station:
    """A seat with one port of such fields."""
    return seat("cut-1", {"wire": jack(**fields)})


def test_an_address_is_written_with_the_prefix_of_its_subnet_and_the_mtu_as_planned() -> None:
    found = setting("wire", one(untagged="media", addresses=(HERE,), mtu=9000, interface="en5"))

    assert found[1:6] == ("en5", "media", ("10.44.20.11/24",), 9000, None)


def test_an_address_in_no_subnet_is_written_bare() -> None:
    assert setting("wire", one(untagged="media", addresses=(ip_address("10.9.9.9"),))).addresses == ("10.9.9.9",)


def test_an_address_in_no_subnet_of_its_network_takes_the_prefix_of_another_that_holds_it() -> None:
    narrow = network("rack", "10.44.20.0/28")

    assert ("10.44.20.11/24",) == setting("wire", one(untagged="office", addresses=(HERE,))).addresses
    assert ("10.44.20.11/24",) == setting("wire", one(untagged="media", addresses=(HERE,)), MEDIA, narrow).addresses
    assert ("10.9.9.9",) == setting("wire", one(addresses=(ip_address("10.9.9.9"),))).addresses


def test_an_address_that_the_plan_does_not_know_is_none() -> None:
    assert () == setting("wire", one(untagged="media")).addresses


def test_an_address_that_is_handed_out_is_a_lease_and_its_router_comes_with_it() -> None:
    found = setting("wire", one(untagged="office", leased=True))

    assert (found.addresses, found.gateway) == (("lease",), None)


def test_a_port_without_network_and_address_has_no_setting() -> None:
    assert ports_of(seat("cut-1")) == {}


def test_a_port_that_names_no_network_is_in_that_of_its_address() -> None:
    assert setting("wire", one(addresses=(THERE,)))[2:4] == ("office", ("192.168.44.11/24",))


def test_a_bond_is_set_in_place_of_its_members() -> None:
    bond = Bond(("a", "b"), untagged="media", addresses=(HERE,), mtu=9000)
    found = ports_of(seat("cut-1", {"a": jack(mtu=1500), "b": jack(), "c": jack()}, bonds={"lag": bond}))

    assert list(found) == ["lag"]
    assert found["lag"].members == ("a", "b")
    assert found["lag"].setting[1:6] == (None, "media", ("10.44.20.11/24",), 9000, None)


def test_the_router_is_typed_in_where_the_network_has_one() -> None:
    assert setting("wire", one(untagged="office", addresses=(THERE,))).gateway == ROUTER


def test_of_two_ways_out_the_one_that_is_not_for_storage_is_taken() -> None:
    stored = network("media", "10.44.20.0/24", "10.44.20.1", purpose="storage")
    both = {"wire": jack(untagged="media", addresses=(HERE,)), "house": jack(untagged="office", addresses=(THERE,))}
    found = ports_of(seat("cut-1", both), stored, OFFICE)

    assert [port.setting.gateway for port in found.values()] == [None, ROUTER]
    assert [str(port.way_out) for port in found.values()] == ["cut-1/house", "None"]


def test_beside_a_lease_no_second_router_is_typed_in() -> None:
    both = {"air": aerial(1, untagged="office", leased=True), "house": jack(untagged="guests", addresses=(HERE,))}
    found = ports_of(seat("cut-1", both), OFFICE, network("guests", "10.44.20.0/24", "10.44.20.1"))

    assert [port.setting.gateway for port in found.values()] == [None, None]


def test_a_way_out_leads_through_a_router() -> None:
    lab = network("lab", "10.44.20.0/24")
    both = {"wire": jack(untagged="lab", addresses=(HERE,)), "house": jack(untagged="office", addresses=(THERE,))}

    assert [None, ROUTER] == [port.setting.gateway for port in ports_of(seat("cut-1", both), lab, OFFICE).values()]


def test_an_address_is_typed_in_unless_it_is_handed_out_or_not_known() -> None:
    ports = [one(untagged="media", addresses=(HERE,)), one(untagged="office", leased=True), one(untagged="media")]

    assert [True, False, False] == [ports_of(station)["wire"].typed for station in ports]


def test_a_port_for_the_machines_care_has_a_router_of_its_own() -> None:
    both = {
        "house": jack(untagged="office", addresses=(THERE,)),
        "care": jack(untagged="office", addresses=(ip_address("192.168.44.12"),), purpose="management"),
    }

    assert [port.setting.gateway for port in ports_of(seat("cut-1", both)).values()] == [ROUTER, ROUTER]


def test_a_router_of_the_other_kind_of_address_is_none() -> None:
    dual = Network("office", (ip_network("fd00::/64"), ip_network("192.168.44.0/24")), gateway=ip_address("fd00::1"))

    assert setting("wire", one(untagged="office", addresses=(THERE,)), dual).gateway is None


def test_a_router_is_typed_in_where_one_of_two_addresses_is_of_its_kind() -> None:
    dual = Network("office", (ip_network("fd00::/64"), ip_network("192.168.44.0/24")), gateway=ROUTER)

    assert ROUTER == setting("wire", one(untagged="office", addresses=(ip_address("fd00::11"), THERE)), dual).gateway


def test_a_port_with_tagged_networks_is_in_that_which_holds_its_address() -> None:
    found = ports_of(one(tagged=("office", "media"), addresses=(HERE,)))["wire"]

    assert (found.setting.network, found.setting.tagged) == ("media", True)
    assert not ports_of(one(tagged=("office",), untagged="media", addresses=(HERE,)))["wire"].setting.tagged


def every(station: Station, *networks: Network) -> list[CardPort]:
    """The ports of a seat's card, one for each of their networks."""
    plan = wired(*networks, station)
    return list(card_ports(plan, Subnets(plan), station))


def test_a_port_without_addresses_is_set_once_for_each_network_that_it_names() -> None:
    def told(port: Port) -> list[tuple[str | None, tuple[str, ...], bool]]:
        found = every(seat("cut-1", {"wire": port}), OFFICE, LAB, MEDIA)
        return [(own.setting.network, own.setting.addresses, own.setting.tagged) for own in found]

    assert [("media", (), True), ("lab", (), True)] == told(jack(tagged=("media", "lab")))
    assert [("office", (), False), ("lab", (), True)] == told(jack(untagged="office", tagged=("lab",)))


def test_an_address_is_handed_out_in_the_untagged_network_or_else_in_each_tagged_one() -> None:
    def leased(station: Station) -> list[tuple[str | None, tuple[str, ...]]]:
        return [(own.setting.network, own.setting.addresses) for own in every(station, OFFICE, LAB, MEDIA)]

    bond = Bond(("a",), untagged="office", leased=True)
    bonded = seat("cut-1", {"a": jack(tagged=("lab",))}, bonds={"lag": bond})

    assert [("office", ("lease",)), ("lab", ())] == leased(one(untagged="office", tagged=("lab",), leased=True))
    assert [("office", ("lease",)), ("lab", ())] == leased(bonded)
    assert [("media", ("lease",)), ("lab", ("lease",))] == leased(one(tagged=("media", "lab"), leased=True))


def test_ports_are_told_by_their_places_each_once() -> None:
    ports = every(one(tagged=("media", "lab")), OFFICE, LAB, MEDIA)

    assert "cut-1/wire in VLAN media and cut-1/wire in VLAN 20" == places([*ports, *ports])


LAB = network("lab", "10.7.0.0/24", "10.7.0.1", vlan=20)
BOTH = one(untagged="office", tagged=("lab", "media"), addresses=(ip_address("10.7.0.5"), THERE), mtu=9000)


def test_each_address_is_set_in_the_network_whose_subnet_holds_it() -> None:
    found = [port.setting for port in every(BOTH, OFFICE, LAB, MEDIA)]

    assert [
        ("cut-1/wire", "lab", ("10.7.0.5/24",), 9000, 20, True),
        ("cut-1/wire", "office", ("192.168.44.11/24",), 9000, None, False),
    ] == [(str(own.port), own.network, own.addresses, own.mtu, own.vlan, own.tagged) for own in found]


def test_a_place_names_the_vlan_where_packets_are_tagged() -> None:
    unnumbered = LAB._replace(vlan=None)

    assert ["cut-1/wire in VLAN 20", "cut-1/wire"] == [port.place for port in every(BOTH, OFFICE, LAB, MEDIA)]
    assert ["cut-1/wire in VLAN lab", "cut-1/wire"] == [port.place for port in every(BOTH, OFFICE, unnumbered, MEDIA)]


def test_of_two_networks_at_one_port_the_first_with_a_router_is_the_way_out() -> None:
    ports = every(BOTH, OFFICE, LAB, MEDIA)

    assert [LAB.gateway, None] == [port.setting.gateway for port in ports]
    assert [None, "cut-1/wire in VLAN 20"] == [port.way_out for port in ports]


def test_a_vlan_is_typed_in_only_where_packets_are_tagged() -> None:
    (found,) = every(one(untagged="lab", addresses=(ip_address("10.7.0.5"),)), LAB)

    assert (None, False) == (found.setting.vlan, found.setting.tagged)


def test_addresses_of_both_kinds_in_one_network_are_one_setting_with_the_netmask_of_ipv4() -> None:
    dual = Network("office", (ip_network("fd00::/64"), ip_network("192.168.44.0/23")))
    (found,) = every(one(untagged="office", addresses=(ip_address("fd00::11"), THERE)), dual)

    # RFC 950: the mask of 23 leading ones; RFC 4291 section 2.3: IPv6 has prefixes only.
    assert (("fd00::11/64", "192.168.44.11/23"), (None, "255.255.254.0")) == (
        found.setting.addresses,
        found.setting.netmasks,
    )


def test_a_size_of_packets_that_only_the_network_plans_is_open() -> None:
    def opened(port: Port, mtu: int | None = 9000) -> int | None:
        (found,) = every(seat("cut-1", {"wire": port}), MEDIA._replace(mtu=mtu))
        return found.setting.open_mtu

    bare = jack(untagged="media", addresses=(HERE,))
    radio = aerial(1, untagged="media", leased=True)

    assert [9000, 1400, None, None] == [opened(bare), opened(bare, 1400), opened(bare, 1500), opened(bare, None)]
    assert [None, None] == [opened(bare._replace(mtu=1500)), opened(radio)]


def test_a_lease_and_an_address_in_no_subnet_have_no_netmask() -> None:
    leased = setting("wire", one(untagged="office", leased=True))
    outside = setting("wire", one(untagged="media", addresses=(ip_address("10.9.9.9"),)))

    assert [(None,), (None,)] == [leased.netmasks, outside.netmasks]


def test_addresses_of_a_port_that_names_no_network_are_set_in_those_that_hold_them() -> None:
    bare = one(addresses=(THERE, ip_address("10.9.9.9"), HERE))

    assert ["office", None, "media"] == [port.setting.network for port in every(bare, OFFICE, MEDIA)]


def test_a_port_says_whether_it_is_a_radio() -> None:
    both = {"wire": jack(untagged="media", addresses=(HERE,)), "air": aerial(1, untagged="office", leased=True)}

    assert [False, True] == [port.radio for port in ports_of(seat("cut-1", both)).values()]


@settings(max_examples=100, deadline=None)
@given(st.lists(subnets(), min_size=1, max_size=5, unique=True), addresses())
def test_the_narrowest_subnet_that_holds_an_address_is_found(nets: list[Subnet], address: Address) -> None:
    """Source: Python's ipaddress, which implements RFC 4632 and RFC 4291."""
    plan: Plan = wired(*(Network(str(number), (net,)) for number, net in enumerate(nets)))
    inside = [net for net in nets if address in net]
    near = inside[0].network_address if inside else nets[0].network_address
    for each in (address, near):
        holding = [net for net in nets if each in net]
        expected = max(holding, key=lambda net: net.prefixlen, default=None)
        found = Subnets(plan).holding(each, None)

        assert (expected and (str(nets.index(expected)), expected.prefixlen)) == found


@settings(max_examples=50, deadline=None)
@given(subnets())
def test_what_is_typed_in_reads_back_as_the_address_in_its_subnet(net: Subnet) -> None:
    """Source: Python's ipaddress, interface notation."""
    assume(net.num_addresses > 1)
    address = net.network_address + 1
    station = seat("cut-1", {"wire": Port(addresses=(address,), untagged="house")})
    (written,) = setting("wire", station, Network("house", (net,))).addresses

    assert (address, net) == (ip_interface(written).ip, ip_interface(written).network)
