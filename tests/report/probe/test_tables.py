"""What a probe saw as tables."""

from __future__ import annotations

from ipaddress import IPv4Interface, ip_address

import pytest
from observations import (
    BY_AIR,
    EN5,
    EXPECTED,
    FAR,
    VAULT,
    WLAN0,
    first_look,
    interfaces,
    observed,
    port,
    situated,
)

from netaudit.model.diagnosis import Diagnosis
from netaudit.model.machine_state import AdapterBus, ClientFacts, Interface
from netaudit.model.observation import FarAddress, Knock, SwitchPort
from netaudit.report.probe import tables
from netaudit.report.probe.tables import Row, Table


def finer(table: Table, first: str) -> tuple[str, ...]:
    (row,) = [row for row in table.rows if row.cells[0] == first]
    return row.finer


def test_every_row_has_a_cell_for_each_column(troubled: Diagnosis) -> None:
    for table in (tables.addresses(troubled.situation), tables.links(troubled.situation)):
        assert {len(table.head)} == {len(row.cells) for row in table.rows}


def test_an_address_is_told_with_the_way_there_and_what_answers() -> None:
    table = tables.addresses(situated())

    assert table.rows == (
        Row(
            ("10.44.20.10", "en5", "yes", "200 µs", "to 9000", "SMB open, NFS refused"),
            (
                "planned", "from the name server", "own address 10.44.20.11", "no router", "metric 100",
                "hardware address 02:00:00:44:20:10", "4 handshakes of 180 µs to 310 µs",
            ),
        ),
    )  # fmt: skip


def test_what_nobody_asked_yet_is_not_known_and_never_zero() -> None:
    (row,) = tables.addresses(situated(first_look())).rows

    assert ("not known",) * 3 == row.cells[3:]


def test_an_address_whose_way_is_not_told_is_told_apart_from_one_without_a_way() -> None:
    silent = FarAddress(VAULT, "literal")
    lost = silent._replace(no_route="Network is unreachable")
    table = tables.addresses(situated(first_look(addresses=(silent, lost)), None))

    assert ["not known", "nowhere"] == [row.cells[1] for row in table.rows]
    assert "Network is unreachable" in table.rows[1].finer


def test_routers_are_told_where_they_are_more_than_the_gateway() -> None:
    gateway, further = ip_address("192.168.44.1"), ip_address("198.51.100.1")
    one = FAR._replace(route=BY_AIR, routers=(gateway,))
    two = one._replace(routers=(gateway, further))

    assert "router 192.168.44.1" in finer(tables.addresses(situated(observed(addresses=(one,)))), "10.44.20.10")
    assert "through 192.168.44.1 and 198.51.100.1" in finer(
        tables.addresses(situated(observed(addresses=(two,)))), "10.44.20.10"
    )


def test_the_round_trip_is_the_median_of_all_handshakes() -> None:
    knocks = {445: Knock("open", (0.001, 0.003)), 2049: Knock("refused", (0.009,)), 22: Knock("silent")}

    assert 0.003 == tables.round_trip_s(FAR._replace(knocks=knocks))
    assert None is tables.round_trip_s(FAR._replace(knocks={22: Knock("silent")}))


@pytest.mark.parametrize(
    ("state", "cells"),
    [
        (EN5, ("en5", "cut-1/wire", "yes", "wired", "up", "10 Gb/s (1250 MB/s)")),
        (EN5._replace(carrier=False, rate_bit_per_s=None), ("en5", "cut-1/wire", "yes", "wired", "none", "not known")),
        (EN5._replace(up=False, carrier=None), ("en5", "cut-1/wire", "yes", "wired", "off", "10 Gb/s (1250 MB/s)")),
        (EN5._replace(carrier=None), ("en5", "cut-1/wire", "yes", "wired", "not known", "10 Gb/s (1250 MB/s)")),
        (EN5._replace(medium="unknown"), ("en5", "cut-1/wire", "yes", "not known", "up", "10 Gb/s (1250 MB/s)")),
    ],
)
def test_a_port_is_told_with_its_link_and_its_rate(state: Interface, cells: tuple[str, ...]) -> None:
    assert cells == tables.links(situated(observed(interfaces=interfaces(state)))).rows[0].cells


def test_what_is_in_use_in_the_plan_or_has_an_address_matters_and_loopback_does_not() -> None:
    spare = port("en7", addresses=(IPv4Interface("198.51.100.7/24"),))
    seen = observed(interfaces={"en8": port("en8"), "en7": spare, **interfaces(WLAN0._replace(addresses=()))})

    assert ["en5", "wlan0", "en7"] == [state.name for state in tables.interfaces_that_matter(situated(seen))]


def test_a_port_that_is_in_no_plan_is_marked_as_such() -> None:
    assert ["-", "-"] == [row.cells[1] for row in tables.links(situated(expected=None)).rows]


def test_the_finer_facts_of_a_port_are_told_by_name_and_unknown_ones_are_left_out() -> None:
    bus = AdapterBus("usb 480M", 480_000_000, "usb 10G")
    seen = observed(interfaces=interfaces(EN5._replace(bus=bus, carrier_changes=2)))
    told = finer(tables.links(situated(seen)), "en5")
    bare = finer(tables.links(situated(observed(interfaces=interfaces(Interface("en5"))))), "en5")

    assert {"Desk 10G", "planned 10 Gb/s (1250 MB/s)", "bus usb 480M, at best usb 10G", "link changed twice"} <= {*told}
    assert "far end offers 10 Gb/s (1250 MB/s) and 1 Gb/s (125 MB/s)" in told
    assert ("planned 10 Gb/s (1250 MB/s)", "errors not known") == bare


def test_a_medium_by_the_plan_is_told_beside_the_systems_own() -> None:
    seen = observed(interfaces=interfaces(WLAN0._replace(medium="virtual")))

    assert "Wi-Fi by the plan, virtual by the system" in finer(tables.links(situated(seen)), "wlan0")


def test_what_stands_on_a_radio_is_wifi_and_nobody_says_that_the_plan_made_it_so() -> None:
    seen = observed(interfaces=interfaces(port("wlan0.20", parent="wlan0", addresses=WLAN0.addresses)))
    (row,) = [row for row in tables.links(situated(seen)).rows if row.cells[0] == "wlan0.20"]

    assert "Wi-Fi" == row.cells[3]
    assert not [fact for fact in row.finer if "by the plan" in fact]


def test_error_counters_are_told_by_their_names_and_zeros_are_left_out() -> None:
    none = EN5._replace(counters=EN5.counters._replace(errors={"rx_crc_errors": 0}))

    assert "errors so far: rx_dropped 12" in finer(tables.links(situated()), "en5")
    assert "no errors" in finer(tables.links(situated(observed(interfaces=interfaces(none)))), "en5")


def test_how_often_a_link_changed_is_told_in_words() -> None:
    assert ["link never changed", "link changed once", "link changed twice", "link changed 3 times"] == [
        tables.link_changes(count) for count in range(4)
    ]


def test_a_switch_port_is_told_where_one_was_heard_of() -> None:
    quiet = SwitchPort("en5", None, None)

    assert (
        Row(("en5 is plugged into core, port 1",), ("the plan says core/1", "largest frame 9216")),
    ) == tables.switch_port(situated()).rows
    assert (Row(("en5 is plugged into a switch, port not known",)),) == tables.switch_port(
        situated(observed(switch_port=quiet), None)
    ).rows
    assert () == tables.switch_port(situated(first_look())).rows


def test_what_the_storage_says_is_told_and_what_it_does_not_say_is_left_out(troubled: Diagnosis) -> None:
    rows = dict(row.cells for row in tables.storage(troubled.situation).rows)

    assert ["yes", "no", "no"] == [rows[name] for name in ("session is signed", "signing demanded", "encryption")]
    assert "192.168.44.10, rate not known" == rows["offers"]
    assert ["protocol", "signing demanded", "the server calls itself", "network managed by", "offers"] == [
        row.cells[0] for row in tables.storage(situated()).rows
    ]
    assert () == tables.storage(situated(first_look())).rows


@pytest.mark.parametrize(("dialect", "told"), [("3.1.1", "SMB 3.1.1"), ("NFS 4.2", "NFS 4.2")])
def test_a_dialect_is_told_with_its_protocol_once(dialect: str, told: str) -> None:
    rows = tables.storage(situated(observed(client=ClientFacts(dialect=dialect)))).rows

    assert told == dict(row.cells for row in rows)["protocol"]


@pytest.mark.parametrize(("trips_s", "told"), [((0.0002,), False), ((0.0002, 0.0004), True)])
def test_from_two_handshakes_on_their_spread_is_told(trips_s: tuple[float, ...], told: bool) -> None:
    far = FAR._replace(knocks={445: Knock("open", trips_s)})
    facts = finer(tables.addresses(situated(observed(addresses=(far,)))), "10.44.20.10")

    assert told is ("2 handshakes of 200 µs to 400 µs" in facts)


def test_a_storage_without_a_planned_address_has_none_marked() -> None:
    assert "planned" not in finer(tables.addresses(situated(expected=EXPECTED._replace(road=None))), "10.44.20.10")


@pytest.mark.parametrize(("lost", "told"), [(1, "1 handshake lost"), (3, "3 handshakes lost")])
def test_handshakes_that_were_lost_are_counted(lost: int, told: str) -> None:
    far = FAR._replace(knocks={445: Knock("open", (0.0002,), lost)})
    facts = finer(tables.addresses(situated(observed(addresses=(far,)))), "10.44.20.10")

    assert told == facts[-1]
    assert not [fact for fact in facts if "handshakes of" in fact]
