"""An observation beside what the plan expects."""

from __future__ import annotations

from ipaddress import ip_address, ip_interface

from machines import AIR, BY_WIRE, CUT_1, SLOW_VAULT, VAULT, WIRE, session

from netaudit.model.expectation import Expectation, ExpectedPort, ExpectedRoad
from netaudit.model.machine_state import Channel, ClientFacts, Interface, Route
from netaudit.model.observation import FarAddress, Knock, Observation
from netaudit.model.place import PortRef
from netaudit.model.situation import Use
from netaudit.rules.situation import address_place, interface_place, situate

OPEN, SILENT = {445: Knock("open")}, {445: Knock("silent")}
SEEN = Observation(
    "vault",
    "linux",
    "vault",
    (445,),
    addresses=(FarAddress(VAULT, "dns", BY_WIRE),),
    interfaces={"en5": WIRE, "wlan0": AIR},
)
PORT, OTHER, FAST = PortRef("cut-1", "wire"), PortRef("cut-1", "air"), PortRef("vault", "fast")


def _expected(wire: dict[str, object], air: dict[str, object] | None = None) -> Expectation:
    ports = {
        "wire": ExpectedPort(PORT, radio=False, **wire),  # type: ignore[arg-type]
        "air": ExpectedPort(OTHER, radio=True, **(air or {})),  # type: ignore[arg-type]
    }
    return Expectation("Boathouse", "cut-1", "vault", ports, {}, ExpectedRoad(PORT, FAST, routed=False))


def test_a_port_is_recognised_by_the_systems_name_else_by_hardware_address_else_by_address() -> None:
    by_name = _expected({"interface": "en5"}, {"mac": WIRE.mac, "addresses": WIRE.hosts})
    by_mac = _expected({"mac": WIRE.mac}, {"addresses": WIRE.hosts})
    by_address = _expected({"addresses": WIRE.hosts})

    for expected in (by_name, by_mac, by_address):
        assert {"en5": PORT} == dict(situate(SEEN, expected).plan_ports)


def test_what_neither_name_nor_address_tells_is_not_recognised() -> None:
    assert {} == situate(SEEN, _expected({})).plan_ports == situate(SEEN, None).plan_ports


def test_what_the_client_reports_is_believed_before_sessions_and_sessions_before_the_route() -> None:
    route = Use("en5", "route", VAULT, CUT_1)
    living = SEEN._replace(sessions=(session()._replace(interface="wlan0"),))
    told = living._replace(
        client=ClientFacts((Channel("media", "en9", CUT_1, VAULT), Channel("media", "en8", active=False)))
    )

    assert (route,) == situate(SEEN, None).uses
    assert (Use("wlan0", "session", VAULT, CUT_1),) == situate(living, None).uses
    assert (Use("en9", "client", VAULT, CUT_1),) == situate(told, None).uses


def test_a_channel_without_an_interface_goes_where_the_session_of_the_same_ends_goes_and_else_where_its_address_lives() -> (
    None
):
    channel = ClientFacts((Channel("media", None, CUT_1, VAULT),))
    living = SEEN._replace(client=channel, sessions=(session()._replace(interface="wlan0"),))

    assert ["wlan0"] == [use.interface for use in situate(living, None).uses]
    assert ["en5"] == [use.interface for use in situate(SEEN._replace(client=channel), None).uses]
    assert ["en5"] == [
        use.interface for use in situate(SEEN._replace(client=ClientFacts((Channel("media", None),))), None).uses
    ]


def test_a_session_whose_interface_is_not_told_belongs_to_the_owner_of_its_address() -> None:
    living = SEEN._replace(sessions=(session()._replace(interface=None),))

    assert [("en5", "session")] == [use[:2] for use in situate(living, None).uses]


def test_of_several_addresses_the_first_that_answers_is_routed() -> None:
    silent = FarAddress(SLOW_VAULT, "dns", Route("wlan0"), knocks=SILENT)
    answering = FarAddress(VAULT, "dns", BY_WIRE, knocks=OPEN)

    assert ["en5"] == [use.interface for use in situate(SEEN._replace(addresses=(silent, answering)), None).uses]
    assert ["wlan0"] == [use.interface for use in situate(SEEN._replace(addresses=(silent,)), None).uses]
    assert () == situate(SEEN._replace(addresses=(FarAddress(VAULT, "dns"),)), None).uses


def test_equal_channels_are_one_use() -> None:
    twice = ClientFacts((Channel("media", "en5", CUT_1, VAULT),) * 2)

    assert 1 == len(situate(SEEN._replace(client=twice), None).uses)


def test_places_are_written_by_kind_and_name() -> None:
    assert ["interface en5", "address 10.44.20.10"] == [str(interface_place("en5")), str(address_place(VAULT))]
    assert Interface("en5", addresses=(ip_interface("10.44.20.11/24"),)).hosts == (ip_address("10.44.20.11"),)
