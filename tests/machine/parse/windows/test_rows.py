"""Nothing of Windows runs here: rows are read from bytes built by hand at the offsets of the public headers, and from
the tables that another implementation of the same calls wrote.

tests/captures/windows/tables.txt is what Wine 8.0 answered to GetIfTable2, GetUnicastIpAddressTable,
GetExtendedTcpTable and IcmpSendEcho2Ex in a network namespace with two made-up ports, a program compiled with
mingw-w64 printing the octets.
"""

from __future__ import annotations

from ipaddress import ip_address, ip_interface, ip_network

import pytest
from windowsroom import (
    ON_LINK,
    calls_in,
    connection,
    echo_reply,
    interface,
    ip_settings,
    neighbour,
    own_address,
    record,
    route_row,
    seeded,
    socket_address,
    table,
)

from netaudit.errors import AnswerError
from netaudit.machine.parse.windows import rows
from netaudit.machine.parse.windows.facts import AddressFacts, Connection, Echo, IpInterface, NeighbourFacts, RouteFacts
from netaudit.model.machine_state import Endpoint

WINE = {name: octets for name, _, octets in reversed(calls_in("tables.txt"))}


def test_another_implementation_of_the_calls_is_read_as_it_was_set_up() -> None:
    found = {each.alias: each for each in rows.adapters(WINE["GetIfTable2"])}
    fast = found["Efast"]

    assert {"lo", "Efast", "Eair"} == set(found)
    assert (2, 6, True, True, True, 9000) == (fast.number, fast.kind, fast.hardware, fast.up, fast.carrier, fast.mtu)
    assert "02:00:5e:00:53:01" == fast.mac
    assert (608, 542) == (fast.counters.sent_bytes, fast.counters.received_bytes)
    assert fast.rate_bit_per_s is None
    assert found["lo"].mac is None


def test_its_addresses_come_with_their_prefixes() -> None:
    expected = {"127.0.0.1/8", "10.44.20.11/24", "192.168.44.31/24", "::1/128"}
    found = {str(each.address) for each in rows.addresses(WINE["GetUnicastIpAddressTable"])}

    assert expected <= found


def test_its_living_connection_has_both_ends_the_right_way_round() -> None:
    expected = (Connection(endpoint("10.44.20.11", 57496), endpoint("10.44.20.10", 445), None),)

    assert expected == rows.connections_4(WINE["GetExtendedTcpTable4"])
    assert () == rows.connections_6(WINE["GetExtendedTcpTable6"])


def test_its_echo_reply_and_its_silence_are_told_apart() -> None:
    replies = [octets for name, _, octets in calls_in("tables.txt") if name == "IcmpSendEcho2Ex"]
    expected = [Echo(0, ip_address("10.44.20.10")), Echo(11010, None)]

    assert expected == [rows.echo_4(octets) for octets in replies]


def endpoint(address: str, port: int) -> Endpoint:
    return Endpoint(ip_address(address), port)


def test_an_unknown_rate_is_not_the_largest_number_of_64_bits() -> None:
    row = interface(7, "Ethernet 2", TransmitLinkSpeed=2**64 - 1, ReceiveLinkSpeed=2**64 - 1)

    assert rows.adapters(table(row))[0].rate_bit_per_s is None


def test_the_slower_direction_of_a_radio_is_its_rate() -> None:
    row = interface(12, "WLAN", TransmitLinkSpeed=2_402_000_000, ReceiveLinkSpeed=2_161_300_000)

    assert 2_161_300_000 == rows.adapters(table(row))[0].rate_bit_per_s


def test_a_counter_beyond_32_bits_is_whole() -> None:
    row = interface(7, "Ethernet 2", InOctets=2**63 + 1, OutOctets=2**40)
    counters = rows.adapters(table(row))[0].counters

    assert (2**40, 2**63 + 1) == (counters.sent_bytes, counters.received_bytes)


def test_packets_to_one_and_to_many_are_added() -> None:
    row = interface(7, "Ethernet 2", InUcastPkts=5, InNUcastPkts=2, OutUcastPkts=3, OutNUcastPkts=1)
    counters = rows.adapters(table(row))[0].counters

    assert (4, 7) == (counters.sent_packets, counters.received_packets)


def test_errors_and_discards_stand_under_the_names_that_windows_shows() -> None:
    row = interface(7, "Ethernet 2", InErrors=4, InDiscards=3, OutErrors=2, OutDiscards=1)
    expected = {
        "ReceivedPacketErrors": 4,
        "ReceivedDiscardedPackets": 3,
        "OutboundPacketErrors": 2,
        "OutboundDiscardedPackets": 1,
    }

    assert expected == rows.adapters(table(row))[0].counters.errors


@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        ({"AdminStatus": 1, "MediaConnectState": 1}, (True, True)),
        ({"AdminStatus": 2, "MediaConnectState": 2}, (False, False)),
        ({"AdminStatus": 3, "MediaConnectState": 0}, (None, None)),
        ({"OperStatus": 6}, (True, False)),
    ],
)
def test_switched_on_and_connected_are_numbers_and_may_be_unknown(
    fields: dict[str, int], expected: tuple[bool | None, bool | None]
) -> None:
    found = rows.adapters(table(interface(7, "Ethernet 2", **fields)))[0]

    assert expected == (found.up, found.carrier)


def test_a_name_in_any_language_is_read_up_to_its_closing_zero() -> None:
    found = rows.adapters(
        table(interface(5, "이더넷"), interface(6, "WLAN\0junk"), interface(8, "x" * 257, Description=""))
    )

    assert ["이더넷", "WLAN", "x" * 257] == [each.alias for each in found]


def test_half_a_character_in_a_name_does_not_stop_the_reading() -> None:
    assert "\ufffd" in rows.adapters(table(interface(5, "a\ud800")))[0].alias


def test_a_filter_upon_a_card_is_marked_as_a_layer() -> None:
    found = rows.adapters(table(interface(31, "Ethernet 2-Filter-0000", InterfaceAndOperStatusFlags=2)))[0]

    card = rows.adapters(table(interface(7, "Ethernet 2", InterfaceAndOperStatusFlags=1)))[0]

    assert [(True, False), (False, True)] == [(each.layer, each.hardware) for each in (found, card)]


def test_an_adapter_is_told_with_its_description_and_whether_it_is_a_tunnel() -> None:
    card, tunnel = rows.adapters(table(interface(7, "Ethernet 2"), interface(9, "VPN", Description="", TunnelType=1)))

    assert [("Example Ethernet 2", False), (None, True)] == [
        (each.description, each.tunnelled) for each in (card, tunnel)
    ]


def test_a_route_to_a_single_host_is_as_long_as_its_address() -> None:
    octets = [route_row(7, f"10.44.20.10/{length}", ON_LINK, 256) for length in (32, 33)]
    found = [rows.route(each, socket_address("10.44.20.12")).prefix for each in octets]

    assert [ip_network("10.44.20.10/32"), None] == found


def test_a_loopback_without_limit_has_no_mtu() -> None:
    assert rows.adapters(table(interface(1, "Loopback", Mtu=2**32 - 1)))[0].mtu is None


def test_the_address_of_a_port_whose_cable_is_out_is_kept_and_an_invalid_one_is_not() -> None:
    found = rows.addresses(
        table(own_address(7, "10.44.20.12", 24, state=1), own_address(9, "169.254.99.1", 16, state=0))
    )

    assert (AddressFacts(7, ip_interface("10.44.20.12/24")),) == found


def test_a_prefix_length_that_makes_no_sense_leaves_the_address_alone() -> None:
    assert (AddressFacts(7, ip_interface("10.44.20.12/32")),) == rows.addresses(
        table(own_address(7, "10.44.20.12", 255))
    )


def test_a_neighbour_without_an_answer_is_none() -> None:
    found = rows.neighbours(
        table(
            neighbour(7, "10.44.20.10", "02:00:5e:00:53:10", state=5),
            neighbour(7, "10.44.20.98", "02:00:5e:00:53:98", state=0),
            neighbour(7, "10.44.20.99", "02:00:5e:00:53:99", state=1),
            neighbour(7, "10.44.20.97", "00:00:00:00:00:00", state=4),
            neighbour(7, "10.44.20.96", "", state=6),
        )
    )

    assert (NeighbourFacts(ip_address("10.44.20.10"), "02:00:5e:00:53:10", 7),) == found


def test_a_route_tells_its_own_metric_its_prefix_and_no_router_on_the_link() -> None:
    found = rows.route(route_row(7, "10.44.20.0/24", ON_LINK, 256), socket_address("10.44.20.12"))

    assert RouteFacts(7, ip_network("10.44.20.0/24"), None, ip_address("10.44.20.12"), 256) == found


def test_a_route_through_a_router_names_it() -> None:
    found = rows.route(route_row(12, "0.0.0.0/0", "192.168.44.1", 0), socket_address("192.168.44.32"))

    assert (ip_address("192.168.44.1"), ip_network("0.0.0.0/0")) == (found.gateway, found.prefix)


def test_an_ipv6_route_is_read_alike() -> None:
    found = rows.route(route_row(7, "fd00:44:20::/64", "::", 256), socket_address("fd00:44:20::12"))

    assert RouteFacts(7, ip_network("fd00:44:20::/64"), None, ip_address("fd00:44:20::12"), 256) == found


def test_a_link_local_address_keeps_the_interface_that_it_is_meant_on() -> None:
    living = connection(("fe80::12%7", 50124), ("fe80::10%7", 445))
    expected = (Connection(endpoint("fe80::12%7", 50124), endpoint("fe80::10%7", 445), 4),)

    assert expected == rows.connections_6(table(living, first=4))


def test_another_address_has_no_interface_though_a_row_may_number_one() -> None:
    living = connection(("fd00:44:20::12%7", 50124), ("fd00:44:20::10%7", 445))
    expected = (Connection(endpoint("fd00:44:20::12", 50124), endpoint("fd00:44:20::10", 445), 4),)

    assert expected == rows.connections_6(table(living, first=4))


def test_ipv4_in_ipv6_clothes_is_ipv4() -> None:
    living = connection(("::ffff:10.44.20.12", 50300), ("::ffff:10.44.20.10", 445))
    expected = (Connection(endpoint("10.44.20.12", 50300), endpoint("10.44.20.10", 445), 4),)

    assert expected == rows.connections_6(table(living, first=4))


def test_ports_are_in_network_order_in_the_lower_half() -> None:
    found = rows.connections_4(table(connection(("10.44.20.12", 49152), ("10.44.20.10", 2049)), first=4))

    assert (49152, 2049) == (found[0].local.port, found[0].remote.port)


@pytest.mark.parametrize("state", [1, 2, 3, 8, 11, 12, 100])
def test_only_established_connections_live(state: int) -> None:
    assert () == rows.connections_4(table(connection(("10.44.20.12", 1), ("10.44.20.10", 445), state=state), first=4))


def test_how_ip_uses_an_interface_is_read() -> None:
    assert IpInterface(25, 1500, weak=True) == rows.ip_interface(ip_settings(12, 25, 1500, weak=1))


def test_what_the_system_has_learnt_of_a_way_is_read() -> None:
    assert 1400 == rows.path_mtu(record("MIB_IPPATH_ROW", PathMtu=1400))


def test_pairs_of_the_stack_are_read() -> None:
    pair = record("MIB_IFSTACK_ROW", HigherLayerInterfaceIndex=15, LowerLayerInterfaceIndex=7)

    assert ((15, 7),) == rows.stack(table(pair, first=4))


@pytest.mark.parametrize("octets", [b"", b"\x01", table(interface(7, "a"))[:-1], b"\xff\xff\xff\xff" + bytes(2000)])
def test_a_table_that_is_shorter_than_it_says_raises_an_answer_error(octets: bytes) -> None:
    with pytest.raises(AnswerError):
        rows.adapters(octets)


READERS = {
    "GetIfTable2": rows.adapters,
    "GetUnicastIpAddressTable": rows.addresses,
    "GetExtendedTcpTable4": rows.connections_4,
    "GetExtendedTcpTable6": rows.connections_6,
    "IcmpSendEcho2Ex": rows.echo_4,
}


@pytest.mark.parametrize("name", READERS)
def test_spoilt_tables_raise_nothing_but_an_answer_error(name: str) -> None:
    chance = seeded("20261125")
    for _ in range(300):
        octets = bytearray(WINE[name])
        for _ in range(chance.randint(1, 8)):
            octets[chance.randrange(len(octets))] = chance.randrange(256)
        cut = bytes(octets[: chance.randint(0, len(octets))]) if chance.random() < 0.3 else bytes(octets)
        for spoilt in (cut, cut + cut):
            try:
                READERS[name](spoilt)
            except AnswerError:
                continue


@pytest.mark.parametrize("read", [rows.ip_interface, rows.path_mtu, rows.echo_4, rows.echo_6])
def test_a_row_that_is_cut_short_raises_an_answer_error(read: object) -> None:
    with pytest.raises(AnswerError):
        read(bytes(10))  # type: ignore[operator]


def test_noise_in_place_of_a_route_raises_nothing_but_an_answer_error() -> None:
    chance = seeded("2026")
    for _ in range(300):
        try:
            rows.route(chance.randbytes(104), chance.randbytes(28))
            rows.neighbours(table(chance.randbytes(88)))
            rows.addresses(table(chance.randbytes(80)))
        except AnswerError:
            continue


def test_the_reply_to_an_echo_request_names_who_answered() -> None:
    assert Echo(11013, ip_address("192.168.44.1")) == rows.echo_4(echo_reply(11013, "192.168.44.1"))
