"""Settings of a card: address with prefix, largest packet, and one router at most."""

from __future__ import annotations

from ipaddress import ip_address, ip_interface, ip_network

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import addresses, subnets
from wiring import aerial, jack, network, seat, wired

from netaudit.model.moving import Setting
from netaudit.model.plan import Address, Bond, Network, Plan, Port, Station, Subnet
from netaudit.ordering.card_settings import CardPort, Subnets, card_ports

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

    assert found[1:] == ("en5", "media", ("10.44.20.11/24",), 9000, None)


def test_an_address_in_no_subnet_is_written_bare() -> None:
    assert setting("wire", one(untagged="media", addresses=(ip_address("10.9.9.9"),))).addresses == ("10.9.9.9",)


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
    assert found["lag"].setting[1:] == (None, "media", ("10.44.20.11/24",), 9000, None)


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


def test_a_port_for_the_machines_care_has_a_router_of_its_own() -> None:
    both = {
        "house": jack(untagged="office", addresses=(THERE,)),
        "care": jack(untagged="office", addresses=(ip_address("192.168.44.12"),), purpose="management"),
    }

    assert [port.setting.gateway for port in ports_of(seat("cut-1", both)).values()] == [ROUTER, ROUTER]


def test_a_router_of_the_other_kind_of_address_is_none() -> None:
    dual = Network("office", (ip_network("fd00::/64"), ip_network("192.168.44.0/24")), gateway=ip_address("fd00::1"))

    assert setting("wire", one(untagged="office", addresses=(THERE,)), dual).gateway is None


def test_a_port_with_tagged_networks_is_in_that_which_holds_its_address() -> None:
    found = ports_of(one(tagged=("office", "media"), addresses=(HERE,)))["wire"]

    assert (found.setting.network, found.tagged) == ("media", True)


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
