"""Lanes: names, ports and subnets between desk and storage."""

from __future__ import annotations

from ipaddress import IPv4Network, IPv6Network, ip_network

import pytest

from netaudit.plan.drafting.interview import answers_in
from netaudit.plan.drafting.lanes import STORAGE_RANGES, Lane, lanes, storage_subnets

RFC_1918 = [ip_network(block) for block in ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16")]
"""IETF RFC 1918, section 3: the addresses that no network outside a house uses."""


def lanes_of(text: str) -> list[Lane]:
    return list(lanes(answers_in(text, "room.yaml")))


def test_each_private_block_holds_one_range_whole() -> None:
    spread = [IPv4Network((int(first.network_address), 22)) for first in STORAGE_RANGES]

    assert all(inner.subnet_of(block) for inner, block in zip(spread, RFC_1918, strict=True))


@pytest.mark.parametrize(
    ("office", "expected"),
    [
        (None, "10.44.20.0/24"),
        ("192.168.1.0/24", "10.44.20.0/24"),
        ("10.44.20.0/24", "172.20.44.0/24"),
        ("10.44.22.128/25", "172.20.44.0/24"),
        ("10.44.23.0/24", "10.44.20.0/24"),
        ("10.0.0.0/8", "172.20.44.0/24"),
        ("0.0.0.0/1", "172.20.44.0/24"),
        ("fd00::/8", "10.44.20.0/24"),
    ],
)
def test_the_storage_gets_subnets_that_the_office_does_not_touch(office: str | None, expected: str) -> None:
    found = storage_subnets(3, None if office is None else ip_network(office))

    assert expected == str(found[0])
    assert 3 == len(set(found))
    assert not any(one.overlaps(other) for one in found for other in found if one is not other)


def test_an_office_that_takes_every_address_is_refused() -> None:
    with pytest.raises(ValueError, match=r"'0\.0\.0\.0/0' leaves no private addresses"):
        storage_subnets(1, IPv4Network("0.0.0.0/0"))
    assert 1 == len(storage_subnets(1, IPv6Network("::/0")))


def test_seats_on_a_switch_share_one_network_and_have_a_port_each() -> None:
    found = lanes_of("seats: 4")

    assert ["media"] * 4 == [lane.network for lane in found]
    assert ["core/1", "core/2", "core/3", "core/4"] == [str(lane.far) for lane in found]
    assert 1 == len({lane.subnet for lane in found})


@pytest.mark.parametrize(
    ("seats", "expected"),
    [
        (1, [("media", "10.44.20.0/24", "vault/fast")]),
        (2, [("media-1", "10.44.20.0/24", "vault/fast-1"), ("media-2", "10.44.21.0/24", "vault/fast-2")]),
    ],
)
def test_seats_without_a_switch_have_a_network_and_a_storage_port_each(
    seats: int, expected: list[tuple[str, str, str]]
) -> None:
    found = lanes_of(f"{{seats: {seats}, switch: no}}")

    assert expected == [(lane.network, str(lane.subnet), str(lane.far)) for lane in found]


def test_jacks_are_counted_by_room_in_the_outlets_and_through_in_the_panel() -> None:
    found = lanes_of("{seats: 'a, b, c, d', rooms: 'loft, bay, loft, hut', walls: '6, 6A, nothing'}")

    assert ["loft-plate/1", "bay-plate/1", "loft-plate/2", None] == [
        lane.joint and str(lane.joint.plate) for lane in found
    ]
    assert ["panel/1", "panel/2", "panel/3", None] == [lane.joint and str(lane.joint.panel) for lane in found]


def test_no_name_is_given_twice_whatever_seats_and_rooms_are_called() -> None:
    found = lanes_of(
        "{seats: [core, core-2, panel, loft-plate, plate, e], storage: panel-2, walls: 6A,"
        f" rooms: [loft, a/b, c/d, loft, {'x' * 64}, y]}}"
    )

    plates = {lane.joint.plate.device for lane in found if lane.joint}
    assert {"core-3"} == {lane.far.device for lane in found}
    assert {"panel-3"} == {lane.joint.panel.device for lane in found if lane.joint}
    assert {"plate-2", "plate-3", "plate-4", "plate-5", "y-plate"} == plates
