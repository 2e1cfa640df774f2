"""The chain: what it should carry for one reader, and the narrowest thing in it."""

from __future__ import annotations

from ipaddress import IPv4Address

import pytest
from deskwork import planned, planned_port, situation

from netaudit.model.expectation import Expectation
from netaudit.model.machine_state import AdapterBus, Interface
from netaudit.model.observation import Observation, Offer
from netaudit.rules.live.chain import Chain, chain_of
from netaudit.rules.live.desk import (
    BY_WIRE,
    EXPECTED,
    GBIT,
    LARGE_LOST,
    OLD_SESSION,
    OPEN,
    SEEN,
    SESSION,
    SLOW_FAR,
    SLOW_VAULT,
    SMALL_PASSES,
    VAULT,
    with_far,
    with_interface,
    with_wire,
)

PROMISED = 9_900_420_447
"""TCP over 10 Gb/s at 9000 octets: 8948 of 9038 octets (RFC 9293, 7323; IEEE 802.3) [bit/s]."""
ALONE = SEEN._replace(offers=None)


def chain(seen: Observation, expected: Expectation | None = EXPECTED) -> Chain:
    found = chain_of(situation(seen, expected))
    assert found is not None
    return found


def test_the_plan_promises_its_road() -> None:
    assert Chain(PROMISED, "link core/9 - vault/fast", PROMISED) == chain(SEEN)


def test_slow_disks_narrow_the_chain_and_not_the_network() -> None:
    found = chain(SEEN, planned(goodput_bit_per_s=3_000_000_000))

    assert Chain(3_000_000_000, "link core/9 - vault/fast", PROMISED) == found


def test_a_promise_of_the_network_alone_is_enough() -> None:
    assert PROMISED == chain(SEEN, planned(goodput_bit_per_s=None)).rate_bit_per_s


def test_a_road_whose_narrowest_thing_is_not_named_is_the_planned_road() -> None:
    assert "the planned road" == chain(SEEN, planned(limited_by=None)).by


@pytest.mark.parametrize(
    ("change", "rate", "by"),
    [
        ({}, PROMISED, "en5 at 10 Gb/s (1250 MB/s)"),
        ({"mtu": 1500}, 9_414_824_447, "en5 at 10 Gb/s (1250 MB/s)"),
        ({"rate_bit_per_s": GBIT, "mtu": 1500}, 941_482_445, "en5 at 1 Gb/s (125 MB/s)"),
        ({"bus": AdapterBus("usb 5G")}, 4_000_000_000, "usb 5G behind en5"),
        ({"bus": AdapterBus("firewire 800")}, PROMISED, "en5 at 10 Gb/s (1250 MB/s)"),
        ({"bus": None}, PROMISED, "en5 at 10 Gb/s (1250 MB/s)"),
    ],
)
def test_without_a_plan_the_link_and_the_bus_bound_it(change: dict[str, object], rate: int, by: str) -> None:
    """1448 of 1538 octets at 1500, 8948 of 9038 at 9000."""
    assert Chain(rate, by, rate) == chain(with_wire(ALONE, **change), None)


SMALL = 9_414_824_447
"""The same at 1500 octets: 1448 of 1538 octets [bit/s]."""


@pytest.mark.parametrize(
    "small",
    [
        with_far(knocks={445: OPEN._replace(mss=1448)}),
        SEEN._replace(sessions=(SESSION._replace(mss=1448),)),
        SEEN._replace(sessions=(SESSION._replace(path_mtu=1500),)),
        with_far(route=BY_WIRE._replace(mtu=1500)),
        with_far(frames=(SMALL_PASSES, LARGE_LOST)),
        with_wire(mtu=1500),
    ],
)
def test_packets_smaller_than_planned_carry_less_whoever_keeps_them_small(small: Observation) -> None:
    """A desk set to 9000 and a storage back at 1500: 9.41 Gb/s, not the 9.9 of large frames."""
    at = "" if small.interfaces["en5"].mtu == 1500 else " in packets of 1500 octets"

    assert SMALL == chain(small).rate_bit_per_s
    assert (SMALL, f"en5 at 10 Gb/s (1250 MB/s){at}") == chain(small._replace(offers=None), None)[:2]


def test_the_planned_road_itself_carries_less_in_small_packets() -> None:
    """Where the own driver makes its rate up only the plan promises anything: 2.5 Gb/s, 1448 of 1538 octets."""
    made_up = with_wire(with_far(ALONE, knocks={445: OPEN._replace(mss=1448)}), made_up_rate=True)
    narrow = planned(promised_bit_per_s=2_500_000_000, network_bit_per_s=2_475_105_112, goodput_bit_per_s=2_475_105_112)

    assert (2_353_706_112, "link core/9 - vault/fast in packets of 1500 octets") == chain(made_up, narrow)[:2]
    assert PROMISED == chain(made_up, planned(promised_bit_per_s=None)).rate_bit_per_s
    by_bus = planned(network_bit_per_s=GBIT, goodput_bit_per_s=GBIT)
    assert Chain(GBIT, "link core/9 - vault/fast", GBIT) == chain(made_up, by_bus)


def test_a_link_below_its_plan_bounds_the_planned_road_too() -> None:
    found = chain(with_wire(ALONE, rate_bit_per_s=GBIT))

    assert (990_042_045, "en5 at 1 Gb/s (125 MB/s)") == (found.rate_bit_per_s, found.by)


def test_the_storages_own_port_bounds_it() -> None:
    seen = SEEN._replace(offers=(Offer(VAULT, GBIT, 1),))

    assert Chain(990_042_045, "the storage's port 10.44.20.10 at 1 Gb/s (125 MB/s)", 990_042_045) == chain(seen)
    small = with_wire(seen, mtu=1500)
    assert 941_482_445 == chain(small, None).rate_bit_per_s


@pytest.mark.parametrize("offer", [Offer(VAULT, None, 1), Offer(SESSION.local.address, GBIT, 1)])  # type: ignore[arg-type]
def test_offers_without_a_rate_or_of_other_addresses_bound_nothing(offer: Offer) -> None:
    assert PROMISED == chain(SEEN._replace(offers=(offer,)), None).rate_bit_per_s


def test_a_made_up_rate_bounds_nothing() -> None:
    made_up = with_wire(SEEN, made_up_rate=True, rate_bit_per_s=GBIT)

    assert PROMISED == chain(made_up).rate_bit_per_s
    assert chain_of(situation(made_up, None)) is None


def test_another_road_than_the_planned_one_has_no_promise() -> None:
    seen = SEEN._replace(sessions=(SESSION._replace(interface="en6"),), moved=None)

    assert "en6 at 1 Gb/s (125 MB/s)" == chain(seen).by
    faster = with_interface(SEEN.interfaces["en6"]._replace(rate_bit_per_s=25 * GBIT), seen._replace(offers=None))
    assert "en6 at 25 Gb/s (3125 MB/s)" == chain(faster).by
    assert chain_of(situation(seen._replace(interfaces={}))) is None


def test_traffic_to_an_address_of_which_nothing_was_learnt_is_on_the_planned_road() -> None:
    assert "link core/9 - vault/fast" == chain(SEEN._replace(addresses=())).by


def test_one_planned_address_on_the_port_in_use_keeps_the_promise() -> None:
    second, used = IPv4Address("10.44.20.12"), IPv4Address("10.44.20.13")
    fast = EXPECTED.storage_ports["fast"]._replace(addresses=(VAULT, second))
    expected = EXPECTED._replace(storage_ports={**EXPECTED.storage_ports, "fast": fast})
    session = SESSION._replace(remote=SESSION.remote._replace(address=used))
    (far,) = (each._replace(address=used) for each in SEEN.addresses)
    offers = tuple(Offer(address, None, number) for address, number in ((VAULT, 1), (second, 2), (used, 1)))
    seen = SEEN._replace(sessions=(session,), addresses=(far,), offers=offers)

    assert "link core/9 - vault/fast" == chain(seen, expected).by


def test_the_plan_promises_nothing_of_a_road_to_another_port_of_the_storage() -> None:
    """The seat's own port is the planned one, and the traffic goes to the slow port of the storage."""
    to_slow = SESSION._replace(remote=SESSION.remote._replace(address=SLOW_VAULT))
    seen = with_wire(ALONE._replace(sessions=(to_slow,), addresses=(SLOW_FAR._replace(route=BY_WIRE),)))

    assert "en5 at 10 Gb/s (1250 MB/s) in packets of 1500 octets" == chain(seen).by
    assert chain_of(situation(with_wire(seen, made_up_rate=True, bus=None))) is None


def test_the_plan_promises_nothing_of_a_road_through_a_router_that_it_does_not_have() -> None:
    seen = with_far(route=BY_WIRE._replace(gateway=IPv4Address("10.44.20.1")))

    assert "en5 at 10 Gb/s (1250 MB/s)" == chain(seen._replace(offers=None)).by
    assert "link core/9 - vault/fast" == chain(seen, planned(routed=True)).by


@pytest.mark.parametrize(
    "seen",
    [
        SEEN._replace(sessions=(OLD_SESSION,)),
        with_interface(
            Interface("tun0", medium="tunnel", rate_bit_per_s=GBIT),
            SEEN._replace(sessions=(SESSION._replace(interface="tun0"),)),
        ),
        with_wire(rate_bit_per_s=None),
        SEEN._replace(sessions=(), addresses=()),
    ],
)
def test_the_air_tunnels_and_unknown_links_promise_nothing(seen: Observation) -> None:
    assert chain_of(situation(seen, None)) is None


def test_a_planned_road_without_any_figure_promises_nothing_of_itself() -> None:
    bare = planned(goodput_bit_per_s=None, network_bit_per_s=None)

    assert "en5 at 10 Gb/s (1250 MB/s)" == chain(ALONE, bare).by
    assert chain_of(situation(with_wire(ALONE, rate_bit_per_s=None), bare)) is None
    only_disks = planned(goodput_bit_per_s=GBIT, network_bit_per_s=None)
    assert chain_of(situation(with_wire(ALONE, rate_bit_per_s=None, bus=None), only_disks)) is None


def test_the_air_that_is_planned_promises_nothing_either() -> None:
    assert chain_of(situation(SEEN, planned_port("wire", radio=True))) is None
