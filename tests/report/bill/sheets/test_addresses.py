"""The sheet of addresses."""

from __future__ import annotations

from bills import HOSTILE, full_bill

from netaudit.report.bill.sheets.addresses import addresses_sheet


def rows(device: str) -> list[tuple[object, ...]]:
    """The rows of one machine."""
    return [row[1:] for row in addresses_sheet(full_bill()).rows if row[0] == device]


def test_a_seat_is_told_what_to_set_what_to_mount_and_what_to_leave_alone() -> None:
    expected = [
        ("address", "wire", "en5", "media", "10.44.20.11/24", "netmask 255.255.255.0"),
        ("address", "wire", "en5", "media", "fd00::11/64", None),
        ("router", "wire", "en5", "media", None, "leave it empty"),
        ("largest packet (MTU)", "wire", "en5", "media", "9000", "octets"),
        ("address", "air", None, "office", "lease", None),
        ("router", "air", None, "office", "192.168.44.1", None),
        ("largest packet (MTU)", "air", None, "office", None, "leave it as it is"),
        ("address", "wire", "en5", "sound", "10.44.30.11/24", "netmask 255.255.255.0"),
        ("VLAN", "wire", "en5", "sound", "30", "tagged"),
        ("router", "wire", "en5", "sound", None, "leave it empty"),
        ("largest packet (MTU)", "wire", "en5", "sound", None, "leave it as it is"),
        ("mount", "wire", None, "media", "10.44.20.10", "vault"),
        ("never mount", None, None, None, "192.168.44.10", "vault; by this address traffic takes another road"),
        ("mount", None, None, None, None, "attic; no road leads there"),
        ("mind", None, None, None, None, "Set packets of 9000 octets at both ends, or nowhere."),
        ("leave alone", None, None, None, None, "Type no router in at wire."),
    ]

    assert expected == rows("cut-1")


def test_a_storage_is_told_who_mounts_it_and_what_the_plan_does_not_say() -> None:
    expected = [
        ("address", "fast", None, None, None, "the plan gives none"),
        ("largest packet (MTU)", "fast", None, None, None, "leave it as it is"),
        ("mounted at", None, None, None, "10.44.20.10", "by cut-1"),
        ("mounted at", None, None, None, None, f"by {HOSTILE[0]}; the plan gives no address"),
    ]

    assert expected == rows("vault")
