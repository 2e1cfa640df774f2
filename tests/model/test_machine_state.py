"""What a machine says of itself, as values."""

from __future__ import annotations

from ipaddress import ip_address, ip_interface

import pytest

from netaudit.model.machine_state import Counters, Endpoint, Interface, Session, SessionCount


def test_an_interface_of_which_nothing_is_told_knows_nothing() -> None:
    bare = Interface("en5")

    assert {None} == {bare.carrier, bare.up, bare.rate_bit_per_s, bare.duplex, bare.mtu, bare.supported, bare.bus}
    assert ("unknown", Counters(None, None, None, None, {})) == (bare.medium, bare.counters)


def test_an_interface_gives_its_addresses_without_their_prefixes() -> None:
    interface = Interface("en5", addresses=(ip_interface("10.44.20.11/24"), ip_interface("fd44::11/64")))

    assert (ip_address("10.44.20.11"), ip_address("fd44::11")) == interface.hosts


@pytest.mark.parametrize(("address", "text"), [("10.44.20.10", "10.44.20.10:445"), ("fd44::10", "[fd44::10]:445")])
def test_an_end_is_written_as_an_address_with_its_port(address: str, text: str) -> None:
    """RFC 3986, section 3.2.2: an address of version 6 stands in brackets."""
    assert text == str(Endpoint(ip_address(address), 445))


def test_the_service_of_a_session_is_the_far_port() -> None:
    session = Session(Endpoint(ip_address("10.44.20.11"), 50_001), Endpoint(ip_address("10.44.20.10"), 2049))

    assert 2049 == session.service


def test_counters_tell_what_went_each_way() -> None:
    for counted in (Counters(sent_bytes=3, received_bytes=7), SessionCount(sent_bytes=3, received_bytes=7)):
        assert (7, 3) == (counted.towards("in"), counted.towards("out"))
    for unknown in (Counters(), SessionCount()):
        assert (None, None) == (unknown.towards("in"), unknown.towards("out"))
