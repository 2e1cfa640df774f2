"""The desk on which the examples stand: whoever changes it leaves the rest alone."""

from __future__ import annotations

from netaudit.rules.live.desk import (
    EN5,
    ENDS,
    MOVED,
    PLAYING,
    SEEN,
    VAULT,
    first_look,
    with_far,
    with_growth,
    with_interface,
    with_session_count,
    with_wire,
)


def test_the_wire_can_be_in_another_state() -> None:
    seen = with_wire(mtu=1500)

    assert EN5._replace(mtu=1500) == seen.interfaces["en5"]
    assert SEEN.interfaces["wlan0"] == seen.interfaces["wlan0"]
    assert 9000 == SEEN.interfaces["en5"].mtu


def test_an_interface_can_be_added() -> None:
    assert [*SEEN.interfaces, "en9"] == list(with_interface(EN5._replace(name="en9")).interfaces)


def test_only_the_fast_address_of_the_storage_changes() -> None:
    seen = with_far(
        SEEN._replace(addresses=(*SEEN.addresses, SEEN.addresses[0]._replace(address=EN5.hosts[0]))), smb=None
    )

    assert [VAULT, EN5.hosts[0]] == [far.address for far in seen.addresses]
    assert [True, False] == [far.smb is None for far in seen.addresses]


def test_an_interface_can_have_counted_something_else() -> None:
    seen = with_growth("wlan0", carrier_changes=2, received_bytes=5)

    assert seen.moved is not None
    assert (5, 2) == (
        seen.moved.interfaces["wlan0"].counters.received_bytes,
        seen.moved.interfaces["wlan0"].carrier_changes,
    )
    assert MOVED.interfaces["en5"] == seen.moved.interfaces["en5"]


def test_a_session_can_have_done_something_else() -> None:
    seen = with_session_count(retransmitted=7)

    assert seen.moved is not None
    assert {ENDS: PLAYING._replace(retransmitted=7)} == seen.moved.sessions


def test_a_first_look_knows_nothing_of_the_storage_but_its_addresses_and_routes() -> None:
    seen = first_look(SEEN)

    assert not seen.complete
    assert (None, (), None) == (seen.moved, seen.timings, seen.offers)
    assert [(VAULT, {}, None)] == [(far.address, far.knocks, far.smb) for far in seen.addresses]
    assert SEEN.sessions == seen.sessions
