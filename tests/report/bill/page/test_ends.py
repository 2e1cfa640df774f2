"""Where the cables of a page go."""

from __future__ import annotations

from bills import full_bill, port

from netaudit.report.bill.page.ends import Ends, ends_of


def test_every_cable_has_its_two_ends_and_a_breakout_all_its_tails() -> None:
    ends = ends_of(full_bill().accept)

    assert Ends(port("core/13"), (port("vault/a"), port("vault/b"))) == ends["B01"]
    assert [row.cable for row in full_bill().accept] == list(ends)
