"""The day of the move as plain values."""

from __future__ import annotations

from bills import SEAT, VAULT, full_bill

from netaudit.model.moving import Setting
from netaudit.report.bill.data.day import acceptance_values, card_values, label_values, port_values, step_values


def test_a_label_has_the_keys_of_the_contract_first() -> None:
    expected = [
        ("cable", "C01"), ("end", "from"), ("text", "C01 cut-1/wire > loft-plate/1"), ("port", "cut-1/wire"),
        ("far", ["loft-plate/1"]),
    ]  # fmt: skip

    assert expected == list(label_values(full_bill().labels[0]).items())


def test_a_port_without_a_cable_has_nulls_and_no_address() -> None:
    values = port_values(full_bill().ports[2])

    assert "core/ge/0/11" == values.pop("port")
    assert [] == values.pop("addresses")
    assert {None} == set(values.values())


def test_a_step_says_which_end_first_and_a_tick_what_to_expect() -> None:
    step = {"number": 1, "group": "storage", "cable": "D01", "first": "vault/fast", "then": ["core/9"]}

    assert step == step_values(full_bill().plug[0])
    assert [10_000_000_000, None] == [acceptance_values(row)["expected_bit_per_s"] for row in full_bill().accept[:2]]


def test_a_row_to_tick_says_whether_any_port_shows_a_rate() -> None:
    assert [True, True, True, False] == [acceptance_values(row)["shown"] for row in full_bill().accept]


def test_a_setting_has_its_vlan_and_its_netmasks() -> None:
    wire, air, tagged = card_values(SEAT)["settings"]

    assert [(None, False), (None, False), (30, True)] == [(one["vlan"], one["tagged"]) for one in (wire, air, tagged)]
    assert [["255.255.255.0", None], [None]] == [wire["netmasks"], air["netmasks"]]


def test_a_setting_tells_all_that_the_model_knows_of_it() -> None:
    wire, *_ = SEAT.settings
    open_one = SEAT._replace(settings=(wire._replace(mtu=None, open_mtu=9000),))
    (values,) = card_values(open_one)["settings"]

    assert list(Setting._fields) == list(values)
    assert (None, 9000) == (values["mtu"], values["open_mtu"])


def test_what_to_leave_and_what_to_mind_are_two_things() -> None:
    card = card_values(SEAT)

    assert (list(SEAT.leave), list(SEAT.mind)) == (card["leave"], card["mind"])


def test_a_seat_has_what_to_mount_and_what_never() -> None:
    mounts = card_values(SEAT)["mounts"]
    expected = {
        "storage": "vault", "addresses": ["10.44.20.10"], "through": "cut-1/wire", "network": "media",
        "never": ["192.168.44.10"],
    }  # fmt: skip

    assert expected == mounts[0]
    assert (None, []) == (mounts[1]["through"], mounts[1]["addresses"])


def test_a_storage_has_who_mounts_it() -> None:
    assert {"station": "cut-1", "address": "10.44.20.10"} == card_values(VAULT)["mounted_by"][0]
