"""What to mind: sizes of packets, tags, and seats that have no road, each only where it matters."""

from __future__ import annotations

from ipaddress import ip_address

import pytest
from wiring import aerial, cable, jack, network, seat, switch, vault, wired

from netaudit.model.plan import Cable, Network, Port, System
from netaudit.network.topology import build_topology
from netaudit.ordering.cards.address_cards import address_cards

MEDIA = network("media", "10.44.20.0/24", purpose="storage", mtu=9000)
HERE = ip_address("10.44.20.11")
WIRE = jack(untagged="media", addresses=(HERE,), mtu=9000)
VAULT = vault(ports={"fast": jack(untagged="media", addresses=(ip_address("10.44.20.10"),), mtu=9000)})
SWITCHED = (cable("C01", "cut-1/wire", "core/1"), cable("D01", "core/2", "vault/fast"))
DIRECT = (cable("C01", "cut-1/wire", "vault/fast"),)


def minded(
    *ports: Port, networks: tuple[Network, ...] = (MEDIA,), cables: tuple[Cable, ...] = SWITCHED, name: str = "cut-1",
    system: System | None = None,
) -> tuple[str, ...]:  # fmt: skip
    """What one machine is told, in a room of one seat, one switch and one storage."""
    own = {"wire": ports[0]} | {f"more-{number}": port for number, port in enumerate(ports[1:])}
    plan = wired(*networks, seat("cut-1", own, system=system), switch("core"), VAULT, *cables)
    return next(card.mind for card in address_cards(plan, build_topology(plan)) if card.device == name)


def test_large_packets_are_set_at_both_ends_and_all_switches_between_or_nowhere() -> None:
    expected = "Packets of 9000 octets at {}: set the same at the far end and at all switches between, or nowhere."

    assert minded(WIRE) == (expected.format("cut-1/wire"),)
    assert minded(WIRE, name="vault") == (expected.format("vault/fast"),)


def test_a_cable_straight_to_the_storage_has_no_switches_between() -> None:
    expected = "Packets of 9000 octets at {}: set the same at the far end, or nowhere."

    assert minded(WIRE, cables=DIRECT) == (expected.format("cut-1/wire"),)
    assert minded(WIRE, cables=DIRECT, name="vault") == (expected.format("vault/fast"),)


def test_drivers_of_windows_may_count_the_header_of_a_frame() -> None:
    # IEEE Std 802.3-2022 clause 3.1.1: two addresses of 6 octets and a type of 2 before the packet.
    expected = "Drivers of Windows may write 9014 for 9000: they count the header of a frame too."

    assert [True, False, False, False] == [
        expected in minded(WIRE, system=system) for system in ("windows", "macos", "linux", None)
    ]
    assert not any("Windows" in one for one in minded(WIRE._replace(mtu=None), system="windows"))
    assert not any("Windows" in one for one in minded(WIRE._replace(mtu=1500), system="windows"))


@pytest.mark.parametrize("port", [WIRE._replace(mtu=1500), aerial(1, untagged="media", addresses=(HERE,), mtu=9000)])
def test_packets_of_the_usual_size_and_those_of_a_radio_need_no_caution(port: Port) -> None:
    assert not any("acket" in one for one in minded(port))


def test_a_size_that_only_the_network_gives_is_for_somebody_to_decide() -> None:
    bare = WIRE._replace(mtu=None)

    assert minded(bare) == (
        "The plan asks for packets of 9000 octets in media, not at cut-1/wire: decide, for all its ends.",
    )
    assert () == minded(bare, networks=(MEDIA._replace(mtu=1500),))
    assert not any("acket" in one for one in minded(aerial(1, untagged="media", leased=True)))


def test_a_tagged_network_is_set_in_its_vlan() -> None:
    own = jack(untagged="media", tagged=("lab",), addresses=(HERE, ip_address("10.7.0.5")), mtu=1500)
    lab = network("lab", "10.7.0.0/24", vlan=20)

    assert minded(own, networks=(MEDIA, lab)) == (
        "Set what is for lab at cut-1/wire in VLAN 20: it travels tagged there.",
    )
    assert minded(own, networks=(MEDIA, lab._replace(vlan=None))) == (
        "Set what is for lab at cut-1/wire in its VLAN, which the plan does not number: it travels tagged there.",
    )
