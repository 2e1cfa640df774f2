"""Remarks: each choice of a draft is explained where it stands."""

from __future__ import annotations

import pytest

from netaudit.calculations.goodput import tcp_goodput_bit_per_s
from netaudit.plan.draft import draft
from netaudit.plan.drafting import remarks as said
from netaudit.plan.drafting.interview import answers_in
from netaudit.plan.drafting.remarks import remarks
from netaudit.plan.writing.yaml_text import Comments


def remarks_on(text: str) -> Comments:
    return remarks(draft(answers_in(text, "room.yaml")))


def test_the_switch_says_that_it_is_to_be_bought_and_what_to_write_when_it_is() -> None:
    text = remarks_on("{}")["devices", "core"]

    assert "buy at least that" in text
    assert "owned: true" in text


def test_the_storage_network_says_why_it_has_no_gateway_and_no_mtu() -> None:
    text = remarks_on("{}")["networks", "media"]

    assert "no gateway" in text
    assert "No mtu" in text


def test_large_packets_gain_what_the_remark_says() -> None:
    gain = tcp_goodput_bit_per_s(10**10, 9000) / tcp_goodput_bit_per_s(10**10, 1500) - 1

    assert 5 == round(100 * gain)
    assert "about 5 %" in said.STORAGE_NETWORK


@pytest.mark.parametrize(
    ("answers", "key", "remark"),
    [
        ("{}", ("networks", "office"), said.OFFICE),
        ("office_subnet: unknown", ("networks", "office"), said.OFFICE_UNKNOWN),
        ("{seats: 2, switch: no}", ("networks", "media-2"), said.OTHER_CABLE),
        ("{}", ("devices", "cut-1"), said.AIR),
        ("wifi: no", ("devices", "cut-1"), said.NO_AIR),
        ("systems: [macos, unknown, linux]", ("devices", "cut-1"), said.SYSTEM_UNKNOWN),
        ("walls: 6A", ("devices", "edit room-plate"), said.OUTLETS),
        ("{}", ("devices", "core"), said.SWITCH),
        ("{}", ("devices", "vault"), said.DISKS_UNKNOWN),
        ("drives: 8", ("devices", "vault"), said.DISKS_INCOMPLETE),
        ("walls: 6A", ("cables", "W01"), said.WALL),
        ("walls: unknown", ("cables", "W01"), said.JACKET),
        ("walls: unknown", ("cables", "W03"), said.JACKET),
        ("distances: unknown", ("cables", "C03"), said.LENGTH),
        ("{walls: 6A, distances: unknown}", ("cables", "W02"), said.LENGTH),
        ("{}", ("cables", "D01"), said.TWINAX),
        ("{}", ("cables", "C01"), said.CORD),
    ],
)
def test_a_choice_is_explained_where_it_stands(answers: str, key: tuple[str, str], remark: str) -> None:
    assert remark in remarks_on(answers)[key]


@pytest.mark.parametrize(
    ("answers", "remark"),
    [
        ("{}", said.OFFICE_UNKNOWN),
        ("wifi: no", said.OFFICE),
        ("{}", said.OTHER_CABLE),
        ("wifi: no", said.AIR),
        ("{}", said.NO_AIR),
        ("{}", said.SYSTEM_UNKNOWN),
        ("{}", said.OUTLETS),
        ("{seats: 2, switch: no}", said.SWITCH),
        ("{drives: 8, drive_read: 200 MB/s, layout: mirror}", said.DISKS_UNKNOWN),
        ("{drives: 8, drive_read: 200 MB/s, layout: mirror}", said.DISKS_INCOMPLETE),
        ("{}", said.WALL),
        ("walls: 5e", said.JACKET),
        ("walls: 5e", said.LENGTH),
        ("storage_port: rj45", said.TWINAX),
        ("walls: 5e", said.CORD),
    ],
)
def test_what_a_plan_does_not_hold_is_not_explained(answers: str, remark: str) -> None:
    assert not any(remark in text for text in remarks_on(answers).values())


def test_what_holds_for_a_kind_is_said_once() -> None:
    texts = remarks_on("{seats: 6, rooms: 'a, b, c, a, b, c', walls: '6A, 6, nothing'}").values()

    assert [1] * 4 == [
        sum(text.count(once) for text in texts) for once in (said.OUTLETS, said.WALL, said.CORD, said.SEATS)
    ]


def test_the_cables_name_the_letters_that_are_used() -> None:
    assert "C: cord at a seat · S: cord at the storage" == remarks_on("storage_port: rj45")["cables",]
    assert (
        "C: cord at a seat · W: in the wall · P: cord at the panel · D: copper with its plugs made on"
        == remarks_on("walls: 6")["cables",]
    )
