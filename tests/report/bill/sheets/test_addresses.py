"""The sheet of addresses."""

from __future__ import annotations

from bills import HOSTILE, full_bill

from netaudit.report.bill.sheets.addresses import addresses_sheet


def rows(device: str) -> list[tuple[object, ...]]:
    """The rows of one machine."""
    return [row[1:] for row in addresses_sheet(full_bill()).rows if row[0] == device]


def test_a_seat_is_told_what_to_set_what_to_mount_and_what_to_leave_alone() -> None:
    expected = [
        ("address", "wire", "en5", "media", "10.44.20.11/24", None),
        ("largest packet", "wire", "en5", "media", "9000", "octets"),
        ("router", "wire", "en5", "media", None, "leave it empty"),
        ("address", "air", None, "office", "lease", None),
        ("router", "air", None, "office", "192.168.44.1", None),
        ("mount", "wire", None, "media", "10.44.20.10", "vault"),
        ("never mount", None, None, None, "192.168.44.10", "vault; by this address traffic takes another road"),
        ("mount", None, None, None, None, "attic; no road leads there"),
        ("leave alone", None, None, None, None, "Type no router in at wire."),
    ]

    assert expected == rows("cut-1")


def test_a_storage_is_told_who_mounts_it_and_what_the_plan_does_not_say() -> None:
    expected = [
        ("address", "fast", None, None, None, "the plan gives none"),
        ("mounted at", None, None, None, "10.44.20.10", "by cut-1"),
        ("mounted at", None, None, None, None, f"by {HOSTILE[0]}; the plan gives no address"),
    ]

    assert expected == rows("vault")
