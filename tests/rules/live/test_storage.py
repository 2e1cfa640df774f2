"""The storage: which ports it offers, and whether it stands still while the network is fine."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv4Interface, IPv6Address, IPv6Interface

import pytest
from deskwork import found, gaps, only, passes, places, silent

from netaudit.citation import OBSERVED
from netaudit.model.finding import Measure
from netaudit.model.machine_state import Route
from netaudit.model.observation import Observation, Offer
from netaudit.rules.live.desk import COLD, EN5, FAR, GBIT, SEEN, VAULT, with_far, with_wire
from netaudit.rules.live.sources import PRACTICE
from netaudit.rules.live.storage import STORAGE_OFFERS_SLOWER_PORT, STORAGE_STALLS

SECOND = IPv4Address("10.44.20.51")
USED = Offer(VAULT, 10 * GBIT, 1)


def offering(*offers: Offer) -> Observation:
    return SEEN._replace(offers=(USED, *offers))


def test_a_slower_port_in_the_same_subnet_warns() -> None:
    finding = only(STORAGE_OFFERS_SLOWER_PORT, offering(Offer(SECOND, GBIT, 2)))

    assert ["address 10.44.20.51", "address 10.44.20.10"] == places(finding)
    assert (
        "vault also offers 10.44.20.51 at 1 Gb/s (125 MB/s) in this seat's subnet, beside 10.44.20.10 at 10 Gb/s (1250 "
        "MB/s): a client that opens several channels may use both" == finding.message
    )
    assert (Measure(GBIT, "bit/s"), Measure(10 * GBIT, "bit/s")) == (finding.measured, finding.limit)


@pytest.mark.parametrize(("rate", "strikes"), [(10 * GBIT - 1, True), (10 * GBIT, False), (25 * GBIT, False)])
def test_only_a_slower_port_warns(rate: int, strikes: bool) -> None:
    seen = offering(Offer(SECOND, rate, 2))

    assert strikes == bool(found(STORAGE_OFFERS_SLOWER_PORT, seen))
    assert strikes != passes(STORAGE_OFFERS_SLOWER_PORT, seen)


def test_a_port_of_the_plan_is_named() -> None:
    near = with_wire(SEEN, addresses=(*EN5.addresses, IPv4Interface("192.168.44.11/24")))

    assert "offers 192.168.44.10 (vault/slow) at 1 Gb/s" in only(STORAGE_OFFERS_SLOWER_PORT, near).message


def test_a_port_of_unknown_speed_is_not_checked() -> None:
    (gap,) = gaps(STORAGE_OFFERS_SLOWER_PORT, offering(Offer(SECOND, None, 2)))

    assert ["address 10.44.20.51"] == places(gap)
    assert "How fast the port is that vault offers at 10.44.20.51 is not told" == gap.reason


@pytest.mark.parametrize(
    "offer",
    [
        Offer(IPv4Address("172.31.44.10"), GBIT, 2),
        Offer(SECOND, GBIT, 1),
        Offer(IPv6Address("fe80::51"), GBIT, 2),
    ],
)
def test_ports_elsewhere_aliases_and_made_up_addresses_are_left_alone(offer: Offer) -> None:
    six = with_wire(offering(offer), addresses=(*EN5.addresses, IPv6Interface("fe80::11/64")))

    assert silent(STORAGE_OFFERS_SLOWER_PORT, six)


def test_ports_without_numbers_are_not_one() -> None:
    seen = SEEN._replace(offers=(USED._replace(number=None), Offer(SECOND, GBIT, None)))

    assert found(STORAGE_OFFERS_SLOWER_PORT, seen)


@pytest.mark.parametrize(
    "offers", [None, (), (Offer(SECOND, GBIT, 2),), (USED._replace(rate_bit_per_s=None), Offer(SECOND, GBIT, 2))]
)
def test_without_the_speed_of_the_port_in_use_nothing_is_slower(offers: tuple[Offer, ...] | None) -> None:
    assert silent(STORAGE_OFFERS_SLOWER_PORT, SEEN._replace(offers=offers))


def test_an_interface_that_nobody_knows_has_no_subnet() -> None:
    assert silent(STORAGE_OFFERS_SLOWER_PORT, offering(Offer(SECOND, GBIT, 2))._replace(interfaces={}))


def stepping(
    longest: float, usual: float = 0.004, handshakes: tuple[float, ...] = (0.0003,), **fields: object
) -> Observation:
    timing = COLD._replace(steps_s=(usual, usual, longest, usual), handshakes_s=handshakes, **fields)
    return SEEN._replace(timings=(timing,))


def test_a_storage_that_stands_still_under_a_calm_network_warns() -> None:
    finding = only(STORAGE_STALLS, stepping(0.62))

    assert ["address 10.44.20.10"] == places(finding)
    assert (
        "vault stood still for 620 ms while reading, where a step usually takes 4 ms, and the network meanwhile answered "
        "within 300 µs" == finding.message
    )
    assert (Measure(0.62, "s"), Measure(0.25, "s")) == (finding.measured, finding.limit)
    assert PRACTICE == finding.source
    assert "a scrub, a rebuild" in finding.remedy


def test_writing_is_told_as_writing() -> None:
    assert "while writing" in only(STORAGE_STALLS, stepping(0.62, direction="write")).message


@pytest.mark.parametrize(
    ("longest", "usual", "handshake", "strikes"),
    [
        (0.25, 0.004, 0.001, True),
        (0.249, 0.004, 0.001, False),
        (0.4, 0.02, 0.001, True),
        (0.4, 0.021, 0.001, False),
        (0.5, 0.004, 0.05, True),
        (0.5, 0.004, 0.051, False),
    ],
)
def test_a_stall_is_long_stands_out_and_is_not_the_networks(
    longest: float, usual: float, handshake: float, strikes: bool
) -> None:
    seen = stepping(longest, usual, (0.0001, handshake))

    assert strikes == bool(found(STORAGE_STALLS, seen))
    assert strikes != passes(STORAGE_STALLS, seen)


def test_without_handshakes_meanwhile_it_is_not_checked() -> None:
    (gap,) = gaps(STORAGE_STALLS, stepping(0.62, handshakes=()))

    assert "One step of 620 ms stood out, and no handshake was made meanwhile" == gap.reason
    assert passes(STORAGE_STALLS, stepping(0.01, handshakes=()))


def test_one_step_stands_out_from_nothing() -> None:
    assert silent(STORAGE_STALLS, SEEN._replace(timings=(COLD._replace(steps_s=(0.9,)),)))
    assert silent(STORAGE_STALLS, SEEN._replace(timings=()))


def test_two_steps_are_enough_to_be_judged_and_a_stall_is_told_to_the_millisecond() -> None:
    assert passes(STORAGE_STALLS, SEEN._replace(timings=(COLD._replace(steps_s=(0.004, 0.9)),)))
    assert Measure(0.623, "s") == only(STORAGE_STALLS, stepping(0.62251)).measured


def test_without_an_address_in_use_the_file_is_named() -> None:
    assert ["file /mnt/media/reel-7.mxf"] == places(only(STORAGE_STALLS, stepping(0.62)._replace(addresses=())))


MUTE = with_far(SEEN._replace(timings=()), smb=None, smb_silent=True)
BARE = MUTE._replace(mount=None, client=MUTE.client._replace(dialect=None))


def test_a_file_server_that_takes_a_question_and_keeps_it_warns() -> None:
    finding = only(STORAGE_STALLS, MUTE)

    assert ["address 10.44.20.10"] == places(finding)
    assert (
        "the file server at 10.44.20.10 takes the connection and then does not answer: the network is fine, the server "
        "stands still" == finding.message
    )
    assert OBSERVED == finding.source


@pytest.mark.parametrize(
    "known",
    [
        BARE._replace(mount=MUTE.mount),
        BARE._replace(mount=MUTE.mount and MUTE.mount._replace(kind="fuse.smbnetfs")),
        BARE._replace(client=MUTE.client),
        BARE._replace(addresses=(*BARE.addresses, FAR._replace(address=SECOND))),
    ],
)
def test_that_it_is_a_file_server_is_known_by_the_mount_the_client_or_another_address(known: Observation) -> None:
    assert found(STORAGE_STALLS, known)


def test_a_service_that_may_be_anything_is_not_checked() -> None:
    for seen in (BARE, BARE._replace(mount=MUTE.mount and MUTE.mount._replace(kind="nfs4"))):
        (gap,) = gaps(STORAGE_STALLS, seen)
        assert gap.reason.startswith("The service behind 10.44.20.10 port 445 takes connections and says nothing")


def test_this_machine_itself_and_whoever_answers_are_no_matter() -> None:
    assert silent(STORAGE_STALLS, with_far(MUTE, route=Route("lo", local=True)))
    assert silent(STORAGE_STALLS, with_far(MUTE, smb_silent=False))


def test_the_desk_passes() -> None:
    assert passes(STORAGE_STALLS, SEEN)
    assert silent(STORAGE_OFFERS_SLOWER_PORT, SEEN)
