"""Replies that are missing on the port that asks: judged by what is missing there, never by what moves elsewhere."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Interface, IPv6Interface

import pytest
from deskwork import found, gaps, only, passes, places, silent

from netaudit.model.machine_state import Counters, Interface, Route
from netaudit.model.observation import Growth, Observation
from netaudit.rules.live.desk import (
    BY_WIRE,
    ENDS,
    FAR,
    MOVED,
    PLAYING,
    SEEN,
    SLOW_FAR,
    SLOW_VAULT,
    VAULT,
    WLAN0,
    with_far,
    with_growth,
    with_interface,
    with_session_count,
    with_wire,
)
from netaudit.rules.live.replies import REPLIES_ON_OTHER_PORT

DUE = 180_000_000
IDLE = SEEN._replace(sessions=(), moved=MOVED._replace(sessions={}))


def streaming(on_wire: int | None, on_air: int | None) -> Observation:
    """A session that received 180 MB, and what two interfaces received meanwhile."""
    return with_growth("wlan0", with_growth("en5", received_bytes=on_wire), received_bytes=on_air)


def idle(on_wire: int | None, on_air: int | None, handshakes: int = 20) -> Observation:
    """A row of handshakes, and the packets that two interfaces received meanwhile."""
    moved = MOVED._replace(sessions={}, handshakes={VAULT: handshakes})
    seen = with_growth("en5", IDLE._replace(moved=moved), received_packets=on_wire)
    seen = with_growth("en6", seen, received_packets=0)
    return with_growth("wlan0", seen, received_packets=on_air)


def test_bytes_that_come_in_elsewhere_fail_with_all_three_amounts() -> None:
    finding = only(REPLIES_ON_OTHER_PORT, streaming(40_000, 186_000_000))

    assert ["interface en5", "interface wlan0"] == places(finding)
    assert (
        "what vault sends back does not come in by en5 (cut-1/wire): its sessions received 180 MB, 40 kB came in there, and "
        "186 MB by wlan0" == finding.message
    )
    assert finding.remedy.startswith(
        "The storage holds the hardware address of wlan0 for this machine. Eject the share"
    )


@pytest.mark.parametrize(("came", "strikes"), [(DUE // 4 - 1, True), (DUE // 4, False), (DUE * 2, False)])
def test_a_driver_that_counts_once_a_second_may_lag_behind_by_three_quarters(came: int, strikes: bool) -> None:
    assert strikes == bool(found(REPLIES_ON_OTHER_PORT, streaming(came, DUE)))


@pytest.mark.parametrize(("elsewhere", "strikes"), [(DUE - 40_000, True), (DUE - 40_001, False)])
def test_another_port_must_have_received_all_that_is_missing(elsewhere: int, strikes: bool) -> None:
    assert strikes == bool(found(REPLIES_ON_OTHER_PORT, streaming(40_000, elsewhere)))


def test_traffic_elsewhere_alone_raises_nothing() -> None:
    assert passes(REPLIES_ON_OTHER_PORT, with_growth("wlan0", received_bytes=10**12, received_packets=10**9))


@pytest.mark.parametrize(("due", "judged"), [(100_000, True), (99_999, False)])
def test_a_few_bytes_prove_nothing(due: int, judged: bool) -> None:
    seen = with_session_count(streaming(0, DUE)._replace(timings=()), received_bytes=due)
    assert seen.moved is not None
    seen = seen._replace(moved=seen.moved._replace(handshakes={}))

    assert judged == bool(found(REPLIES_ON_OTHER_PORT, seen))
    assert judged != silent(REPLIES_ON_OTHER_PORT, seen)


def test_sessions_of_one_interface_are_added() -> None:
    assert SEEN.moved is not None
    second = SEEN.sessions[0]._replace(local=SEEN.sessions[0].local._replace(port=7))
    counts = {
        ENDS: PLAYING._replace(received_bytes=60_000),
        (str(second.local), ENDS[1]): PLAYING._replace(received_bytes=60_000),
    }
    seen = streaming(29_000, DUE)
    assert seen.moved is not None
    seen = seen._replace(sessions=(*SEEN.sessions, second), moved=seen.moved._replace(sessions=counts))

    assert "its sessions received 120 kB, 29 kB came in there" in only(REPLIES_ON_OTHER_PORT, seen).message


def test_a_driver_that_does_not_count_is_not_checked() -> None:
    (gap,) = gaps(REPLIES_ON_OTHER_PORT, streaming(None, DUE))

    assert ["interface en5"] == places(gap)
    assert "The driver of en5 does not count what it receives" == gap.reason


def test_a_driver_that_never_counted_anything_received_is_not_believed() -> None:
    counters = Counters(sent_bytes=9_000_000, received_bytes=0)

    assert gaps(REPLIES_ON_OTHER_PORT, with_wire(streaming(0, DUE), counters=counters))


@pytest.mark.parametrize(
    ("sent", "believed"), [(0, True), (None, True), (6_000, True), (999_999, True), (1_000_000, False)]
)
def test_a_wire_that_sent_little_and_heard_nothing_was_just_plugged_in(sent: int | None, believed: bool) -> None:
    seen = with_wire(streaming(0, DUE), counters=Counters(sent_bytes=sent, received_bytes=0))

    assert believed == bool(found(REPLIES_ON_OTHER_PORT, seen))
    assert believed != bool(gaps(REPLIES_ON_OTHER_PORT, seen))


def test_an_interface_without_counters_is_not_checked() -> None:
    moved = MOVED._replace(interfaces={"wlan0": Growth(Counters(received_bytes=DUE))})

    assert gaps(REPLIES_ON_OTHER_PORT, SEEN._replace(moved=moved))


def test_others_that_do_not_count_take_nothing() -> None:
    assert passes(REPLIES_ON_OTHER_PORT, streaming(40_000, None))


def test_what_stands_on_the_same_cable_is_not_elsewhere() -> None:
    vlan = Interface("en5.20", parent="en5")
    seen = with_interface(vlan, streaming(40_000, 0))
    assert seen.moved is not None
    growths = {**seen.moved.interfaces, "en5.20": Growth(Counters(received_bytes=DUE))}

    assert passes(REPLIES_ON_OTHER_PORT, seen._replace(moved=seen.moved._replace(interfaces=growths)))


def test_ports_of_one_subnet_are_to_be_parted() -> None:
    air = WLAN0._replace(addresses=(IPv4Interface("10.44.20.12/24"),))

    assert only(REPLIES_ON_OTHER_PORT, with_interface(air, streaming(0, DUE))).remedy.startswith(
        "Take wlan0 out of the subnet that it shares with en5: the storage believes that this machine's address is at "
        "wlan0. Eject the share"
    )


def test_of_two_ports_in_one_subnet_the_planned_one_stays() -> None:
    """The traffic leaves by Wi-Fi and its answers come in by the planned cable: the cable is right."""
    own = IPv4Address("10.44.20.12")
    seen = with_interface(WLAN0._replace(addresses=(IPv4Interface(f"{own}/24"),)), idle(25, 3))
    seen = with_far(seen, route=Route("wlan0", source=own, prefix=BY_WIRE.prefix))

    assert only(REPLIES_ON_OTHER_PORT, seen).remedy.startswith("Take wlan0 out of the subnet that it shares with en5:")


def test_the_subnet_that_every_ipv6_port_gives_itself_is_not_shared() -> None:
    made_up = IPv6Interface("fe80::1/64")
    near = with_wire(streaming(0, DUE), addresses=(IPv4Interface("10.44.20.11/24"), made_up))
    seen = with_interface(WLAN0._replace(addresses=(*WLAN0.addresses, made_up)), near)

    assert only(REPLIES_ON_OTHER_PORT, seen).remedy.startswith("The storage holds the hardware address of wlan0")


@pytest.mark.parametrize(("came", "strikes"), [(4, True), (5, False), (300, False)])
def test_without_a_busy_session_a_quarter_of_the_handshakes_must_have_brought_their_packet(
    came: int, strikes: bool
) -> None:
    assert strikes == bool(found(REPLIES_ON_OTHER_PORT, idle(came, 400)))


def test_missing_packets_are_told_as_packets() -> None:
    assert (
        "20 handshakes were answered, 3 packets came in there, and 25 packets by wlan0"
        in only(REPLIES_ON_OTHER_PORT, idle(3, 25)).message
    )


@pytest.mark.parametrize(("elsewhere", "strikes"), [(17, True), (16, False)])
def test_missing_packets_must_have_come_in_elsewhere(elsewhere: int, strikes: bool) -> None:
    assert strikes == bool(found(REPLIES_ON_OTHER_PORT, idle(3, elsewhere)))


@pytest.mark.parametrize(("handshakes", "judged"), [(10, True), (9, False)])
def test_a_few_handshakes_prove_nothing(handshakes: int, judged: bool) -> None:
    assert judged != silent(REPLIES_ON_OTHER_PORT, idle(0, 400, handshakes))


def by_two_ports(on_wire: int, on_air: int, slow: int) -> Observation:
    """A name with an address behind either port: 20 handshakes with the fast one and some with the slow one."""
    seen = idle(on_wire, on_air)._replace(addresses=(FAR, SLOW_FAR))
    assert seen.moved is not None
    return seen._replace(moved=seen.moved._replace(handshakes={VAULT: 20, SLOW_VAULT: slow}))


def test_each_port_is_judged_by_the_handshakes_with_the_addresses_behind_it() -> None:
    finding = only(REPLIES_ON_OTHER_PORT, by_two_ports(3, 25, slow=2))

    assert ["interface en5", "interface wlan0"] == places(finding)
    assert "20 handshakes were answered, 3 packets came in there, and 23 packets by wlan0" in finding.message


@pytest.mark.parametrize(("on_air", "strikes"), [(32, True), (31, False)])
def test_what_is_due_on_another_port_cannot_be_what_is_missing_here(on_air: int, strikes: bool) -> None:
    assert strikes == bool(found(REPLIES_ON_OTHER_PORT, by_two_ports(3, on_air, slow=15)))


def test_handshakes_with_an_address_of_which_no_way_is_known_prove_nothing() -> None:
    seen = by_two_ports(20, 0, slow=20)

    assert passes(REPLIES_ON_OTHER_PORT, seen._replace(addresses=(FAR, SLOW_FAR._replace(route=None))))
    assert passes(REPLIES_ON_OTHER_PORT, seen._replace(addresses=(FAR,)))


def test_handshakes_with_this_machine_itself_prove_nothing() -> None:
    assert silent(REPLIES_ON_OTHER_PORT, with_far(idle(0, 400), route=Route("lo", local=True)))


def test_a_session_whose_interface_is_not_told_is_not_judged_by_bytes() -> None:
    seen = streaming(0, DUE)
    assert seen.moved is not None
    seen = seen._replace(sessions=(SEEN.sessions[0]._replace(interface=None),))

    assert not any("bytes" in finding.message for finding in found(REPLIES_ON_OTHER_PORT, seen))
    assert passes(REPLIES_ON_OTHER_PORT, seen)


def test_without_an_interval_there_is_nothing_to_judge() -> None:
    assert silent(REPLIES_ON_OTHER_PORT, SEEN._replace(moved=None))
